"""Trunks in plan: the car from above, its places, and every trunk as thick as what lies in it."""

from itertools import groupby
from math import hypot

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.build import Build, Trunk, Wiring, WiringPlace
from trimwright.cabin import Cabin
from trimwright.drawing import (
    LABEL_MM,
    NAME_MM,
    Box,
    Circle,
    Element,
    Fill,
    Group,
    Line,
    Page,
    Point,
    Setting,
    Size,
    Text,
    flat,
    size_mm,
    text_box,
)
from trimwright.papers.car_shape import car_shape
from trimwright.papers.leaf import Leaf, pages, room
from trimwright.papers.note import Note, ground, note, settled, strokes
from trimwright.papers.one_to_one import leader
from trimwright.papers.plan_view import draw_plan
from trimwright.papers.view_sheet import ViewSheet
from trimwright.quantities import Unit, shown_with_unit
from trimwright.wiring import Bundling, WiringOutcome, bundlings

SCALES = (5.0, 10.0, 20.0, 25.0, 50.0, 100.0)  # 1 to this; 25 besides ISO 5455, table 1
LEAST_MM = 0.35  # that a trunk is drawn thick on paper
DOT_MM, HOLE_MM, SAME_MM = 1.1, 1.7, 1.0
HEAD_MM, FOOT_MM, RIM_MM = 9.0, 12.0, 22.0
LOAD_WIDE_MM, TRUNK_WIDE_MM = 34.0, 30.0
SMALL = Setting(LABEL_MM)
Floats = NDArray[np.float64]
Spots = dict[str, tuple[float, float]]  # places by name: along the car, across it [mm]


class _Bare(ViewSheet):
    """A view that keeps lines alone: what is named is the wiring."""

    def label(self, across: float, up: float, words: str, width_mm: float = 34.0) -> None:
        """Leave out a name."""

    def measure(
        self, a: Floats, b: Floats, offset_mm: float, words: str, path: tuple[str | int, ...] = ()
    ) -> None:
        """Leave out a dimension."""

    def hole(self, place: Point, wide_mm: float, words: str) -> None:
        """Leave out a bolt."""


class _Plan(Struct, frozen=True):
    """What a plan is drawn from, and where it stands on its page."""

    found: WiringOutcome
    unit: Unit
    spots: Spots
    inside: dict[int, Bundling]
    sheet: ViewSheet
    box: Box

    def at(self, place: str) -> Point:
        """Return where a place is on the page [mm]."""
        return self.sheet.at(*self.spots[place])


def located(place: WiringPlace) -> tuple[float, float] | None:
    """Return where a place is along the car and across it [mm]; None where one is not written."""
    if place.at is None or place.off_middle is None:
        return None
    return place.at.value, place.off_middle.value


