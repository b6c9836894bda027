"""Labels to print: one for each end of each wire, to wrap round it as a flag."""

from trimwright.build import Build
from trimwright.cabin import Cabin
from trimwright.drawing import (
    LABEL_MM,
    Box,
    Element,
    Line,
    Setting,
    Size,
    Text,
    wrapped,
)
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import heading
from trimwright.papers.wiring.wire_list import wire_number
from trimwright.papers.wiring.wording import colour_words, place_words, short_end, size_words
from trimwright.quantities import shown_with_unit
from trimwright.wiring import End, MadeOf, Wire, WiringOutcome, made_of

TITLE = "Labels for wire ends"
WRAP_MM = 14.0  # blank end that goes round the wire: up to 4 mm thick, and on itself
PAD_MM, LEADING = 1.2, 1.32
COLUMNS = 3
BODY, NAME = Setting(LABEL_MM), Setting(LABEL_MM, "count-bold")


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return a label for each end of each wire, as a grid to cut; none without a wiring."""
    found = cabin.wiring
    if found is None or not found.loom.wires:
        return ()
    build = cabin.build
    _, first = heading(size, build, TITLE, _words(build, 0.0, 0.0))
    wide = first.width / COLUMNS
    labels = label_lines(found, wide - WRAP_MM - 2 * PAD_MM)
    high = max(len(lines) for lines in labels) * LABEL_MM * LEADING + 2 * PAD_MM
    head, first = heading(size, build, TITLE, _words(build, wide, high))
    later, rest = heading(size, build, f"{TITLE}, continued", "")
    pages: list[list[Element]] = []
    left = list(labels)
    while left:
        words, box = (head, first) if not pages else (later, rest)
        count = max(1, int(box.height // high)) * COLUMNS
        pages.append([*words, *_grid(left[:count], Box(box.x, box.y, wide, high))])
        left = left[count:]
    return tuple(
        Leaf(size, tuple(drawn), "wiring", "labels", f"{n} of {len(pages)}")
        for n, drawn in enumerate(pages, start=1)
    )


def _words(build: Build, wide: float, high: float) -> str:
    """Return how to use the labels."""
    unit = build.unit
    across, tall = shown_with_unit(wide, unit), shown_with_unit(high, unit)
    blank = shown_with_unit(WRAP_MM, unit)
    return (
        f"Each is {across} by {tall}: cut along the lines, wrap the blank {blank} round the wire,"
        " stick it to the back of the words, so that they stand off as a flag. Clear tape over it."
    )


def label_lines(
    found: WiringOutcome, width_mm: float
) -> tuple[tuple[tuple[str, Setting], ...], ...]:
    """Return the lines of words of every label, both ends of a wire one after the other."""
    made = made_of(found)
    return tuple(
        _lines(one, here, there, made, width_mm)
        for one in found.loom.wires
        for here, there in ((one.start, one.end), (one.end, one.start))
    )


def _lines(
    one: Wire, here: End, there: End, made: dict[str, MadeOf], width_mm: float
) -> tuple[tuple[str, Setting], ...]:
    """Return the lines of one label: which wire, what it goes to here, what is at its other end."""
    told = (
        (f"{wire_number(one)} {one.name}", NAME),
        (f"{colour_words(one.colour)}, {size_words(made[one.name])}", BODY),
        (f"here: {short_end(here)}", BODY),
        (f"to: {short_end(there)}, {place_words(there)}", BODY),
    )
    return tuple((line, s) for words, s in told for line in wrapped(words, width_mm, s))


def _grid(some: list[tuple[tuple[str, Setting], ...]], first: Box) -> list[Element]:
    """Return labels in rows from the place of the first, with the lines to cut along."""
    drawn: list[Element] = []
    for number, lines in enumerate(some):
        row, column = divmod(number, COLUMNS)
        box = Box(
            first.x + column * first.width, first.y + row * first.height, first.width, first.height
        )
        drawn.append(Line(box.corners, "thin", closed=True, layer="cut"))
        fold = box.x + WRAP_MM
        drawn.append(Line(((fold, box.y), (fold, box.bottom)), "hidden", layer="fold"))
        for k, (words, setting) in enumerate(lines):
            at = (fold + PAD_MM, box.y + PAD_MM + LABEL_MM * (0.8 + k * LEADING))
            room = box.right - fold - 2 * PAD_MM
            drawn.append(Text(at, words, LABEL_MM, setting.face, box_mm=room))
    return drawn
