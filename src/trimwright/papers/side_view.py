"""The side view, from the left, front to the left."""

import numpy as np
from numpy.typing import NDArray

from trimwright.cabin import Cabin
from trimwright.car import LeverPositions, Tunnel
from trimwright.drawing import Circle, PenName
from trimwright.papers.bolt_place import bolt_places
from trimwright.papers.car_shape import CarShape, Rest, rest_of
from trimwright.papers.view_sheet import FieldPath, ViewSheet, capsule, hull
from trimwright.papers.wording import place_along
from trimwright.parts import Carcass, cover_stack
from trimwright.quantities import shown

Floats = NDArray[np.float64]
ZONES_ALONG, ZONES_DOWN = 6, 4
ZONE_UP_MM, ZONE_STEP_MM = 60.0, 80.0  # zones of the findings: rows of 80 mm, from above the deck
ZONE_CLEAR_MM = 25.0  # from the deck to the figures of the zones, whatever stands over it
FOOT_MM, DIM_MM = 4.5, 5.0  # from the foot to the first dimension, from one to the next
BOLT_MM = 25.0  # of a bolt's middle line, above and below the metal
MOST_ROWS = 3  # dimensions below each other; bulkheads beyond that have no figure here


def draw_side(sheet: ViewSheet, cabin: Cabin, car: CarShape, rest: Rest) -> None:
    """Draw tunnel, carpet, console and all that stands over them."""
    if car.skin is not None:
        _ground(sheet, cabin, car)
        _bolts(sheet, cabin, car.skin)
    carcass = cabin.carcass
    if carcass is not None and carcass.panels:
        _console(sheet, cabin, carcass, rest)
        _measures(sheet, cabin, rest)
        _zones(sheet, cabin, car)
    _beside(sheet, car)
    _lever(sheet, car)
    _brake(sheet, car)


def extent(cabin: Cabin, car: CarShape) -> tuple[float, float, float, float]:
    """Return what the side view has to show: front, rear, lowest, highest [mm]."""
    console = cabin.build.console
    xs = [0.0] if console is None else [console.start.value, console.end.value]
    zs = [0.0] if console is None else [point.height.value for point in console.deck]
    if car.skin is not None and console is None:
        xs += list(car.skin.measured)
    if cabin.carcass is not None:
        zs += [float(edge.outer[:, 2].min()) for edge in cabin.carcass.lower_edges]
    if car.dash is not None:
        xs.append(car.dash.span[0])
        zs.append(float(car.dash.z.max()))
    if car.lever is not None:
        radius = float(car.lever.knob_radius[0])
        xs += [float(v) for v in car.lever.knobs[0, :, 0]]
        zs.append(float(car.lever.knobs[0, :, 2].max()) + radius)
    if car.brake is not None:
        zs.append(float(car.brake.ends[0, :, 2].max()) + float(car.brake.radius[0]))
        xs.append(float(car.brake.starts[0, :, 0].max()))
    for body in car.bodies:
        points = np.concatenate([piece[0] for piece in body.pieces])
        xs += [float(points[:, 0].min()), float(points[:, 0].max())]
        zs += [float(points[:, 2].min()), float(points[:, 2].max())]
    top = max([*zs, *_over_deck(cabin)])
    return min(xs) - 15.0, max(xs) + 40.0, min(zs) - 10.0, top + 10.0


def _over_deck(cabin: Cabin) -> list[float]:
    """Return what the figures of the zones need over the deck where it rests [mm]."""
    if cabin.carcass is None or not cabin.carcass.panels:
        return []
    line = np.array(cabin.carcass.shape.deck.points)
    up = line[:, 1] + rest_of(cabin).up(line[:, 0])
    return [float(z) + ZONE_CLEAR_MM for z in up]


