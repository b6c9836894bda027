"""The section across the car at the worst finding, seen from behind: right is right."""

import numpy as np
from numpy.typing import NDArray

from trimwright.cabin import Cabin
from trimwright.papers.car_shape import CarShape, Rest, sliced
from trimwright.papers.view_sheet import ViewSheet, hull
from trimwright.parts import Carcass, cover_stack
from trimwright.quantities import shown

Floats = NDArray[np.float64]


def draw_section(sheet: ViewSheet, cabin: Cabin, car: CarShape, rest: Rest, x_mm: float) -> None:
    """Draw what a plane across the car at `x_mm` cuts."""
    if car.skin is not None:
        _ground(sheet, cabin, car, x_mm)
    carcass = cabin.carcass
    if carcass is not None and carcass.panels:
        for ring in sliced(carcass, x_mm, rest):
            sheet.fill(ring, "ply")
            sheet.line(ring, "cut", closed=True)
        _covers(sheet, cabin, carcass, rest, x_mm)
        _measures(sheet, cabin, carcass, rest, x_mm)
    _beside(sheet, car, x_mm)
    sheet.line(np.array([[0.0, -30.0], [0.0, 260.0]]), "centre")


def section_extent(cabin: Cabin, car: CarShape) -> tuple[float, float, float]:
    """Return half width, lowest and highest of what the section shows [mm]."""
    half, low, high = 150.0, -60.0, 240.0
    if cabin.carcass is not None and cabin.carcass.lower_edges:
        points = np.concatenate([edge.outer for edge in cabin.carcass.lower_edges])
        half = float(np.abs(points[:, 1]).max()) + 45.0
        low = float(points[:, 2].min()) - 25.0
        high = max(z for _, z in cabin.carcass.shape.deck.points) + 40.0
    if car.dash is not None:
        high = max(high, float(car.dash.z.max()) + 20.0)
    return half, low, high


def _ground(sheet: ViewSheet, cabin: Cabin, car: CarShape, x_mm: float) -> None:
    """Draw the skin and the carpet on it, as far as the view goes."""
    skin = car.skin
    if skin is None:
        return
    half, low, _ = section_extent(cabin, car)
    section = skin.section(x_mm)
    way = np.gradient(section, axis=0)
    normal = np.stack([-way[:, 1], way[:, 0]], -1)
    normal /= np.linalg.norm(normal, axis=-1, keepdims=True)
    kept = (np.abs(section[:, 0]) <= half) & (section[:, 1] >= low)
    if kept.sum() < 2:  # noqa: PLR2004  nothing of the tunnel is in this view
        return
    section, normal = section[kept], normal[kept]
    sheet.line(section, "cut")
    under = section + normal * float(skin.layered(x_mm)[0])
    carpet = cabin.build.car.carpet
    if carpet is not None and carpet.loose is not None:
        loose = under + normal * carpet.loose.value
        sheet.fill(np.concatenate([loose, under[::-1]]), "carpet")
        sheet.line(loose, "thin")
        k = len(loose) // 2
        sheet.label(float(loose[k, 0]) + 8.0, float(loose[k, 1]) + 6.0, "carpet, loose")
    k = len(section) // 2
    sheet.label(float(section[k, 0]) + 8.0, float(section[k, 1]) - 12.0, "tunnel, bare metal")


def _covers(sheet: ViewSheet, cabin: Cabin, carcass: Carcass, rest: Rest, x_mm: float) -> None:
    """Draw the covers of deck and walls as they lie outside the wood."""
    points = carcass.shape.deck.points
    deck, wall = (cover_stack(cabin.build, face).thickness_mm for face in ("deck", "walls"))
    if not points[0][0] <= x_mm <= points[-1][0] or deck == wall == 0:
        return
    up = float(rest.up(np.array([x_mm]))[0])
    top = float(carcass.deck_top(np.array([x_mm]))[0])
    lows = {
        side: min(
            float(np.interp(x_mm, edge.outer[:, 0], edge.outer[:, 2]))
            for edge in carcass.lower_edges
            if edge.panel.startswith(f"{side} wall")
            and edge.outer[:, 0].min() - 1.0 <= x_mm <= edge.outer[:, 0].max() + 1.0
        )
        for side in ("left", "right")
    }
    ring, wood = [], []
    for side, sign in (("left", -1.0), ("right", 1.0)):
        z = np.array([lows[side], top])
        y = carcass.outer_half_width(np.full(2, x_mm), z, "left" if sign < 0 else "right")
        corners = np.stack([sign * (y + wall), z + up + np.array([0.0, deck])], -1)
        ring.append(corners if sign < 0 else corners[::-1])
        bare = np.stack([sign * y, z + up], -1)
        wood.append(bare if sign < 0 else bare[::-1])
    sheet.cover(np.concatenate(ring), np.concatenate(wood))


def _measures(sheet: ViewSheet, cabin: Cabin, carcass: Carcass, rest: Rest, x_mm: float) -> None:
    """Give the width at the deck and the deck's height."""
    unit = cabin.build.unit
    top = float(carcass.deck_top(np.array([x_mm]))[0])
    up = top + float(rest.up(np.array([x_mm]))[0])
    left, right = (
        float(carcass.outer_half_width(np.array([x_mm]), np.array([top]), side)[0])
        for side in ("left", "right")
    )
    wide, high = shown(left + right, unit), shown(up, unit)
    corner = np.array([-left, up])
    sheet.measure(corner, np.array([right, up]), 9.0, wide, ("console", "width"))
    sheet.measure(np.array([-left, 0.0]), corner, 9.0, high, ("console", "deck height"))


def _beside(sheet: ViewSheet, car: CarShape, x_mm: float) -> None:
    """Draw dash, seats and bodies where the plane meets them, in double chain."""
    if car.dash is not None:
        sides = car.dash.sides or (-110.0, 110.0)
        y = np.linspace(sides[0], sides[1], 23)
        z = car.dash.height(np.full_like(y, x_mm), y)[0]
        known = np.isfinite(z)
        if known.sum() > 1:
            sheet.line(np.stack([y[known], z[known]], -1), "other-body")
            sheet.label(float(y[known][-1]) - 30.0, float(z[known][-1]) + 6.0, "dash")
    for seat in car.seats:
        sign = -1.0 if seat.side == "left" else 1.0
        if not float(seat.start[0]) <= x_mm <= float(seat.end[0]):
            continue
        ends = np.array(
            [[sign * seat.low[0, 0], seat.low[0, 1]], [sign * seat.high[0, 0], seat.high[0, 1]]]
        )
        sheet.line(ends, "other-body")
        sheet.label(float(ends[1, 0]) + sign * 12.0, float(ends[1, 1]) + 6.0, f"{seat.side} seat")
    for body in car.bodies:
        points = np.concatenate([piece[0] for piece in body.pieces])
        if points[:, 0].min() <= x_mm <= points[:, 0].max():
            ring = hull(points[:, 1:])
            sheet.line(ring, "other-body", closed=True)
            sheet.label(float(ring[:, 0].mean()), float(ring[:, 1].mean()), body.name)