def plan_leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return the trunks in plan; none where no place is written with where it is from above."""
    found = cabin.wiring
    if found is None:
        return ()
    told = {one.name: located(one) for one in found.wiring.places}
    spots = {name: spot for name, spot in told.items() if spot is not None}
    if not spots:
        return ()
    paper = _lying(size)
    box = room(paper, cabin.build)
    inside = {one.number: one for one in bundlings(found)}
    view = Box(box.x, box.y + HEAD_MM, box.width, box.height - HEAD_MM - FOOT_MM)
    plan = _Plan(found, cabin.build.unit, spots, inside, _sheet(spots, view), view)
    head = Text((box.x, box.y + NAME_MM), "Trunks in plan", NAME_MM, "say")
    foot, _ = text_box((box.x, view.bottom + 2.0), _words(plan), box.width, SMALL)
    drawn = (head, *_drawn(plan, cabin), *foot)
    scale = f"1:{plan.sheet.scale:g}"
    return (Leaf(paper, drawn, "wiring", "trunks in plan", scale=scale),)


def plan_page(cabin: Cabin, size: Size) -> Page | None:
    """Return the trunks in plan by themselves, for a screen; None where nothing can be drawn."""
    made = pages(plan_leaves(cabin, size), cabin.build)
    return made[0] if made else None


def _lying(size: Size) -> Size:
    """Return a sheet with its longer side across: a car is longer than wide."""
    wide, high = size_mm(size)
    return max(wide, high), min(wide, high)


def _sheet(spots: Spots, box: Box) -> ViewSheet:
    """Return the view in the middle of a rectangle, as large as a usual scale allows."""
    xs, ys = zip(*spots.values(), strict=True)
    long, wide = max(xs) - min(xs), max(*ys, 0.0) - min(*ys, 0.0)
    fits = (
        one
        for one in SCALES
        if long / one <= box.width - 2 * RIM_MM and wide / one <= box.height - 2 * RIM_MM
    )
    scale = next(fits, SCALES[-1])
    left = box.x + box.width / 2 - (min(xs) + max(xs)) / 2 / scale
    middle = box.y + box.height / 2 + (max(*ys, 0.0) + min(*ys, 0.0)) / 2 / scale
    return ViewSheet((left, middle), scale)


def _drawn(plan: _Plan, cabin: Cabin) -> list[Element]:
    """Return the car, trunks, holes, places, and words that keep clear of them."""
    car = _car(plan, cabin.build, cabin)
    every = tuple(enumerate(plan.found.wiring.trunks))
    trunks = [_trunk(plan, number, trunk) for number, trunk in every if _shown(plan, trunk)]
    holes = [
        _hole(plan, number, trunk)
        for number, trunk in every
        if trunk.hole is not None and _shown(plan, trunk)
    ]
    dots = [
        Group((Circle(plan.at(name), DOT_MM, None, tone="ink"),), name=f"place {name}")
        for name in plan.spots
    ]
    lines = flat((*trunks, *holes, *dots))
    notes, names = _notes(plan)
    struck = np.concatenate([strokes(lines), strokes(_ways(plan))])
    done = settled(notes, (), struck, plan.box)
    told = [
        Group((*words.texts, *leader(words, plan.box)), name=name)
        for words, name in zip(done, names, strict=True)
    ]
    return [*car, *trunks, *holes, *dots, *ground(done, strokes(flat(tuple(car))), struck), *told]


def _ways(plan: _Plan) -> list[Line]:
    """Return the middle lines of all trunks, which words keep clear of."""
    shown = (one for one in plan.found.wiring.trunks if _shown(plan, one))
    return [Line((plan.at(one.start), plan.at(one.end))) for one in shown]


def _car(plan: _Plan, build: Build, cabin: Cabin) -> list[Element]:
    """Return what the plan of the views shows beside the wiring, and the middle line."""
    bare = _Bare(plan.sheet.zero, plan.sheet.scale)
    if build.car.tunnel or build.car.seats or build.car.dash or build.console:
        draw_plan(bare, cabin, car_shape(cabin))
    ends = ((plan.box.x, plan.sheet.zero[1]), (plan.box.right, plan.sheet.zero[1]))
    thin = (
        replace(one, pen="thin") if isinstance(one, Line) and one.pen == "visible" else one
        for one in bare.lines
    )
    seen = Group(tuple(thin), clip=plan.box)
    return [seen, Line(ends, "centre")]


def _trunk(plan: _Plan, number: int, trunk: Trunk) -> Group:
    """Return a trunk as a band as thick as its bundle, dashed where nothing lies in it."""
    (ax, ay), (bx, by) = plan.at(trunk.start), plan.at(trunk.end)
    own, long = plan.inside.get(number), hypot(bx - ax, by - ay)
    if own is None or long == 0.0:
        return Group((Line(((ax, ay), (bx, by)), "hidden"),), name=f"trunk {number}")
    half = thick_on_page(own, plan.sheet.scale) / 2 / long
    dx, dy = -(by - ay) * half, (bx - ax) * half
    corners = ((ax + dx, ay + dy), (bx + dx, by + dy), (bx - dx, by - dy), (ax - dx, ay - dy))
    return Group((Fill(corners, tone="ink"),), name=f"trunk {number}")


def thick_on_page(own: Bundling, scale: float) -> float:
    """Return how thick a trunk is drawn [mm]: to scale, and no thinner than can be seen."""
    thick = 0.0 if own.bundle is None else own.bundle.diameter_mm / scale
    return max(thick, LEAST_MM)


def _shown(plan: _Plan, trunk: Trunk) -> bool:
    """Return whether both places of a trunk are on the plan."""
    return {trunk.start, trunk.end} <= set(plan.spots)


def _middle(plan: _Plan, trunk: Trunk) -> Point:
    (ax, ay), (bx, by) = plan.at(trunk.start), plan.at(trunk.end)
    return (ax + bx) / 2, (ay + by) / 2


def _hole(plan: _Plan, number: int, trunk: Trunk) -> Group:
    """Return the mark of a hole with its grommet, half way along its trunk."""
    at = _middle(plan, trunk)
    rings = (Circle(at, HOLE_MM, "thin", tone="paper"), Circle(at, HOLE_MM / 2, "thin"))
    return Group(rings, name=f"trunk {number}")


def _notes(plan: _Plan) -> tuple[tuple[Note, ...], tuple[str, ...]]:
    """Return what is said beside places and trunks, and of what each speaks; the places first."""
    notes, names = [], []
    for places in _together(plan):
        x, y = plan.at(places[0])
        words = "; ".join(_there(plan.found.wiring, place) for place in places)
        one = note((x + 2.0, y + 1.6), words, LOAD_WIDE_MM, SMALL, (x, y))
        notes.append(one)
        names.append(f"place {places[0]}")
    for number, own in plan.inside.items():
        words = _trunk_words(own, plan.unit)
        if words and _shown(plan, own.trunk):
            x, y = _middle(plan, own.trunk)
            notes.append(note((x + 2.0, y + 1.0), words, TRUNK_WIDE_MM, SMALL, (x, y)))
            names.append(f"trunk {number}")
    return tuple(notes), tuple(names)


def _together(plan: _Plan) -> list[list[str]]:
    """Return the places, those together that lie one above the other."""

    def rounded(name: str) -> tuple[int, int]:
        x, y = plan.at(name)
        return round(x / SAME_MM), round(y / SAME_MM)

    ordered = sorted(plan.spots, key=rounded)
    return [list(some) for _, some in groupby(ordered, rounded)]


def _there(wiring: Wiring, place: str) -> str:
    """Return a place and its loads."""
    loads = ", ".join(one.name for one in wiring.loads if one.at == place)
    return f"{place}: {loads}" if loads else place


def _trunk_words(own: Bundling, unit: Unit) -> str:
    """Return how thick a trunk is, and the hole it goes through."""
    told = []
    if own.bundle is not None:
        told.append(shown_with_unit(own.bundle.diameter_mm, unit, "up", step="fine"))
    if own.trunk.hole is not None:
        told.append(f"hole {shown_with_unit(own.trunk.hole.value, unit, step='fine')}")
    return ", ".join(told)


def _words(plan: _Plan) -> str:
    """Return what is said below the plan: how it is drawn, and what is not."""
    told = (
        "From above, front to the left, right of the car upwards. Trunks straight from place to place,"
        f" as thick as their bundle at 1:{plan.sheet.scale:g}, none thinner than {LEAST_MM:g} mm;"
        " dashed: nothing lies in it. Rings: a hole with its grommet, half way, wherever it is."
    )
    left = [one.name for one in plan.found.wiring.places if one.name not in plan.spots]
    if left:
        told += f" Not drawn, as nobody has said where along and across the car: {', '.join(left)}."
    return told
