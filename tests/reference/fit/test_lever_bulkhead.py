"""A gear lever's shaft against bulkheads, by hand and by the Flexible Collision Library (python-fcl).

A capsule leaning beside a panel's edge, within 0.02 mm of the figure by hand; every draw, gear and
piece within 0.05 mm of the library's distance, and never more than that.
"""

from functools import cache

import fcl
import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.build import Build, parse
from trimwright.car import World, ledger, lever, tunnel
from trimwright.chance import sobol_scores
from trimwright.checks.clearance import kind
from trimwright.fit import GapModel, cuts, gap_model
from trimwright.fit.convex import prisms, separation
from trimwright.fit.hull import hull
from trimwright.fit.lever_bulkhead import moved_shafts, reach_along, standing_shafts
from trimwright.fit.pair import at_rest, own_pieces
from trimwright.fit.source import Scene
from trimwright.parts import console

Floats = NDArray[np.float64]
TEXT = """build: Test car
unit: mm
car:
  carpet: {{loose: 15 ± 1, squeezed by hand: 6}}
  tunnel:
    - {{at: 300 behind, height above floor: 180, width at shoulder: 190, width at floor: 330}}
  lever:
    knob: 46
    shaft: 14
    moves:
      - {{gear: neutral, behind datum: 190 ± 2, above tunnel: 300 ± 2, off middle: 0 ± 2}}
      - {{gear: first, behind datum: 128 ± 2, above tunnel: 296 ± 2, off middle: 48 ± 2 left}}
      - {{gear: second, behind datum: 254 ± 2, above tunnel: 290 ± 2, off middle: 48 ± 2 left}}
      - {{gear: fourth, behind datum: 256 ± 2, above tunnel: 295 ± 2, off middle: 0 ± 2}}
  engine moves: {{across: 10 ± 2, along: 6 ± 2}}
console:
  sheet: birch plywood 12
  deck height: 200
  width: 232
  from: 70 ahead
  to: 690 behind
  openings:
    - {{name: gear lever, at: 190 behind, long: 160, wide: 130, corner: 25}}
  bulkheads:
    - {{name: nose, at: {ahead}}}
    - {{name: mid, at: {behind}}}
"""
STANDING, MOVED = "lever to mid, standing", "lever to mid, engine moved"


def built(ahead: str, behind: str) -> Build:
    """Return a build with a bulkhead ahead of the lever and one behind it."""
    return parse(TEXT.format(ahead=ahead, behind=behind)).build


def model_of(build: Build) -> GapModel:
    """Return the gap model of a build."""
    doubts, skin = ledger(build), tunnel(build.car)
    return gap_model(build, doubts, skin, console(build, skin))


@cache
def model(ahead: str = "120 behind", behind: str = "262 behind") -> GapModel:
    """Return the gap model with the bulkheads at these places."""
    return model_of(built(ahead, behind))


def column(found: GapModel, name: str) -> int:
    """Return the place of a gap."""
    return [gap.name for gap in found.gaps].index(name)


def boxes(found: GapModel, scene: Scene, name: str) -> list[Floats]:
    """Return the corners of a bulkhead's convex pieces at rest, (rows, k, 3) each."""
    assert found.carcass is not None
    owns = own_pieces(found.carcass, scene.world)
    placed = at_rest(owns, scene)
    return [at for own, at in zip(owns, placed, strict=True) if own.panel.name == name]


def body(corners: Floats) -> fcl.CollisionObject:
    """Return a convex body of python-fcl."""
    piece = hull(corners)
    faces = np.concatenate([np.full((len(piece.triangles), 1), 3), piece.triangles], axis=1)
    return fcl.CollisionObject(fcl.Convex(corners, len(piece.triangles), faces.ravel()))


def capsule(start: Floats, end: Floats, radius: float) -> fcl.CollisionObject:
    """Return a rod with round ends of python-fcl, which lays them along z."""
    way = (end - start) / np.linalg.norm(end - start)
    across = np.linalg.svd(way[None])[2][1:]
    turn = np.column_stack([across[0], np.cross(way, across[0]), way])
    place = fcl.Transform(turn, 0.5 * (start + end))
    return fcl.CollisionObject(fcl.Capsule(radius, float(np.linalg.norm(end - start))), place)


def fcl_distance(one: fcl.CollisionObject, other: fcl.CollisionObject) -> float:
    """Return the distance of two bodies from python-fcl."""
    return float(fcl.distance(one, other, fcl.DistanceRequest(), fcl.DistanceResult()))


def test_a_leaning_shaft_beside_a_panel_by_hand() -> None:
    # a shaft in the plane y = 0 that leans rearward passes the panel's top front edge, a level
    # line across the car: room = (x_edge - x_foot) cos a - (z_edge - z_foot) sin a - radius
    found = model()
    scene = found.scene()
    assert scene is not None
    stick = scene.stick
    assert stick is not None
    corners = np.concatenate([one[0] for one in boxes(found, scene, "mid")])
    top = corners[corners[:, 2] > corners[:, 2].max() - 2.0]
    edge = top[np.argmin(top[:, 0])]
    foot, radius = stick.pivot[0], float(stick.shaft_radius[0])
    rooms, moved = [], []
    for far in stick.tops[0]:
        lean, run = np.hypot(far[0] - foot[0], far[2] - foot[2]), far - foot
        square = ((edge[0] - foot[0]) * run[2] - (edge[2] - foot[2]) * run[0]) / lean
        rooms.append(square - radius)
        moved.append(square - radius - float(stick.along[0]) * run[2] / lean)
    values = found.nominal().values[0]
    # seen along y, as the edge is level but for the console's roll
    assert values[column(found, STANDING)] == pytest.approx(min(rooms), abs=0.02)
    assert values[column(found, MOVED)] == pytest.approx(min(moved), abs=0.02)
    assert 0 < min(moved) < min(rooms) < 30


