"""The wiring diagram: feeds above, ground below, a numbered current path for every circuit."""

from msgspec import Struct

from trimwright.build import Build
from trimwright.cabin import Cabin
from trimwright.drawing import (
    LABEL_MM,
    NAME_MM,
    TITLE_WIDE_MM,
    WORD_MM,
    Box,
    Element,
    Group,
    Line,
    Page,
    Setting,
    Size,
    Text,
    frame_box,
    size_mm,
    text_box,
    text_width,
    wrapped,
)
from trimwright.papers.leaf import Leaf, pages, title_area
from trimwright.papers.wiring_symbol import bar, dot, drawn, text
from trimwright.papers.wiring_words import (
    CAUTION,
    REST,
    key_words,
    labels,
    rules_told,
    unshown,
    ways_out,
)
from trimwright.wiring import Diagram, DiagramPage, Stroke, Type, WiringOutcome, diagram

DIN = {"always": "30", "accessory": "75", "ignition": "15", "start": "50"}  # DIN 72552
INSET_MM, GAP_MM = 4.0, 3.0
NUMBER_MM, WORDS_MM, LINE_MM = 5.4, 9.0, 3.2  # down the strip: to the number, its words, a line
BESIDE_MM = 60.0  # least width beside a title block that words are set in
BESIDE_GAP_MM = 12.0  # from the diagram to words at its right
FOOT_MM = 24.0  # below the diagram, across a page that has no room beside its title block
SAID = Setting(LABEL_MM)
TYPE = Type(
    {"label": LABEL_MM, "word": WORD_MM, "name": NAME_MM},
    text_width,
    lambda words, room, size, face: wrapped(words, room, Setting(size, face)),
)


class Ground(Struct, frozen=True):
    """A sheet, the rectangle of the diagram on it, and that of the words at its left foot [mm]."""

    size: Size
    room: Box
    foot: Box


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return the diagram's pages and the page of words, none where there is no wiring."""
    outcome = cabin.wiring
    if outcome is None or not outcome.loom.wires:
        return ()
    return pages_of(outcome, cabin.build, size)


def wiring_pages(cabin: Cabin, size: Size) -> tuple[Page, ...]:
    """Return the diagram's pages by themselves, for a screen; none where there is no wiring."""
    return pages(leaves(cabin, size), cabin.build)


def set_out(outcome: WiringOutcome, build: Build, size: Size) -> tuple[Ground, Diagram]:
    """Return a wiring's diagram set out, and the sheet that it fits."""
    grounds = tuple(_ground(one, build) for one in sheets(size))
    rooms = tuple((one.room.width, one.room.height) for one in grounds)
    made = diagram(outcome.wiring, outcome.loom, labels(outcome), TYPE, rooms)
    return grounds[made.sheet], made


def pages_of(outcome: WiringOutcome, build: Build, size: Size) -> tuple[Leaf, ...]:
    """Return the pages of a wiring's diagram, with words at their feet, and what is left of those."""
    ground, made = set_out(outcome, build, size)
    numbers = {feed.name: DIN[feed.live] for feed in outcome.wiring.feeds} | {"battery +": "30"}
    said = _said(outcome, made)
    drawings: list[tuple[str, tuple[Element, ...]]] = []
    for page in made.pages:
        foot, said = fitted_words(said, ground.foot)
        paths = f"wiring, paths {page.heads[0].number} to {page.heads[-1].number}"
        drawings.append((paths, (*foot, drawn_page(page, ground.room, numbers))))
    if said and made.pages:
        paths, elements = drawings[-1]
        foot, said = fitted_words(said, _beside(made.pages[-1], ground.room))
        drawings[-1] = (paths, (*elements, *foot))
    while said:
        foot, said = fitted_words(said, ground.room)
        drawings.append(("wiring", foot))
    return tuple(
        Leaf(ground.size, elements, part, "wiring diagram", f"{number} of {len(drawings)}")
        for number, (part, elements) in enumerate(drawings, start=1)
    )


