"""The views: side and plan with every gap that asks for something, and the worst in section."""

import numpy as np
from msgspec import Struct

from trimwright.cabin import Cabin
from trimwright.drawing import (
    LABEL_MM,
    NAME_MM,
    Box,
    Element,
    Group,
    Setting,
    Size,
    Text,
    first_angle_symbol,
    flat,
    text_box,
)
from trimwright.findings import Finding
from trimwright.papers.car_shape import CarShape, car_shape, rest_of
from trimwright.papers.leaf import Leaf, room
from trimwright.papers.note import areas_of, ground, settled, strokes
from trimwright.papers.one_to_one import leader
from trimwright.papers.plan_view import draw_plan, half_width
from trimwright.papers.section_view import draw_section, section_extent
from trimwright.papers.side_view import draw_side, extent
from trimwright.papers.tag_strip import Spot, spot, strip
from trimwright.papers.view_sheet import ViewSheet, scale_for
from trimwright.papers.wording import place_along

HEAD_MM, STRIP_MM, DIMS_MM, GAP_MM = 9.0, 17.0, 18.0, 3.0
FOOT_MM, SYMBOL_MM = 11.0, 22.0  # high: what is said below the views; wide: the symbol beside it
AHEAD_MM, BEHIND_MM, ASIDE_MM = 100.0, 50.0, 20.0  # shown beyond the console; the rest is cut off
NEAR_MM = 30.0  # along the car: as far from a section that a gap still stands in it
INSIDE_MM = 5.0  # from an end of the console: there a section cuts nothing
NOTHING_KEPT = np.empty((0, 4))
Numbered = tuple[tuple[int, Finding], ...]


class _Spread(Struct, frozen=True):
    """Everything a page of views is drawn from."""

    cabin: Cabin
    car: CarShape
    size: Size
    open_ones: Numbered  # findings with a place, in the order of the sheet, with their numbers


def leaves(cabin: Cabin, findings: tuple[Finding, ...], size: Size) -> tuple[Leaf, ...]:
    """Return side view with plan, and the section at the worst finding that has a place."""
    if cabin.carcass is None or not cabin.carcass.panels:
        return ()
    numbered = enumerate((one for one in findings if one.grade != "good"), start=1)
    placed = tuple(
        (number, one)
        for number, one in numbered
        if one.at is not None and one.on is not None and one.measure == "mm"
    )
    spread = _Spread(cabin, car_shape(cabin), size, placed)
    return (_side_and_plan(spread), _section(spread))


def _side_and_plan(spread: _Spread) -> Leaf:
    """Return the page with the side view above the plan."""
    cabin, car, box = spread.cabin, spread.car, _box(spread)
    rest = rest_of(cabin)
    front, rear, low, high = _seen(spread)
    half = _seen_aside(spread)
    free = box.height - HEAD_MM - 2 * STRIP_MM - DIMS_MM - 2 * GAP_MM
    scale = scale_for((rear - front, high - low + 2 * half), (box.width, free))
    left = box.x + (box.width - (rear - front) / scale) / 2 - front / scale
    side = ViewSheet((left, box.y + HEAD_MM + STRIP_MM + GAP_MM + high / scale), scale)
    draw_side(side, cabin, car, rest)
    middle = side.zero[1] - low / scale + DIMS_MM + half / scale
    plan = ViewSheet((left, middle), scale)
    draw_plan(plan, cabin, car)
    crops = (
        Box(box.x, side.zero[1] - high / scale, box.width, (high - low) / scale + DIMS_MM),
        Box(box.x, middle - half / scale, box.width, 2 * half / scale),
    )
    across = tuple(one for one in spread.open_ones if _lies_across(one[1]))
    along = tuple(one for one in spread.open_ones if not _lies_across(one[1]))
    strips = (
        (_spots(along, side, (0, 2)), Box(box.x, box.y + HEAD_MM, box.width, STRIP_MM)),
        (_spots(across, plan, (0, 1)), Box(box.x, box.bottom - STRIP_MM, box.width, STRIP_MM)),
    )
    words = (
        "Console as it rests, bolted down. Other gears, seats and bodies in double chain. Zones of"
        " the findings: figures over the side view, letters at its right."
    )
    head = Text((box.x, box.y + NAME_MM), "Side view and plan", NAME_MM, "say")
    drawn = _page(spread, ((side, crops[0]), (plan, crops[1])), strips, words)
    return Leaf(spread.size, (head, *drawn), "console", "views", "1 of 2", f"1:{scale:g}")


