"""A loom over its hinge, seen along the axis: closed, open, and where it bends the tightest."""

from math import hypot, isclose

import numpy as np
from numpy.typing import NDArray

from trimwright.drawing import LABEL_MM, Circle, Element, Line, PenName, Text
from trimwright.quantities import Unit, shown_with_unit
from trimwright.wiring import Crossing, Lying

PICTURE_MM, MARGIN_MM = 70.0, 13.0  # room for a word beside each hole
ASIDE_MM = 2.5  # from a hole to its word
HOLE_MM, AXIS_MM = 1.0, 2.5  # radius of a hole's ring, half the cross of the axis, as drawn
EVERY = 8  # points of a shape that are passed over
Points = NDArray[np.float64]
Named = tuple[str, float, PenName]  # an opening: its word, how far [deg], its pen


def picture(one: Crossing) -> tuple[tuple[Element, ...], tuple[float, float]]:
    """Return the figure, its origin at its top left corner, and how wide and high it is [mm]."""
    named: tuple[Named, ...] = (
        ("closed", 0.0, "visible"),
        ("open", one.swing.opens_deg, "hidden"),
    )
    lines = {word: _line(one, open_deg) for word, open_deg, _ in named}
    around = np.concatenate([np.zeros((1, 2)), *lines.values()])
    low, high = around.min(axis=0), around.max(axis=0)
    scale = (PICTURE_MM - 2 * MARGIN_MM) / float(max(high - low))

    def at(point: Points) -> tuple[float, float]:
        x, y = ((point - low) * scale).tolist()
        return round(MARGIN_MM + x, 3), round(MARGIN_MM + float(high[1] - low[1]) * scale - y, 3)

    axis = at(np.zeros(2))
    drawn: list[Element] = [
        Line(((axis[0] - dx, axis[1] - dy), (axis[0] + dx, axis[1] + dy)), "centre", layer="hinge")
        for dx, dy in ((AXIS_MM, 0.0), (0.0, AXIS_MM))
    ]
    for word, _, pen in named:
        line = lines[word]
        points = tuple(at(point) for point in line)
        drawn.append(Line((axis, points[-1]), "thin", layer="hinge"))
        drawn.append(Line(points, pen, layer="loom"))
        drawn += [Circle(end, HOLE_MM, "thin", layer="hole") for end in (points[0], points[-1])]
        drawn.append(_word(word, points[-1], axis))
    body = at(lines["closed"][0])
    drawn += [Line((axis, body), "thin", layer="hinge"), _word("body", body, axis)]
    wide, tall = ((high - low) * scale + 2 * MARGIN_MM).tolist()
    return tuple(drawn), (wide, tall)


def _word(word: str, at: tuple[float, float], axis: tuple[float, float]) -> Text:
    """Return the word of a hole, further out from the axis than the hole."""
    x, y = at[0] - axis[0], at[1] - axis[1]
    far = hypot(x, y) or 1.0
    place = (at[0] + ASIDE_MM * x / far, at[1] + ASIDE_MM * y / far + 0.35 * LABEL_MM)
    if abs(x) < abs(y) / 2:
        down = 0.5 * LABEL_MM * (1 if y > 0 else -1)
        return Text((place[0], place[1] + down), word, LABEL_MM, anchor="middle")
    return Text(place, word, LABEL_MM, anchor="start" if x > 0 else "end")


def _line(one: Crossing, open_deg: float) -> Points:
    """Return how the loom goes at an opening; straight where it is stretched, or has no shape."""
    for lying in one.lyings:
        if isclose(lying.open_deg, open_deg, abs_tol=1e-6):
            return np.concatenate([lying.points_mm[:-1:EVERY], lying.points_mm[-1:]])
    return np.array(one.swing.holes(open_deg))


def told(one: Crossing, unit: Unit) -> list[str]:
    """Return what is known of a loom over its hinge, a line each."""
    free = "not written" if one.hinge.free is None else shown_with_unit(one.free_mm, unit)
    shut, wide = (
        shown_with_unit(one.swing.straight_mm(at), unit) for at in (0.0, one.swing.opens_deg)
    )
    lines = [
        f"over its hinge, from {one.own.trunk.start} to {one.own.trunk.end}",
        f"free between the holes: {free}",
        f"holes apart: {shut} closed, {wide} open",
        f"most {shown_with_unit(one.longest_mm, unit, 'up')}, opened {one.swing.longest_deg:.0f}°",
    ]
    found: Lying | None = one.tightest
    if found is None:
        return [*lines, "no shape: stretched, or longer than was looked for"]
    radius = shown_with_unit(found.radius_mm, unit, "down")
    at = "closed" if found.open_deg <= 0 else f"opened {found.open_deg:.0f}°"
    lines.append(f"middle line bends to {radius}, {at}")
    if one.limit_mm is not None and one.bend is not None:
        limit = shown_with_unit(one.limit_mm, unit, "up")
        lines.append(f"no tighter than {limit}: {one.bend.times:g} times its thickness, inside")
    return lines
