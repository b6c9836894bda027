"""The views of the papers as the page takes them: true millimetres, words not yet placed."""

import numpy as np
from msgspec import field
from numpy.typing import NDArray

from trimwright.app.handle import Handle, handles
from trimwright.app.message import (
    Area,
    DetailMessage,
    Drawn,
    HandleMessage,
    Label,
    Place,
    PullMessage,
    Ring,
    SizeMark,
    Spot,
    Stroke,
    ViewMessage,
    ViewsMessage,
    Zones,
)
from trimwright.build import Loaded, written
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import Circle, Fill, Line
from trimwright.fit import uncovered
from trimwright.papers import (
    ALONG,
    CarShape,
    Detail,
    FieldPath,
    Rest,
    ViewSheet,
    detail_of,
    draw_detail,
    draw_plan,
    draw_section,
    draw_side,
    place_along,
    plan_half_width,
    rest_of,
    section_extent,
    shape_of_car,
    side_extent,
)
from trimwright.quantities import shown_with_unit

Floats = NDArray[np.float64]
Extent = tuple[float, float, float, float]
MIDDLE_MM = 0.5  # as far off the middle is no side
AHEAD_MM, BEHIND_MM = 100.0, 70.0  # shown beyond the console
SHORT = {"deck": "deck height"}  # what a file says instead, where one height does for the deck


class Screen(ViewSheet):
    """A view that keeps words, dimensions, covers, zones and datum apart from lines."""

    typed: dict[FieldPath, str] = field(default_factory=dict)
    labels: list[Label] = field(default_factory=list)
    sizes: list[SizeMark] = field(default_factory=list)
    covers: list[tuple[tuple[Place, ...], tuple[Place, ...]]] = field(default_factory=list)
    parted: Zones | None = None
    from_here: Place | None = None
    held: list[HandleMessage] = field(default_factory=list)

    def label(self, across: float, up: float, words: str, width_mm: float = 34.0) -> None:  # noqa: ARG002  the page wraps
        """Name what is at a place."""
        self.labels.append(Label(words=words, at=_place(self.at(across, up))))

    def measure(
        self, a: Floats, b: Floats, offset_mm: float, words: str, path: FieldPath = ()
    ) -> None:
        """Keep a dimension, with the field it is and what is typed there."""
        path = self._field(path)
        self.sizes.append(
            SizeMark(
                words=words,
                a=_place(self.at(*a)),
                b=_place(self.at(*b)),
                off=offset_mm,
                path=path,
                typed=self.typed.get(path, ""),
            )
        )

    def cover(self, outer: Floats, inner: Floats) -> None:
        """Keep a cover's outside and the wood under it."""
        places = [tuple(map(_place, self.points(one))) for one in (outer, inner)]
        self.covers.append((places[0], places[1]))

    def zones(self, along: Floats, down: Floats, high_mm: float) -> None:  # noqa: ARG002  the page has a frame
        """Keep the zones."""
        self.parted = Zones(
            along=tuple(_place(self.at(float(x), 0.0))[0] for x in along),
            down=tuple(_place(self.at(0.0, float(z)))[1] for z in down),
        )

    def datum(self, across: float, up: float) -> None:
        """Keep where all places are taken from."""
        self.from_here = _place(self.at(across, up))
        self.labels.append(Label(words="datum", at=self.from_here))

    def handle(self, one: Handle) -> None:
        """Keep something that can be dragged, where it is on the view."""
        pulls = tuple(
            PullMessage(path=pull.path, now_mm=pull.now_mm, way=(pull.way[0], -pull.way[1]))
            for pull in one.pulls
        )
        self.held.append(HandleMessage(name=one.name, at=_place(self.at(*one.at)), pulls=pulls))

    def message(self, name: str, axes: tuple[int, int], shown: Extent) -> ViewMessage:
        """Return the view as a message; `shown` is its left, right, low and high [mm]."""
        low, high = self.at(shown[0], shown[3]), self.at(shown[1], shown[2])
        strokes = [
            Stroke(pen=one.pen, points=tuple(map(_place, one.points)), closed=one.closed)
            for one in self.lines
            if isinstance(one, Line)
        ]
        areas = [
            Area(fill=one.hatch or one.tone or "", points=tuple(map(_place, one.points)))
            for one in self.lines
            if isinstance(one, Fill)
        ]
        for outer, inner in self.covers:
            strokes.append(Stroke(pen="leather", points=outer, closed=False))
            areas.append(Area(fill="foam", points=(*outer, *inner[::-1])))
        return ViewMessage(
            name=name,
            axes=axes,
            extent=(*_place(low), *_place(high)),
            strokes=tuple(strokes),
            areas=tuple(areas),
            rings=tuple(
                Ring(pen=one.pen or "thin", centre=_place(one.centre), radius=round(one.radius, 3))
                for one in self.lines
                if isinstance(one, Circle)
            ),
            labels=tuple(self.labels),
            sizes=tuple(self.sizes),
            zones=self.parted,
            datum=self.from_here,
            handles=tuple(self.held),
        )

    def _field(self, path: FieldPath) -> FieldPath:
        """Return a field's path as this file writes it; empty where it says nothing there."""
        if path in self.typed:
            return path
        short = (*path[:1], SHORT.get(str(path[1]), "")) if len(path) > 1 else ()
        return short if short in self.typed else ()


