"""What a gap model says when readings are missing, and what its figures follow."""

from functools import cache

import numpy as np
import pytest

from trimwright.build import parse
from trimwright.car import Unmeasured, ledger, tunnel
from trimwright.chance import sobol_scores
from trimwright.fit import GapModel, gap_model
from trimwright.parts import console

CAR = {
    "carpet": "  carpet: {loose: 15 ± 1, squeezed by hand: 6}",
    "dash": "  dash above tunnel: {80 ahead: 232 ± 3, at datum: 240 ± 3}",
    "tunnel": """  tunnel:
    - {at: 300 behind, height above floor: 180, width at shoulder: 190, width at floor: 330}""",
    "seats": "  between seats: {at hip: 290 ± 4}",
    "lever": """  lever knob:
    across: 48
    neutral: {behind datum: 200, above tunnel: 290}
    furthest left: 50
    furthest right: 48
    furthest rear: {behind datum: 262, above tunnel: 280}""",
    "engine": "  engine moves: {across: 10 ± 2, along: 6 ± 2}",
    "handbrake": """  handbrake:
    pivot: {behind datum: 640, up: 170, off middle: 0}
    long: 200
    thick: 30
    down: 12 deg
    up: 40 deg""",
}
CONSOLE = """console:
  sheet: birch plywood 12
  deck height: 200
  width: 232
  from: 70 ahead
  to: 690 behind
  openings:
    - {name: gear lever, at: 215 behind, long: 160, wide: 130, corner: 25}
"""


@cache
def model(without: str = "", bolts: str = "") -> GapModel:
    """Return the model of a small build with one part of the car unread."""
    parts = [text for name, text in CAR.items() if name != without]
    text = "build: Test car\nunit: mm\ncar:\n" + "\n".join(parts) + "\n" + CONSOLE + bolts
    build = parse(text).build
    doubts = ledger(build)
    skin = tunnel(build.car)
    return gap_model(build, doubts, skin, console(build, skin))


def names(found: GapModel) -> list[str]:
    """Return the gaps that were evaluated."""
    return [gap.name for gap in found.gaps]


def missing(found: GapModel) -> list[str]:
    """Return the gaps that were not."""
    return [unknown.gap for unknown in found.unknown]


WHOLE = [
    "nose to dash",
    "nose left to dash",
    "nose right to dash",
    "left wall to seat",
    "right wall to seat",
    "knob to dash",
    "knob to dash, engine moved",
    "knob to deck",
    "daylight left wall",
    "daylight right wall",
    "lever to opening, standing",
    "lever to opening, engine moved",
    "handbrake",
]


def test_a_car_that_was_read_has_every_gap() -> None:
    assert names(model()) == WHOLE
    assert missing(model()) == []


@pytest.mark.parametrize(
    ("without", "gone"),
    [
        ("dash", {"nose to dash", "knob to dash", "knob to dash, engine moved"}),
        ("seats", {"left wall to seat", "right wall to seat"}),
        ("handbrake", {"handbrake"}),
        (
            "lever",
            {
                "lever to opening, standing",
                "lever to opening, engine moved",
                "knob to dash",
                "knob to dash, engine moved",
                "knob to deck",
            },
        ),
    ],
)
def test_what_is_not_read_is_unknown_and_never_dropped(without: str, gone: set[str]) -> None:
    found = model(without)
    assert set(missing(found)) == gone
    halves = {"nose left to dash", "nose right to dash"} if without == "dash" else set()
    assert [name for name in WHOLE if name not in gone | halves] == names(found)
    assert all(unknown.missing and unknown.keys for unknown in found.unknown)


def test_without_carpet_nothing_rests_and_nothing_is_said() -> None:
    found = model("carpet")
    assert names(found) == []
    assert [(u.gap, u.keys) for u in found.unknown] == [("resting pose", ("car.carpet.loose",))]
    assert found.nominal().values.shape == (1, 0)
    assert found.pose_facts() is None


def test_without_a_tunnel_the_readings_it_misses_are_named() -> None:
    build, made = model().build, model().rest
    assert made is not None
    gone = Unmeasured("no section of the tunnel was read", ("car.tunnel",))
    skin = tunnel(build.car)
    found = gap_model(build, ledger(build), gone, console(build, skin))
    assert [u.missing for u in found.unknown] == [("no section of the tunnel was read",)]


def follows(key: str, gap: str) -> float:
    """Return how much a gap changes when a reading turns out 1 mm more."""
    found = model()
    rows = np.zeros((2, len(found.ledger)))
    column = found.ledger.index(key)
    rows[1, column] = 1 / found.ledger.factors[column].doubt.sigma
    values = found.evaluate(rows).values[:, names(found).index(gap)]
    return float(values[1] - values[0])