def _section(spread: _Spread) -> Leaf:
    """Return the page with the section at the worst finding, or in the middle of the console."""
    cabin, car, box = spread.cabin, spread.car, _box(spread)
    x = _worst_place(spread)
    half, low, high = section_extent(cabin, car)
    free = box.height - HEAD_MM - STRIP_MM - 2 * GAP_MM - DIMS_MM
    scale = scale_for((2 * half, high - low), (box.width, free))
    zero = (box.x + box.width / 2, box.y + HEAD_MM + STRIP_MM + 2 * GAP_MM + high / scale)
    sheet = ViewSheet(zero, scale)
    draw_section(sheet, cabin, car, rest_of(cabin), x)
    near = tuple(
        one
        for one in spread.open_ones
        if one[1].at is not None and abs(one[1].at[0] - x) <= NEAR_MM
    )
    crop = Box(box.x, zero[1] - high / scale, box.width, (high - low) / scale)
    strips = ((_spots(near, sheet, (1, 2)), Box(box.x, box.y + HEAD_MM, box.width, STRIP_MM)),)
    place = place_along(x, cabin.build.unit)
    words = "Seen from behind: right is right. Wood that is cut is hatched; covers are thin lines."
    head = Text((box.x, box.y + NAME_MM), f"Section {place}", NAME_MM, "say")
    drawn = _page(spread, ((sheet, crop),), strips, words)
    return Leaf(spread.size, (head, *drawn), "console", "views", "2 of 2", f"1:{scale:g}")


def _box(spread: _Spread) -> Box:
    """Return the rectangle for views and tags, above what is said of them."""
    box = room(spread.size, spread.cabin.build)
    return Box(box.x, box.y, box.width, box.height - FOOT_MM)


def _seen(spread: _Spread) -> tuple[float, float, float, float]:
    """Return what the side view shows: front, rear, lowest, highest [mm]."""
    front, rear, low, high = extent(spread.cabin, spread.car)
    console = spread.cabin.build.console
    if console is not None:
        front = max(front, console.start.value - AHEAD_MM)
        rear = min(rear, console.end.value + BEHIND_MM)
    return front, rear, low, high


def _seen_aside(spread: _Spread) -> float:
    """Return how far off the middle the plan shows [mm]: the console and the seats beside it."""
    reach = [120.0]
    if spread.cabin.carcass is not None:
        reach += [float(np.abs(e.outer[:, 1]).max()) for e in spread.cabin.carcass.lower_edges]
    for seat in spread.car.seats:
        reach += [float(abs(seat.low[0, 0])), float(abs(seat.high[0, 0]))]
    return min(max(reach) + ASIDE_MM, half_width(spread.cabin, spread.car))


def _lies_across(one: Finding) -> bool:
    """Return whether a gap is seen best from above: more across the car than up or along."""
    if one.at is None or one.on is None:
        return False
    away = np.abs(np.array(one.on) - np.array(one.at))
    return bool(away[1] >= away[2])


def _worst_place(spread: _Spread) -> float:
    """Return where along the car the gap with the least to spare is [mm], inside the console."""
    carcass = spread.cabin.carcass
    if carcass is None:
        return 0.0
    ends = [x for x, _ in carcass.shape.deck.points]
    if not spread.open_ones:
        return float(np.mean(ends))
    worst = min(spread.open_ones, key=lambda one: (one[1].margin or 0.0, one[0]))[1]
    place = 0.0 if worst.at is None else float(worst.at[0])
    return min(max(place, ends[0] + INSIDE_MM), ends[-1] - INSIDE_MM)


def _spots(some: Numbered, sheet: ViewSheet, axes: tuple[int, int]) -> tuple[Spot, ...]:
    """Return where the gaps of findings are in a view."""
    made = []
    for number, one in some:
        if one.at is not None and one.on is not None:
            ends = tuple(sheet.at(p[axes[0]], p[axes[1]]) for p in (one.at, one.on))
            made.append(spot(number, one, (ends[0], ends[1])))
    return tuple(made)


def _page(
    spread: _Spread,
    views: tuple[tuple[ViewSheet, Box], ...],
    strips: tuple[tuple[tuple[Spot, ...], Box], ...],
    words: str,
) -> tuple[Element, ...]:
    """Return views with their tags and labels, and what stands beside the title block."""
    unit = spread.cabin.build.unit
    drawn: list[Element] = []
    left: list[Spot] = []
    for spots, box in strips:
        tags, more = strip(spots, box, unit)
        drawn += flat(tags)
        left += more
    drawn += _foot(spread, tuple(one.number for one in left), words)
    for sheet, crop in views:
        lines = flat((Group(tuple(sheet.lines), clip=crop),))
        inner = Box(crop.x, crop.y - 1.0, crop.width, crop.height + 2.0)
        struck = strokes(lines)
        across = np.concatenate([struck, strokes(drawn)])  # the tags' lines run across the views
        done = settled(tuple(sheet.notes), areas_of(tuple(drawn)), across, inner)
        drawn += [*lines, *ground(done, struck, NOTHING_KEPT)]
        drawn += [text for one in done for text in one.texts]
        drawn += [line for one in done for line in leader(one, inner)]
    return tuple(drawn)


def _foot(spread: _Spread, left: tuple[int, ...], words: str) -> tuple[Element, ...]:
    """Return the words beside the title block: what is drawn, what is not and why."""
    box = _box(spread)
    y = box.bottom + GAP_MM
    if left:
        words += f" Not tagged here: {', '.join(str(one) for one in left)} of the findings sheet."
    if spread.car.missing:
        words += f" Not measured, so not drawn: {', '.join(spread.car.missing)}."
    drawn, _ = text_box((box.x, y), words, box.width - SYMBOL_MM, Setting(LABEL_MM))
    return (*drawn, *first_angle_symbol((box.right - SYMBOL_MM / 2, y + 4.0), 6.0))