def _ground(sheet: ViewSheet, cabin: Cabin, car: CarShape) -> None:
    """Draw the tunnel's top and the carpet on it."""
    skin = car.skin
    if skin is None:
        return
    front, rear, _, _ = extent(cabin, car)
    x = np.linspace(max(front, skin.span[0]), min(rear, skin.span[1]), 81)
    top = skin.top(x)
    sheet.line(np.stack([x, top], -1), "cut")
    carpet = cabin.build.car.carpet
    if carpet is not None and carpet.loose is not None:
        loose = top + skin.layered(x) + carpet.loose.value
        under = top + skin.layered(x)
        ring = np.concatenate([np.stack([x, loose], -1), np.stack([x, under], -1)[::-1]])
        sheet.fill(ring, "carpet")
        sheet.line(np.stack([x, loose], -1), "thin")
        sheet.label(float(x[70]), float(loose[70]) + 4.0, "carpet, loose")
    sheet.label(float(x[60]), float(top[60]) - 12.0, "top of the bare tunnel")
    sheet.datum(0.0, float(skin.top(0.0)[0]))


def _bolts(sheet: ViewSheet, cabin: Cabin, skin: Tunnel) -> None:
    """Draw the bolts' middle lines through the metal; bolts side by side have one line."""
    places: dict[float, list[str]] = {}
    for place in bolt_places(cabin.build):
        places.setdefault(place.at[0], []).append(place.name)
    for x, names in places.items():
        metal = float(skin.top(np.array([x]))[0])
        ends = np.array([[x, metal - BOLT_MM], [x, metal + BOLT_MM]])
        sheet.line(ends, "centre")
        words = f"{' and '.join(names)}: {place_along(x, cabin.build.unit)}"
        sheet.label(x, metal - BOLT_MM, words)


def _console(sheet: ViewSheet, cabin: Cabin, carcass: Carcass, rest: Rest) -> None:
    """Draw the lit wall, the deck over it, its cover, and the bulkheads inside."""
    for panel in carcass.panels:
        points = rest.placed(panel.outer_points())
        if panel.name.startswith("left wall"):
            sheet.line(points[:, [0, 2]], "visible", closed=True)
        elif not panel.name.startswith(("right wall", "deck")):
            back = rest.placed(panel.frame.placed(np.array(panel.inner), panel.thickness))
            for face in (points, back):
                x = float(face[:, 0].mean())
                ends = np.array([[x, face[:, 2].min()], [x, face[:, 2].max()]])
                sheet.line(ends, "hidden")
    line = np.array(carcass.shape.deck.points)
    line = np.stack([line[:, 0], line[:, 1] + rest.up(line[:, 0])], -1)
    sheet.line(line, "visible")
    thick = cover_stack(cabin.build, "deck").thickness_mm
    if thick > 0:
        sheet.line(line + np.array([0.0, thick]), "thin")
    middle = float(line[:, 0].mean())
    low = min(float(edge.outer[:, 2].min()) for edge in carcass.lower_edges)
    sheet.label(middle, (float(line[:, 1].mean()) + low) / 2, "left wall")


def _measures(sheet: ViewSheet, cabin: Cabin, rest: Rest) -> None:
    """Give places along the foot from the datum, and the deck's height at both ends."""
    carcass, console, unit = cabin.carcass, cabin.build.console, cabin.build.unit
    if carcass is None or console is None:
        return
    points = carcass.shape.deck.points
    (x0, z0), (x1, z1) = points[0], points[-1]
    low = min(float(edge.outer[:, 2].min()) for edge in carcass.lower_edges)
    places: dict[float, FieldPath] = {
        one.at.value: ("console", "bulkheads", k, "at") for k, one in enumerate(console.bulkheads)
    }
    places |= {x0: ("console", "from"), x1: ("console", "to")}
    for sign in (-1.0, 1.0):
        # the ends first: they must have their figure
        sided = sorted((p for p in places if p * sign > 1.0), key=lambda p: (p not in (x0, x1), p))
        for row, place in enumerate(sorted(sided[:MOST_ROWS], key=abs)):
            a, b = np.array([min(place, 0.0), low]), np.array([max(place, 0.0), low])
            words = shown(abs(place), unit)
            sheet.measure(a, b, -FOOT_MM - DIM_MM * row, words, places[place])
    for x, z, off, k in ((x0, z0, 6.0, 0), (x1, z1, -4.0, len(console.deck) - 1)):
        up = z + float(rest.up(np.array([x]))[0])
        foot, head = np.array([x, 0.0]), np.array([x, up])
        sheet.measure(foot, head, off, shown(up, unit), ("console", "deck", k, "height"))