@pytest.mark.parametrize(
    ("key", "gap", "per_mm"),
    [
        ("covers.deck.foam", "nose to dash", -1.0),
        ("covers.walls.foam", "left wall to seat", -1.0),
        # turned in at the rim, and the rim higher up a shaft that leans 50 in 340: cos 8.4 deg
        ("covers.deck.leather", "lever to opening, standing", -(1 + 50 / 340) * 0.989),
        ("covers.walls.foam", "nose to dash", 0.0),
        ("car.between seats.at hip", "right wall to seat", 0.5),
        ("car.lever knob.shaft", "lever to opening, standing", -0.5),
        ("car.engine moves.across", "lever to opening, standing", 0.0),
        ("car.handbrake.thick", "handbrake", -0.5),
    ],
)
def test_gaps_follow_their_readings(key: str, gap: str, per_mm: float) -> None:
    # slopes of faces and shafts make cosines of a few degrees
    assert follows(key, gap) == pytest.approx(per_mm, abs=0.06)


def test_the_engine_moves_the_shaft_towards_the_nearest_rim() -> None:
    assert follows("car.engine moves.across", "lever to opening, engine moved") < -0.5


def test_halves_of_the_nose_make_the_whole() -> None:
    found = model()
    rows = np.random.default_rng(1).normal(size=(40, len(found.ledger)))
    values = found.evaluate(rows).values
    assert values[:, 0] == pytest.approx(values[:, 1:3].min(axis=1), abs=1e-12)
    assert [gap.part_of for gap in found.gaps[:3]] == ["", "nose to dash", "nose to dash"]


def test_a_rear_bolt_raises_the_nose_and_moving_it_forward_lowers_it() -> None:
    bolts = "  held by:\n    - {bolt: M6, at: 640 behind, torque: 0.02 N m ± 0.01}\n"
    facts = model(bolts=bolts).pose_facts()
    assert facts is not None
    assert facts.nose_tight_mm > facts.nose_loose_mm
    (grip,) = facts.grips
    assert grip.up_per_mm > 0
    assert grip.up_per_100_n > 0
    assert "higher than loose" in facts.says("mm")


def test_what_a_bolt_does_is_the_slope_of_the_rest() -> None:
    # differences of whole rests, against the slope from the bed's stiffness
    def nose(at: float, torque: float) -> float:
        one = f"  held by:\n    - {{bolt: M6, at: {at:g} behind, torque: {torque:g} N m}}\n"
        facts = model(bolts=one).pose_facts()
        assert facts is not None
        return facts.nose_tight_mm

    bolts = "  held by:\n    - {bolt: M6, at: 500 behind, torque: 0.1 N m}\n"
    facts = model(bolts=bolts).pose_facts()
    assert facts is not None
    (grip,) = facts.grips
    per_mm = (nose(505, 0.1) - nose(495, 0.1)) / 10
    assert grip.up_per_mm == pytest.approx(per_mm, rel=0.1)
    more_n = grip.pull_n * 0.2
    per_100 = (nose(500, 0.11) - nose(500, 0.09)) / more_n * 100
    assert grip.up_per_100_n == pytest.approx(per_100, rel=0.1)


def test_wrong_rows_are_refused() -> None:
    with pytest.raises(ValueError, match="scores must have at least 1 row, got 0"):
        model().evaluate(np.zeros((0, len(model().ledger))))


def test_walls_that_turn_out_taller_lift_the_nose_by_as_much() -> None:
    built = "  as built:\n" + "".join(
        f"    - {{panel: {side} wall, what: height, at: {at}, reads: 150 ± 1}}\n"
        for side in ("left", "right")
        for at in ("60 ahead", "600 behind")
    )
    found = model(bolts=built)
    rows = np.zeros((2, len(found.ledger)))
    for k in range(4):
        column = found.ledger.index(f"console.as built.{k}.reads")
        rows[1, column] = 2.0 / found.ledger.factors[column].doubt.sigma
    table = found.evaluate(rows)
    # 2 mm higher everywhere: the carpet under them gives as before
    assert table.poses[1, 0] - table.poses[0, 0] == pytest.approx(2.0, abs=1e-3)
    assert table.values[1, 0] - table.values[0, 0] == pytest.approx(-2.0, abs=0.01)


def test_nearest_points_lie_the_gap_apart() -> None:
    table = model().nominal()
    for gap, value, pair in zip(model().gaps, table.values[0], table.witness, strict=True):
        assert pair is not None
        apart = float(np.linalg.norm(np.subtract(*pair)))
        if gap.name.startswith("knob"):
            apart -= 24.0  # from the middle of the knob
        if gap.name.startswith("lever"):
            continue  # across the shaft's lean, not square to it
        assert apart == pytest.approx(abs(value), abs=1e-6), gap.name


def test_a_start_from_another_console_leads_to_the_same_rests() -> None:
    uncut, cut = model(), model(bolts="  trims: {nose lower by: 6}\n")
    rows = sobol_scores(len(cut.ledger), scrambles=1, each=64, seed=3)
    rests = uncut.evaluate(rows).rests
    assert rests is not None
    assert cut.guess is not None
    alone, beside = cut.evaluate(rows), cut.evaluate(rows, rests)
    assert beside.values == pytest.approx(alone.values, abs=2e-3)
    # it begins within a tenth of a mm of where it ends
    start = cut.guess.beside(rests)
    assert start.small + start.turn == pytest.approx(alone.poses, abs=0.1)
