"""The plan, from above, front to the left: right of the car upwards."""

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from trimwright.cabin import Cabin
from trimwright.car import Ridge
from trimwright.drawing import Circle
from trimwright.papers.bolt_place import bolt_places
from trimwright.papers.car_shape import CarShape
from trimwright.papers.view_sheet import ViewSheet, capsule, hull
from trimwright.parts import Carcass
from trimwright.quantities import shown

Floats = NDArray[np.float64]


def draw_plan(sheet: ViewSheet, cabin: Cabin, car: CarShape) -> None:
    """Draw the console from above with its openings, and all that stands beside it."""
    carcass = cabin.carcass
    if carcass is not None and carcass.panels:
        _console(sheet, cabin, carcass)
    for place in bolt_places(cabin.build):
        sheet.hole(place.at, place.hole_mm, f"{place.name}: {place.where(cabin.build.unit)}")
    _beside(sheet, car)
    for ridge in cabin.ridges:
        _ridge(sheet, ridge)
    front, rear = _length(cabin, car)
    sheet.line(np.array([[front, 0.0], [rear, 0.0]]), "centre")


def half_width(cabin: Cabin, car: CarShape) -> float:
    """Return how far off the middle the plan has to show [mm]."""
    ys = [120.0]
    carcass = cabin.carcass
    if carcass is not None:
        ys += [float(np.abs(edge.outer[:, 1]).max()) for edge in carcass.lower_edges]
    for seat in car.seats:
        ys += [float(np.abs(edge[0, 0])) + 14.0 for edge in (seat.low, seat.high)]
    for body in car.bodies:
        ys.append(float(np.abs(np.concatenate([p[0] for p in body.pieces])[:, 1]).max()))
    return max(ys) + 6.0


def _length(cabin: Cabin, car: CarShape) -> tuple[float, float]:
    """Return where the middle line begins and ends [mm]."""
    console = cabin.build.console
    if console is not None:
        return console.start.value - 20.0, console.end.value + 20.0
    return (-100.0, 600.0) if car.skin is None else car.skin.measured


def _console(sheet: ViewSheet, cabin: Cabin, carcass: Carcass) -> None:
    """Draw decks, walls and openings, and the widths at both ends."""
    unit = cabin.build.unit
    for panel in carcass.panels:
        points = panel.outer_points()
        if panel.name.startswith("deck"):
            sheet.line(points[:, :2], "visible", closed=True)
        elif panel.name.startswith(("left wall", "right wall")):
            sheet.line(hull(points[:, :2]), "visible", closed=True)
        for hole in panel.holes:
            sheet.line(panel.frame.placed(np.array(hole.outline))[:, :2], "visible", closed=True)
            place = panel.frame.placed(np.array([[hole.centre[0], hole.centre[1]]]))[0]
            sheet.label(float(place[0]) - 30.0, float(place[1]) - hole.wide / 2, hole.name)
    line = carcass.shape.deck.points
    for (x, z), off in ((line[0], 5.0), (line[-1], -5.0)):
        left, right = (
            float(carcass.outer_half_width(np.array([x]), np.array([z]), side)[0])
            for side in ("left", "right")
        )
        a, b = np.array([x, -left]), np.array([x, right])
        sheet.measure(a, b, off, shown(left + right, unit), ("console", "width"))


def _ridge(sheet: ViewSheet, ridge: Ridge) -> None:
    """Draw what lies under the carpet, as wide as it is."""
    for start, end in pairwise(np.array(ridge.path)):
        sheet.line(capsule(start, end, ridge.wide_mm / 2), "hidden", closed=True)
    x, y = ridge.path[-1]
    sheet.label(x, y, "loom under the carpet")


def _beside(sheet: ViewSheet, car: CarShape) -> None:
    """Draw seats, dash, lever, handbrake and other bodies in double chain."""
    for seat in car.seats:
        sign = -1.0 if seat.side == "left" else 1.0
        x0, x1 = float(seat.start[0]), float(seat.end[0])
        for edge in (seat.low, seat.high):
            y = sign * float(edge[0, 0])
            sheet.line(np.array([[x0, y], [x1, y]]), "other-body")
        sheet.label(x1 - 90.0, y + sign * 14.0, f"{seat.side} seat")
    if car.dash is not None:
        sides = car.dash.sides or (-60.0, 60.0)
        x = car.dash.span[1]
        sheet.line(np.array([[x, sides[0]], [x, sides[1]]]), "other-body")
        sheet.label(x, sides[1] - 4.0, "rear edge of the dash as read")
    if car.lever is not None:
        for place in np.concatenate([one.knobs[0] for one in (car.lever, *car.moved)]):
            at, radius = sheet.at(*place[:2]), float(car.lever.knob_radius[0])
            sheet.lines.append(Circle(at, radius / sheet.scale, "other-body"))
    if car.brake is not None:
        bar = car.brake
        ring = capsule(bar.starts[0, 0, :2], bar.ends[0, 0, :2], float(bar.radius[0]))
        sheet.line(ring, "other-body", closed=True)
    for body in car.bodies:
        ring = hull(np.concatenate([piece[0] for piece in body.pieces])[:, :2])
        sheet.line(ring, "other-body", closed=True)
        sheet.label(float(ring[:, 0].mean()), float(ring[:, 1].mean()), body.name)