def sheets(size: Size) -> tuple[Size, ...]:
    """Return sheets to try: the one asked for lying and standing, then twice and four times it."""
    wide, high = size_mm(size)
    found: list[Size] = []
    for _ in range(3):
        found += [(high, wide), (wide, high)]
        wide, high = high, 2 * wide
    return tuple(found)


def _ground(size: Size, build: Build) -> Ground:
    """Return where the diagram and the words stand on a sheet."""
    box = frame_box(size)
    title = title_area(Leaf(size, (), "wiring", "wiring diagram"), build)
    left, top = box.x + INSET_MM, box.y + INSET_MM
    beside = box.width - TITLE_WIDE_MM - 2 * INSET_MM
    foot = Box(left, title.y, beside, title.height - GAP_MM / 2)
    if beside < BESIDE_MM:
        foot = Box(left, title.y - FOOT_MM, box.width - 2 * INSET_MM, FOOT_MM - GAP_MM)
    room = Box(left, top, box.width - 2 * INSET_MM, foot.y - GAP_MM - top)
    return Ground(size, room, foot)


def _said(outcome: WiringOutcome, made: Diagram) -> tuple[str, ...]:
    """Return what is said at the feet, the caution first."""
    return (
        CAUTION,
        f"{REST} {key_words(outcome)}",
        *rules_told(outcome),
        *ways_out(outcome.wiring),
        *unshown(outcome, made.left_out),
    )


def _beside(page: DiagramPage, room: Box) -> Box:
    """Return the rectangle to the right of a page's diagram [mm]; one of no height if too narrow."""
    left = room.x + page.width_mm + BESIDE_GAP_MM
    wide = room.right - left
    return Box(left, room.y, wide, page.strip_y if wide >= BESIDE_MM else 0.0)


def fitted_words(said: tuple[str, ...], box: Box) -> tuple[tuple[Element, ...], tuple[str, ...]]:
    """Return the words that a foot has room for, drawn, and those that are left."""
    found: list[Element] = []
    y = box.y + 1.0
    for number, words in enumerate(said):
        lines, high = text_box((box.x, y), words, box.width, SAID)
        if y + high > box.bottom and (found or number):
            return tuple(found), said[number:]
        if y + high > box.bottom:
            return (), said
        found += lines
        y += high + 0.8
    return tuple(found), ()


def drawn_page(page: DiagramPage, room: Box, numbers: dict[str, str]) -> Group:
    """Return a page of the diagram in its place; `numbers` are those of the rails."""
    parts: list[Element] = [bar(one, numbers.get(one.name, "")) for one in page.bars]
    parts += [_stroke(one) for one in page.strokes]
    parts += [dot(one) for one in page.dots]
    parts += [drawn(one) for one in page.symbols]
    parts += [text(one) for one in page.labels]
    parts += _strip(page, room.width)
    return Group(tuple(parts), move=(room.x, room.y))


def _stroke(stroke: Stroke) -> Group:
    """Return a wire's line, or a lead, in a group of its name."""
    name = f"wire {stroke.wire}" if stroke.wire else f"lead {stroke.part}"
    return Group((Line(stroke.points, "wire"),), name=name)


def _strip(page: DiagramPage, width: float) -> list[Element]:
    """Return the ruled strip with the number and the name of every path."""
    rules = (page.strip_y, page.height_mm)
    found: list[Element] = [Line(((0.0, y), (width, y)), "thin") for y in rules]
    found.append(Text((0.0, page.strip_y + NUMBER_MM - 0.6), "path", LABEL_MM))
    for head in page.heads:
        number = Text((head.x - 2.0, page.strip_y + NUMBER_MM), str(head.number), NAME_MM, "say")
        found.append(number)
        found += [
            Text((head.x - 2.0, page.strip_y + WORDS_MM + n * LINE_MM), line, LABEL_MM)
            for n, line in enumerate(head.words)
        ]
    return found
