"""A whole console on a half-cylinder tunnel, against an integral solved by scipy.

Carpet of thickness t on a cylinder of radius R is a cylinder of radius R + t, with the upright
part of its normal sqrt(1 - (y / (R + t))^2) beside the middle.
"""

from functools import cache

import numpy as np
import pytest
from msgspec.structs import replace
from scipy.integrate import quad
from scipy.optimize import brentq

from trimwright.build import Probe, parse
from trimwright.car import World, carpet, ledger, tunnel
from trimwright.fit import GapModel, gap_model
from trimwright.fit.probing import Asked, probed
from trimwright.parts import Carcass, console

R, T = 150.0, 12.0
GRAVITY = 9.80665  # standard gravity [m/s2]
FRICTION = 0.25  # the model's nominal share, of 0 to 0.5
FRONT, REAR, HALF, WOOD = -70.0, 690.0, 100.0, 12.0


def section(at: float) -> str:
    """Return a section of the cylinder, read at even angles."""
    points = []
    for degrees in range(-75, 76, 6):
        y, down = R * np.sin(np.radians(degrees)), R * (1 - np.cos(np.radians(degrees)))
        side = "left" if y < 0 else "right"
        points.append(f'      - "{abs(y):.6f} mm {side}, {down:.6f} mm down"')
    place = f"{abs(at):g} {'ahead' if at < 0 else 'behind'}"
    return f"    - at: {place}\n      height above floor: 150\n      points:\n" + "\n".join(points)


@cache
def cylinder(*bolts: str) -> tuple[GapModel, Carcass]:
    """Return the gap model and carcass of a console on the cylinder, held by some bolts."""
    text = "\n".join(
        [
            "build: Round test car",
            "unit: mm",
            "car:",
            f"  carpet: {{loose: {T:g}, squeezed by hand: 4}}",
            "  dash:",
            "    - {at: 100 ahead, across: 200 left, up: 260}",
            "    - {at: 100 ahead, across: 200 right, up: 260}",
            "    - {at: 60 behind, across: 0, up: 260}",
            "  tunnel:",
            *(section(at) for at in (-150.0, 300.0, 750.0)),
            "console:",
            "  sheet: birch plywood 12",
            "  deck height: 220",
            f"  width: {2 * HALF:g}",
            "  from: 70 ahead",
            "  to: 690 behind",
            "  scribe: {edge: bevelled}",
            *(["  held by:", *(f"    - {bolt}" for bolt in bolts)] if bolts else []),
            "covers:",
            "  deck: {foam: 3, leather: 1}",
        ]
    )
    build = parse(text).build
    skin = tunnel(build.car)
    made = console(build, skin)
    return gap_model(build, ledger(build), skin, made), made


def carried_n(sink_mm: float, model: GapModel) -> float:
    """Return what both edges carry when sunk straight down, by adaptive quadrature."""
    soft = carpet(World.nominal(model.build, model.ledger))

    def strip(y: float) -> float:
        upright = np.sqrt(1 - (y / (R + T)) ** 2)
        tilt = np.sqrt(1 - upright**2) / upright
        pressure = float(soft.pressure(np.array([[sink_mm * upright]]))[0, 0])
        return float(pressure * (1 + FRICTION * tilt))

    each = quad(strip, HALF - WOOD, HALF, epsabs=1e-10)[0]
    return float(2 * (REAR - FRONT) * each * 1e-3)


def test_console_sinks_until_the_carpet_carries_it() -> None:
    model, made = cylinder()
    weight = made.mass_kg * GRAVITY
    sink = brentq(lambda s: carried_n(s, model) - weight, 0.01, 7.5, xtol=1e-9)
    z, pitch, roll = model.nominal().poses[0]
    # the section is read every 6 degrees and lofted: within 0.02 mm of the cylinder; a straight
    # bevel is raised over the round by kappa t^2 / (8 cos^3), 0.24 mm at 38 degrees: the middle of
    # the wood then just touches, the faces start 0.24 mm clear, the mean of them 0.08 mm
    assert -z == pytest.approx(sink, abs=0.12)
    assert sink > 2
    assert roll == pytest.approx(0, abs=1e-6)
    assert abs(pitch) < 1e-3


