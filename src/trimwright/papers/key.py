"""The key: what the marks of one page mean, and only those that are on it."""

from trimwright.drawing import (
    LEAD_MM,
    Circle,
    Element,
    Fill,
    Line,
    PenName,
    Point,
    Setting,
    bevel_arrow,
    drill_cross,
    nail_cross,
    text_box,
)

SAMPLE_MM, ROW_MM = 15.0, 6.4
WORDS = Setting(LEAD_MM)

# what is on a layer, in the order of the key
MEANS: dict[str, str] = {
    "saw": "saw line: saw outside it, the line stays",
    "waste": "cut away before covering",
    "open": "still to be cut, a finding asks for it",
    "other face": "edge of the other face, where the saw leans",
    "recess": "taken out of the other face",
    "drill": "hole for a bolt",
    "bevel": "bevel: head on the short edge, from square",
    "cut": "cut line of the card",
    "covered": "with layers and loose carpet",
    "fold": "fold line",
    "tab": "tab: glue it behind the next panel",
    "gear": "shaft at the deck's top, in each gear",
    "knob": "knob from above, in each gear",
    "datum": "places along the car; chain line: datum",
    "band": "trunk of the loom, at true length",
    "nail": "nail",
    "tick": "tick: how far from the trunk's first place",
    "joint": "page joint",
}
PENS: dict[str, PenName] = {
    "saw": "saw",
    "other face": "hidden",
    "recess": "hidden",
    "cut": "cut",
    "covered": "hidden",
    "fold": "centre",
    "tab": "thin",
    "gear": "visible",
    "knob": "other-body",
    "datum": "centre",
    "band": "saw",
    "tick": "thin",
    "joint": "other-body",
}


def key(at: Point, layers: frozenset[str], width_mm: float) -> tuple[tuple[Element, ...], float]:
    """Return the key for the layers of a page from its top left corner, and its height [mm]."""
    drawn: list[Element] = []
    y = at[1]
    for layer, means in MEANS.items():
        if layer not in layers:
            continue
        words, high = text_box(
            (at[0] + SAMPLE_MM + 5.0, y), means, width_mm - SAMPLE_MM - 5.0, WORDS
        )
        drawn += [*_sample(layer, (at[0], y + WORDS.size_mm / 2)), *words]
        y += max(high + 1.6, ROW_MM)
    return tuple(drawn), y - at[1]


def _sample(layer: str, at: Point) -> list[Element]:
    """Return a short piece of what is on a layer, its left end at a place."""
    x, y = at
    if layer in ("waste", "open"):
        corners = ((x, y - 2.0), (x + SAMPLE_MM, y - 2.0), (x + SAMPLE_MM, y + 2.0), (x, y + 2.0))
        pen: PenName = "thin" if layer == "waste" else "other-body"
        return [Fill(corners, hatch="waste"), Line(corners, pen, closed=True)]
    if layer == "bevel":
        arrow = bevel_arrow((x + 1.0, y), 0.0, "", 13.0)
        return [one for one in arrow if isinstance(one, Fill | Line)]
    if layer in ("nail", "drill"):
        middle = (x + SAMPLE_MM / 2, y)
        return [*(nail_cross(middle) if layer == "nail" else drill_cross(middle, 4.0))]
    if layer in ("gear", "knob"):
        return [Circle((x + SAMPLE_MM / 2, y), 2.2, PENS[layer])]
    ways = (y - 1.0, y + 1.0) if layer == "band" else (y,)
    return [Line(((x, at_y), (x + SAMPLE_MM, at_y)), PENS[layer]) for at_y in ways]
