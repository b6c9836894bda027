"""The place of one gap, cut open along the plane in which the gap is seen at its true length."""

from itertools import pairwise

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.cabin import Cabin
from trimwright.papers.car_shape import ACROSS, ALONG, CarShape, Rest, cut_through, sliced
from trimwright.papers.section_view import draw_section
from trimwright.papers.view_sheet import ViewSheet, capsule
from trimwright.parts import Carcass, cover_stack

Floats = NDArray[np.float64]
Spot = tuple[float, float, float]
LEAST_MM, MOST_MM = 24.0, 70.0  # radius of what a detail shows
GAPS_SHOWN = 3.0  # a detail's radius over its gap
STEPS = 121


class Detail(Struct, frozen=True):
    """Where a detail is: the plane's axis and place, its middle in the plane, its radius [mm]."""

    axis: int
    place_mm: float
    middle: tuple[float, float]
    radius_mm: float


def detail_of(at: Spot, on: Spot, span_mm: tuple[float, float]) -> Detail:
    """Return the detail that shows the gap between two points of the car.

    Parameters
    ----------
    at, on : tuple of 3 float
        The gap's ends [mm].
    span_mm : tuple of 2 float
        Between which places along the car a plane across it cuts anything [mm].

    Examples
    --------
    >>> detail_of((620.0, 135.0, -9.0), (620.0, 141.0, -9.0), (-70.0, 690.0)).axis
    0
    """
    ends = np.array([at, on])
    away = np.abs(ends[1] - ends[0])
    axis = ALONG if away[1] > max(away[0], away[2]) else ACROSS
    middle = ends.mean(axis=0)
    place = float(middle[axis])
    if axis == ALONG:
        place = min(max(place, span_mm[0] + 0.5), span_mm[1] - 0.5)
    radius = min(max(GAPS_SHOWN * float(np.linalg.norm(away)), LEAST_MM), MOST_MM)
    seen = np.delete(middle, axis)
    return Detail(axis, place, (float(seen[0]), float(seen[1])), radius)


def draw_detail(sheet: ViewSheet, cabin: Cabin, car: CarShape, rest: Rest, detail: Detail) -> None:
    """Draw what a detail's plane cuts, and the lever where it stands in that plane."""
    if detail.axis == ALONG:
        draw_section(sheet, cabin, car, rest, detail.place_mm)
    else:
        _along(sheet, cabin, car, rest, detail.place_mm)
    _lever(sheet, car, detail)


def _along(sheet: ViewSheet, cabin: Cabin, car: CarShape, rest: Rest, y_mm: float) -> None:
    """Draw what an upright plane along the car, `y_mm` right of its middle, cuts."""
    _ground(sheet, cabin, car, y_mm)
    carcass = cabin.carcass
    if carcass is not None and carcass.panels:
        for ring in sliced(carcass, y_mm, rest, ACROSS):
            sheet.fill(ring, "ply")
            sheet.line(ring, "cut", closed=True)
        _deck_cover(sheet, cabin, carcass, rest, y_mm)
    _beside(sheet, car, y_mm)