def test_nose_gap_is_dash_less_deck_rise_and_cover() -> None:
    model, _ = cylinder()
    table = model.nominal()
    assert model.rest is not None
    z, pitch, _ = table.poses[0]
    nose_rise = z - pitch * (FRONT - model.rest.about[0])
    gap = table.values[0, [g.name for g in model.gaps].index("nose to dash")]
    # dash 260 up, deck 220, foam 3, leather 1; the deck is level, its highest end decides
    rear_rise = z - pitch * (60.0 - model.rest.about[0])
    assert gap == pytest.approx(260 - 224 - max(nose_rise, rear_rise), abs=0.01)


def test_daylight_is_what_the_edge_has_sunk() -> None:
    model, _ = cylinder()
    table = model.nominal()
    names = [gap.name for gap in model.gaps]
    values = [table.values[0, names.index(f"daylight {s} wall")] for s in ("left", "right")]
    assert values[0] == pytest.approx(values[1], abs=0.01)
    assert values[0] == pytest.approx(table.poses[0, 0], abs=0.35)  # the raised bevel, and pitch


def test_thicker_carpet_lifts_by_its_thickness_over_the_upright_part() -> None:
    model, _ = cylinder()
    rows = np.zeros((2, len(model.ledger)))
    for key in ("car.carpet.loose", "car.carpet.squeezed by hand"):
        column = model.ledger.index(key)
        rows[1, column] = 1 / model.ledger.factors[column].doubt.sigma
    table = model.evaluate(rows)
    lifts = [1 / np.sqrt(1 - (y / (R + T)) ** 2) for y in (HALF - WOOD, HALF)]
    rise = table.poses[1, 0] - table.poses[0, 0]
    assert lifts[0] < rise < lifts[1]
    # the edge outside, at y = 100, has its carpet raised by more than the console
    column = [gap.name for gap in model.gaps].index("daylight left wall")
    change = table.values[1, column] - table.values[0, column]
    assert change == pytest.approx(rise - lifts[1], abs=0.02)


TILTED = ("{bolt: M6, at: 670 behind, off middle: 60 left, torque: 0.2 N m}",)


def read_at(model: GapModel, words: str) -> float:
    """Return what a probe reads at a free place, with every figure as written [mm]."""
    meant = probed(Probe(probe=words, touches="it"), model)
    assert isinstance(meant, Asked), meant
    return float(replace(model, sources=(meant.source,)).nominal().values[0, meant.column])


def room(model: GapModel, made: Carcass, side: str, x: float, carpet_mm: float) -> float:
    """Return how high a wall's lower edge stands over the round carpet, rolled, pitched, sunk."""
    assert model.rest is not None
    sink, pitch, roll = model.nominal().poses[0]
    edge = next(one for one in made.lower_edges if one.panel == f"{side} wall")
    place = [np.interp(x, edge.outer[:, 0], edge.outer[:, k]) for k in (1, 2)]
    forward, across, up = np.array([x, *place]) - model.rest.about
    across, up = (
        np.cos(roll) * across - np.sin(roll) * up,
        np.sin(roll) * across + np.cos(roll) * up,
    )
    up = np.cos(pitch) * up - np.sin(pitch) * forward
    y, z = model.rest.about[1:] + np.array([across, up + sink])
    # the datum is the tunnel's top: the cylinder's axis lies R below it
    return float(z - (np.sqrt((R + carpet_mm) ** 2 - y**2) - R))


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("x", [-30, 5, 217, 505, 688])
def test_daylight_at_a_place_is_the_edge_over_the_round(side: str, x: int) -> None:
    model, made = cylinder(*TILTED)
    place = f"{abs(x)} {'ahead' if x < 0 else 'behind'}"
    for over, thick in (("daylight", T), ("to tunnel", 0.0)):
        true = room(model, made, side, x, thick)
        # the round is taken as flat from foot to edge: off by d^2 sin^2 / (2 R cos) of a height d,
        # with sin 0.62, cos 0.79 at y = 100; the section is lofted to within 0.02 mm
        flat = 0.62**2 * true**2 / (2 * R * 0.79)
        assert read_at(model, f"{side} wall {over} at {place}") == pytest.approx(
            true, abs=0.05 + flat
        )


def test_the_edge_touches_on_from_where_geometry_says() -> None:
    model, made = cylinder(*TILTED)

    def open_by(x: float) -> float:
        return room(model, made, "right", x, T)

    assert open_by(FRONT) > 1
    assert open_by(REAR) < -1
    first = brentq(open_by, FRONT, REAR)
    touch = read_at(model, f"right wall daylight at {first:.3f} behind")
    assert touch == pytest.approx(0, abs=0.05)
    for x in (first - 60, first + 60):
        assert read_at(model, f"right wall daylight at {x:.3f} behind") * (first - x) > 0
