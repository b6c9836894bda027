"""Laws that gaps always keep: mirrored cars, thicker carpet, thicker covers, more rows at once."""

from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trimwright.build import Build, parse
from trimwright.car import World, bodies, ledger, tunnel
from trimwright.fit import GapModel, gap_model
from trimwright.fit.convex import Piece, separation
from trimwright.fit.hull import hull
from trimwright.fit.pair import at_rest, own_pieces
from trimwright.fit.segment import segment_distance
from trimwright.fit.source import Scene
from trimwright.parts import console
from trimwright.parts.opening import hole_outline

TEXT = """
build: Pellworth saloon, 1968
unit: mm
car:
  carpet: {{loose: {loose}, squeezed by hand: {hand}}}
  dash: [{dash}]
  tunnel:
    - at: 150 ahead
      height above floor: 190
      down 15: {{{a}: 82, {b}: 84}}
      down 60: {{{a}: 118, {b}: 116}}
      down 140: {{{a}: 152, {b}: 155}}
    - at: 300 behind
      height above floor: 186
      down 15: {{{a}: 78, {b}: 79}}
      down 60: {{{a}: 112, {b}: 113}}
      down 140: {{{a}: 148, {b}: 150}}
    - at: 750 behind
      height above floor: 184
      down 15: {{{a}: 76, {b}: 75}}
      down 60: {{{a}: 110, {b}: 108}}
      down 140: {{{a}: 146, {b}: 147}}
  seats:
    {a}: {{inner edge low: 142 at 20 up, inner edge high: 138 at 200 up,
      from: 200 behind, to: 600 behind}}
    {b}: {{inner edge low: 150 at 20 up, inner edge high: 149 at 200 up,
      from: 200 behind, to: 600 behind}}
  lever:
    knob: 46
    moves:
      - {{gear: neutral, behind datum: 200, above tunnel: 290, off middle: 3 {b}}}
      - {{gear: first, behind datum: 150, above tunnel: 286, off middle: 45 {a}}}
      - {{gear: fourth, behind datum: 250, above tunnel: 284, off middle: 38 {b}}}
  engine moves: {{across: 9, along: 6}}
  handbrake:
    pivot: {{behind datum: 640, up: 160, off middle: 10 {a}}}
    long: 200
    thick: 30
    down: 12 deg
    up: 40 deg
  bodies:
    - name: heater box
      box: {{from: 160 ahead, to: 90 ahead, {box}, bottom: 80, top: 240}}
console:
  sheet: birch plywood 12
  deck:
    - {{at: 70 ahead, height: 190}}
    - {{at: 690 behind, height: 205}}
  widths:
    - {{at: 70 ahead, {a}: 104, {b}: 108}}
    - {{at: 690 behind, {a}: 116, {b}: 112}}
  from: 70 ahead
  to: 690 behind
  openings:
    - {{name: gear lever, at: 200 behind, off middle: 2 {b}, long: 150, wide: 120, corner: 25}}
  held by:
    - {{bolt: M6, at: 350 behind, off middle: 40 {a}, torque: 0.3 N m ± 0.1}}
covers:
  deck: {{foam: {foam}, leather: 1.2}}
  walls: {{foam: 3, leather: 1.2}}
"""
POINTS = (("110 ahead", "90", "226"), ("110 ahead", "-90", "229"), ("20 behind", "0", "249"))


@cache
def model(
    side: str = "left", loose: float = 15.0, hand: float = 6.0, foam: float = 3.0
) -> tuple[Build, GapModel]:
    """Return the gap model of a car, or of its mirror image."""
    other = "right" if side == "left" else "left"
    dash = []
    for at, out, up in POINTS:
        hand_side = side if float(out) > 0 else other
        across = "0" if out == "0" else f"{abs(float(out)):g} {hand_side}"
        dash.append(f"{{at: {at}, across: {across}, up: {up}}}")
    ends = (
        "left: 60 right, right: 150 right" if side == "left" else "left: 150 left, right: 60 left"
    )
    text = TEXT.format(
        a=side, b=other, loose=loose, hand=hand, foam=foam, dash=", ".join(dash), box=ends
    )
    build = parse(text).build
    skin, doubts = tunnel(build.car), ledger(build)
    return build, gap_model(build, doubts, skin, console(build, skin))


def nominal(found: GapModel) -> dict[str, float]:
    """Return the nominal gaps by name."""
    values = found.nominal().values[0]
    return {gap.name: float(v) for gap, v in zip(found.gaps, values, strict=True)}


def swapped(name: str) -> str:
    """Return a gap's name in the mirror."""
    words = {"left": "right", "right": "left"}
    return " ".join(words.get(word, word) for word in name.split())


def test_a_mirrored_car_has_mirrored_gaps() -> None:
    one, other = nominal(model("left")[1]), nominal(model("right")[1])
    assert len(one) > 12
    assert sorted(map(swapped, one)) == sorted(other)
    for name, value in one.items():
        assert other[swapped(name)] == pytest.approx(value, abs=1e-6), name