def _place(point: Floats | Place) -> Place:
    """Return a place to a thousandth of a millimetre."""
    return round(float(point[0]), 3), round(float(point[1]), 3)


def views(
    loaded: Loaded,
    version: str,
    at_mm: float | None = None,
    gap: tuple[Spot, Spot] | None = None,
    drawn: Drawn = "covered",
) -> ViewsMessage:
    """Return every view of a build.

    Parameters
    ----------
    loaded : Loaded
        The build with its text.
    version : str
        Its version.
    at_mm : float, optional
        Where the section is [mm along the car]; in the middle of the console if not said.
    gap : tuple of two points, optional
        The ends of the gap whose detail is wanted [mm].
    drawn : {'covered', 'test fit', 'as cut', 'engine moved'}
        Covered and at rest, bare and at rest, bare and as designed; the last with the lever at the
        ends of the engine's play.
    """
    bare, typed = drawn in ("test fit", "as cut"), written(loaded.text)
    one = cabin(uncovered(loaded.build) if bare else loaded.build)
    car = shape_of_car(one, engine_moved=drawn == "engine moved")
    rest = Rest(0.0, 0.0, 0.0) if drawn == "as cut" else rest_of(one)
    span = _span(one, car)
    at = 0.5 * sum(span) if at_mm is None else min(max(at_mm, span[0]), span[1])
    side, section, plan = (Screen((0.0, 0.0), 1.0, typed=typed) for _ in range(3))
    draw_side(side, one, car, rest)
    draw_section(section, one, car, rest, at)
    draw_plan(plan, one, car)
    for handle in handles(loaded, one, rest):
        (side if handle.view == "side" else plan).handle(handle)
    front, rear, low, high = _seen(one, car)
    half, bottom, top = section_extent(one, car)
    wide = plan_half_width(one, car)
    return ViewsMessage(
        version=version,
        at_mm=round(at, 1),
        span_mm=span,
        place=place_along(at, loaded.build.unit),
        missing=car.missing,
        views=(
            side.message("side", (0, 2), (front, rear, low, high)),
            section.message("section", (1, 2), (-half, half, bottom, top)),
            plan.message("plan", (0, 1), (front, rear, -wide, wide)),
        ),
        detail=None if gap is None else _detail(one, car, rest, detail_of(*gap, span)),
    )


def _detail(one: Cabin, car: CarShape, rest: Rest, detail: Detail) -> DetailMessage:
    """Return the place of a gap, cut open."""
    screen = Screen((0.0, 0.0), 1.0)
    draw_detail(screen, one, car, rest, detail)
    unit, place = one.build.unit, detail.place_mm
    side = "left" if place < 0 else "right"
    across = f"{shown_with_unit(abs(place), unit)} {side} of the middle"
    if abs(place) < MIDDLE_MM:
        across = "in the middle"
    words = place_along(place, unit) if detail.axis == ALONG else f"lengthways, {across}"
    a, b = detail.middle
    r = detail.radius_mm
    axes = (1, 2) if detail.axis == ALONG else (0, 2)
    return DetailMessage(
        place=words,
        middle=_place(screen.at(a, b)),
        radius=r,
        view=screen.message("detail", axes, (a - r, a + r, b - r, b + r)),
    )


def _span(one: Cabin, car: CarShape) -> tuple[float, float]:
    """Return between which places along the car a section can be drawn [mm]."""
    console = one.build.console
    if console is not None:
        return console.start.value, console.end.value
    return (-100.0, 600.0) if car.skin is None else car.skin.measured


def _seen(one: Cabin, car: CarShape) -> Extent:
    """Return what the side view shows: front, rear, lowest, highest [mm]."""
    front, rear, low, high = side_extent(one, car)
    console = one.build.console
    if console is not None:
        front = max(front, console.start.value - AHEAD_MM)
        rear = min(rear, console.end.value + BEHIND_MM)
    return front, rear, low, high