def _ground(sheet: ViewSheet, cabin: Cabin, car: CarShape, y_mm: float) -> None:
    """Draw the skin and the carpet on it."""
    skin = car.skin
    if skin is None:
        return
    x = np.linspace(*skin.span, STEPS)
    metal = np.array([_height(skin.section(float(one)), y_mm) for one in x])
    known = np.isfinite(metal)
    x, metal = x[known], metal[known]
    if len(x) < 2:  # noqa: PLR2004  no line
        return
    sheet.line(np.stack([x, metal], -1), "cut")
    carpet = cabin.build.car.carpet
    if carpet is not None and carpet.loose is not None:
        under = metal + skin.layered(x)
        loose = np.stack([x, under + carpet.loose.value], -1)
        sheet.fill(np.concatenate([loose, np.stack([x, under], -1)[::-1]]), "carpet")
        sheet.line(loose, "thin")
        _name(sheet, loose[len(loose) // 2], "carpet, loose")


def _height(section: Floats, y_mm: float) -> float:
    """Return how high a section (n, 2) is at a place across; not a number where it is not."""
    found = [
        float(a[1] + (y_mm - a[0]) / (b[0] - a[0]) * (b[1] - a[1]))
        for a, b in pairwise(section)
        if a[0] != b[0] and min(a[0], b[0]) <= y_mm <= max(a[0], b[0])
    ]
    return max(found, default=float("nan"))


def _deck_cover(sheet: ViewSheet, cabin: Cabin, carcass: Carcass, rest: Rest, y_mm: float) -> None:
    """Draw the deck's cover between its openings, as far as the deck is that wide."""
    thick = cover_stack(cabin.build, "deck").thickness_mm
    ends = carcass.shape.deck.points
    x = np.unique(np.concatenate([np.linspace(ends[0][0], ends[-1][0], STEPS), _edges(cabin)]))
    bare = np.stack([x, carcass.deck_top(x) + rest.up(x)], -1)
    middle = 0.5 * (x[1:] + x[:-1])
    half = carcass.outer_half_width(
        middle, carcass.deck_top(middle), "left" if y_mm < 0 else "right"
    )
    covered = [
        abs(y_mm) <= wide and not _in_opening(cabin, float(one), y_mm)
        for one, wide in zip(middle, half, strict=True)
    ]
    turns = np.flatnonzero(np.diff(np.array([False, *covered, False]).astype(int)))
    for first, last in zip(turns[::2], turns[1::2], strict=True):
        inner = bare[first : last + 1]
        if thick > 0:
            sheet.cover(inner + np.array([0.0, thick]), inner)


def _edges(cabin: Cabin) -> Floats:
    """Return where openings begin and end along the car [mm]."""
    console = cabin.build.console
    found = [] if console is None else list(console.openings)
    return np.array([one.at.value + way * one.long.value / 2 for one in found for way in (-1, 1)])


def _in_opening(cabin: Cabin, x_mm: float, y_mm: float) -> bool:
    """Return whether a place of the deck is inside an opening, its corners taken as square."""
    console = cabin.build.console
    return console is not None and any(
        abs(x_mm - one.at.value) < one.long.value / 2
        and abs(y_mm - one.off_middle.value) < one.wide.value / 2
        for one in console.openings
    )


def _beside(sheet: ViewSheet, car: CarShape, y_mm: float) -> None:
    """Draw dash, handbrake and bodies that the plane meets, in double chain."""
    _brake(sheet, car, y_mm)
    if car.dash is not None:
        x = np.linspace(*car.dash.span, STEPS)
        z = car.dash.height(x, np.full_like(x, y_mm))[0]
        known = np.isfinite(z)
        if known.sum() > 1:
            sheet.line(np.stack([x[known], z[known]], -1), "other-body")
            sheet.label(float(x[known].mean()), float(z[known].mean()) + 6.0, "dash")
    for body in car.bodies:
        for piece in body.pieces:
            ring = cut_through(piece[0], y_mm, ACROSS)
            if len(ring) > 2:  # noqa: PLR2004  an area
                sheet.line(ring, "other-body", closed=True)
                _name(sheet, ring.mean(axis=0), body.name)


def _brake(sheet: ViewSheet, car: CarShape, y_mm: float) -> None:
    """Draw the handbrake released and pulled, if the plane meets it."""
    if car.brake is not None:
        bar = car.brake
        for start, end in zip(bar.starts[0][[0, -1]], bar.ends[0][[0, -1]], strict=True):
            if abs(y_mm - start[1]) <= float(bar.radius[0]):
                ring = capsule(start[[0, 2]], end[[0, 2]], float(bar.radius[0]))
                sheet.line(ring, "other-body", closed=True)
                _name(sheet, ring.mean(axis=0), "handbrake")


def _name(sheet: ViewSheet, place: Floats, words: str) -> None:
    """Name what is at a place (2,)."""
    sheet.label(float(place[0]), float(place[1]), words)


def _lever(sheet: ViewSheet, car: CarShape, detail: Detail) -> None:
    """Draw the lever in every gear in which it passes within the detail's plane and circle."""
    stick = car.lever
    if stick is None:
        return
    seen = [k for k in range(3) if k != detail.axis]
    radius = float(stick.shaft_radius[0])
    pivot = stick.pivot[0]
    for gear, top in zip(stick.gears, stick.tops[0], strict=True):
        share = (detail.middle[1] - pivot[2]) / (top[2] - pivot[2])
        there = pivot + share * (top - pivot)
        off_plane = abs(float(there[detail.axis]) - detail.place_mm)
        aside = abs(float(there[seen[0]]) - detail.middle[0])
        if off_plane <= 2 * radius and aside <= detail.radius_mm + radius and 0 < share <= 1:
            sheet.line(capsule(pivot[seen], top[seen], radius), "other-body", closed=True)
            _name(sheet, there[seen], f"lever, {gear}")