def test_a_mirrored_car_rests_as_in_a_mirror() -> None:
    here, there = (model(side)[1].nominal().poses[0] for side in ("left", "right"))
    assert there[:2] == pytest.approx(here[:2], abs=1e-8)
    assert there[2] == pytest.approx(-here[2], abs=1e-8)
    assert abs(here[2]) > 5e-4


@settings(max_examples=6, deadline=None)
@given(st.floats(0.0, 4.0), st.floats(0.1, 3.0))
def test_thicker_carpet_never_widens_the_nose_gap(thicker: float, more: float) -> None:
    # the console is scribed to the carpet as it is read: what counts is carpet that turns out
    # thicker than that, loose and squeezed alike
    found = model("left")[1]
    rows = np.zeros((2, len(found.ledger)))
    for key in ("car.carpet.loose", "car.carpet.squeezed by hand"):
        column = found.ledger.index(key)
        sigma = found.ledger.factors[column].doubt.sigma
        rows[:, column] = np.array([thicker, thicker + more]) / sigma
    gaps = [gap.name for gap in found.gaps]
    nose = found.evaluate(rows).values[:, gaps.index("nose to dash")]
    assert nose[1] < nose[0]


def test_foam_takes_from_the_nose_gap_what_it_is_thick() -> None:
    thin, thick = (nominal(model("left", 15.0, 6.0, foam)[1]) for foam in (3.0, 5.0))
    assert thin["nose to dash"] - thick["nose to dash"] == pytest.approx(2.0, abs=0.02)
    assert thin["left wall to seat"] == pytest.approx(thick["left wall to seat"], abs=1e-9)


@settings(max_examples=3, deadline=None)
@given(st.integers(0, 2**16))
def test_rows_do_not_know_of_each_other(seed: int) -> None:
    found = model("left")[1]
    scores = np.random.default_rng(seed).normal(size=(7, len(found.ledger)))
    together = found.evaluate(scores).values
    for k in (0, 3, 6):
        alone = found.evaluate(scores[k : k + 1]).values[0]
        # a rest is sought to a thousandth of a millimetre, from where the others of its block lead
        assert alone == pytest.approx(together[k], abs=2e-3)


def exact_room(found: GapModel, row: np.ndarray) -> float:
    """Return the signed distance of every panel to the heater box in one world, piece by piece."""
    assert found.rest is not None
    world = World(found.build, found.ledger, found.ledger.deviations(row))
    pose = found.rest.pose(world, tight=True)
    scene = Scene.of(world, pose.motion, found.rest.about)
    box = hull(bodies(world)[0].pieces[0][0])
    rooms = []
    for own in own_pieces(console(found.build, tunnel(found.build.car)), world):
        corners = at_rest([own], scene)[0][0]
        piece = Piece(corners, own.piece.triangles, own.piece.edges)
        rooms.append(separation(piece, box).distance)
    return min(rooms)


@settings(max_examples=3, deadline=None)
@given(st.integers(0, 2**16))
def test_room_to_a_body_is_never_overstated(seed: int) -> None:
    found = model("left")[1]
    column = [gap.between[1] for gap in found.gaps].index("heater box")
    scores = np.random.default_rng(seed).normal(size=(2, len(found.ledger)))
    for k in range(2):
        row = scores[k : k + 1]
        said, true = float(found.evaluate(row).values[0, column]), exact_room(found, row)
        assert said <= true + 0.01  # the rest itself is found to 1e-3 mm
        assert said == pytest.approx(true, abs=0.5)  # second order in some millimetres


def test_shaft_to_rim_equals_rods_against_a_finely_drawn_rim() -> None:
    found = model("left")[1]
    assert found.rest is not None
    table = found.nominal()
    scene = Scene.of(World.nominal(found.build, found.ledger), table.poses, found.rest.about)
    assert scene.stick is not None
    panel = next(p for p in console(found.build, tunnel(found.build.car)).panels if p.holes)
    (hole,) = panel.holes
    turned = 1.2  # leather on the rim
    shrunk = hole_outline(
        hole.centre, hole.long - 2 * turned, hole.wide - 2 * turned, hole.corner - turned
    )
    rooms = []
    for depth in (-4.2, panel.thickness):  # the cover's top, the bare underside
        rim = scene.placed(panel.frame.placed(np.array(shrunk), depth))[0]
        for knob in scene.stick.knobs[0]:
            far = segment_distance(scene.stick.pivot[0], knob, rim, np.roll(rim, -1, axis=0))
            rooms.append(float(far.min()) - float(scene.stick.shaft_radius[0]))
    names = [gap.name for gap in found.gaps]
    said = table.values[0, names.index("lever to opening, standing")]
    # chords of 24 to a quarter lie within 0.014 mm of a 25 mm corner; a tangent for an arc 0.02
    assert said == pytest.approx(min(rooms), abs=0.04)