def test_an_upright_shaft_inside_a_panel_is_as_deep_as_the_way_out() -> None:
    # a plate 12 thick at x = 100, a rod of radius 7 upright 2 mm behind its front: 2 + 7 out
    plate = np.array([[[x, y, z] for y, z in ((-90, 0), (90, 0), (90, 80), (-90, 80))]
                      for x in (100.0, 112.0)])  # fmt: skip
    solid = hull(np.array([[102.0 + x, y, z] for x in (-1e-3, 1e-3) for y in (-1e-3, 1e-3)
                           for z in (-20.0, 300)]))  # fmt: skip
    deep = separation(prisms(plate[:1], plate[1:])[0], solid).distance - 7.0
    assert deep == pytest.approx(-9.0, abs=0.01)


def test_every_row_equals_fcl_over_every_gear_and_piece() -> None:
    found = model()
    scores = np.vstack(
        [np.zeros(len(found.ledger)), sobol_scores(len(found.ledger), scrambles=1, each=32, seed=3)]
    )
    table = found.evaluate(scores)
    world = World(found.build, found.ledger, found.ledger.deviations(scores))
    stands = found.scene()
    assert stands is not None
    scene = Scene.of(world, table.poses, stands.about)
    rods, pieces = standing_shafts(world), boxes(found, scene, "mid")
    for row in range(len(scores)):
        walls = [body(one[row]) for one in pieces]
        least = min(
            fcl_distance(
                capsule(shaft.corners[row, 0], shaft.corners[row, 1], shaft.coat[row]), wall
            )
            for shaft in rods
            for wall in walls
        )
        ours = table.values[row, column(found, STANDING)]
        assert least > 0
        assert ours <= least + 1e-5  # never more than there is
        assert ours == pytest.approx(least, abs=0.05)


def test_the_engine_at_any_place_of_its_play_comes_no_nearer() -> None:
    rng = np.random.default_rng(5)
    found = model()
    scene = found.scene()
    assert scene is not None
    stick = scene.stick
    assert stick is not None
    swept = moved_shafts(scene.world)
    shares = [(x, y) for x in np.linspace(-1, 1, 5) for y in np.linspace(-1, 1, 5)]
    for gear, solid in enumerate(swept):
        at = np.array([330.0, 0, 120]) + rng.uniform(-60, 20, 3)
        cube = at + 20 * np.array(
            [[x, y, z] for x in (-1.0, 1) for y in (-1.0, 1) for z in (-1.0, 1)]
        )
        ours = separation(hull(cube), hull(solid.corners[0])).distance - float(solid.coat[0])
        theirs = []
        for x, y in shares:
            shift = np.array([x * stick.along[0], y * stick.across[0], 0.0])
            rod = capsule(
                stick.pivot[0] + shift, stick.tops[0, gear] + shift, stick.shaft_radius[0]
            )
            theirs.append(fcl_distance(rod, body(cube)))
        assert min(theirs) - 0.5 < ours <= min(theirs) + 1e-5


def test_no_draw_brings_the_shaft_beyond_its_reach() -> None:
    found = model()
    front, rear = reach_along(World.nominal(found.build, found.ledger))
    off = found.ledger.deviations(sobol_scores(len(found.ledger), scrambles=1, each=2048, seed=1))
    stick = lever(World(found.build, found.ledger, off))
    assert stick is not None
    beside = (stick.shaft_radius + stick.along)[:, None]
    x = np.concatenate([stick.pivot[:, None, 0], stick.tops[..., 0]], axis=1)
    assert front < (x - beside).min() - 5
    assert rear > (x + beside).max() + 5
    assert rear - front < 320  # and yet it tells bulkheads apart


def test_a_bulkhead_out_of_reach_has_no_gap_and_one_within_has_two() -> None:
    near = [gap.name for gap in model().gaps]
    assert [one for one in near if "mid" in one] == [STANDING, MOVED]
    assert [one for one in near if one.startswith("lever to nose")] == [
        "lever to nose, standing",
        "lever to nose, engine moved",
    ]
    far = [gap.name for gap in model("10 ahead", "400 behind").gaps]
    assert [one for one in near if one not in far] == [
        "lever to nose, standing",
        "lever to nose, engine moved",
        STANDING,
        MOVED,
    ]


def test_a_cut_console_has_the_same_gaps() -> None:
    build = built("120 behind", "262 behind")
    found = model()
    for cut in cuts(build, lambda _: True):
        after = model_of(cut.applied(build, min(cut.most_mm, 4.0)))
        assert [gap.name for gap in after.gaps] == [gap.name for gap in found.gaps], cut.name


def test_a_gap_of_the_lever_is_the_lever_s_whatever_its_bulkhead_is_called() -> None:
    gaps = {gap.name: gap for gap in model().gaps}
    assert kind(gaps["lever to nose, standing"]) == "lever"