def _zones(sheet: ViewSheet, cabin: Cabin, car: CarShape) -> None:
    """Draw the zones that findings name: 1 to 6 along, A to D down."""
    console = cabin.build.console
    if console is None:
        return
    start, end = console.start.value, console.end.value
    top = max(point.height.value for point in console.deck) + ZONE_UP_MM
    high = extent(cabin, car)[3]
    sheet.zones(
        np.linspace(start, end, ZONES_ALONG + 1),
        np.linspace(top, top - ZONES_DOWN * ZONE_STEP_MM, ZONES_DOWN + 1),
        high,
    )


def _beside(sheet: ViewSheet, car: CarShape) -> None:
    """Draw dash, seats and other bodies in double chain."""
    if car.dash is not None:
        x = np.linspace(car.dash.span[0], car.dash.span[1], 21)
        across = [0.0] if car.dash.sides is None else sorted({*car.dash.places[:, 1].tolist()})
        for y in across:
            z = car.dash.height(x, np.full_like(x, y))[0]
            known = np.isfinite(z)
            if known.sum() > 1:
                sheet.line(np.stack([x[known], z[known]], -1), "other-body")
        front, height = car.dash.places[0, 0], car.dash.z[0, 0]
        sheet.label(float(front), float(height) + 6.0, "dash")
    for seat in car.seats[:1]:
        x0, x1 = float(seat.start[0]), float(seat.end[0])
        z0, z1 = sorted((float(seat.low[0, 1]), float(seat.high[0, 1])))
        sheet.line(np.array([[x0, z0], [x1, z0], [x1, z1], [x0, z1]]), "other-body", closed=True)
        sheet.label(x1 - 60.0, z1 - 20.0, f"{seat.side} seat")
    for body in car.bodies:
        ring = hull(np.concatenate([piece[0] for piece in body.pieces])[:, [0, 2]])
        sheet.line(ring, "other-body", closed=True)
        sheet.label(float(ring[:, 0].mean()), float(ring[:, 1].mean()), body.name)


def _lever(sheet: ViewSheet, car: CarShape) -> None:
    """Draw the lever upright in ink, in its other gears and as the engine moves it in double chain."""
    stick = car.lever
    if stick is None:
        return
    for moved in car.moved:
        _stick(sheet, moved, None)
    standing = stick.gears.index("neutral") if "neutral" in stick.gears else 0
    _stick(sheet, stick, standing)
    top, radius = stick.knobs[0, standing], float(stick.knob_radius[0])
    sheet.label(float(top[0]), float(top[2]) + radius, "gear lever")


def _stick(sheet: ViewSheet, stick: LeverPositions, standing: int | None) -> None:
    """Draw the lever in every gear, the one it stands in (by its place) in ink."""
    radius, shaft = float(stick.knob_radius[0]), float(stick.shaft_radius[0])
    pivot = stick.pivot[0, [0, 2]]
    for k, (knob, end) in enumerate(
        zip(stick.knobs[0][:, [0, 2]], stick.tops[0][:, [0, 2]], strict=True)
    ):
        pen: PenName = "visible" if k == standing else "other-body"
        way = (end - pivot) / float(np.linalg.norm(end - pivot))
        side = np.array([-way[1], way[0]]) * shaft
        foot = pivot + way * max((0.0 - pivot[1]) / way[1], 0.0)
        for edge in (side, -side):
            sheet.line(np.array([foot + edge, end - way * radius + edge]), pen)
        sheet.lines.append(Circle(sheet.at(*knob), radius / sheet.scale, pen))


def _brake(sheet: ViewSheet, car: CarShape) -> None:
    """Draw the handbrake released and pulled, and the way of its tip."""
    bar = car.brake
    if bar is None:
        return
    starts, ends = bar.starts[0][:, [0, 2]], bar.ends[0][:, [0, 2]]
    for k in (0, -1):
        ring = capsule(starts[k], ends[k], float(bar.radius[0]))
        sheet.line(ring, "other-body", closed=True)
    sheet.line(ends, "thin")
    sheet.label(float(ends[-1, 0]), float(ends[-1, 1]), "handbrake")
