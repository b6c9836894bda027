"""Free places: which edge words mean, where it may be probed, and what is refused."""

from functools import cache
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace

from trimwright.build import Probe, load, probe_place
from trimwright.cabin import cabin
from trimwright.car import bodies
from trimwright.chance import sobol_scores
from trimwright.fit import GapModel, NotThere, gap_model, uncovered
from trimwright.fit.card import CardPlace
from trimwright.fit.face_place import face_line, on_face
from trimwright.fit.probing import Forecast, probed

EXAMPLE = Path(__file__).resolve().parents[3] / "examples" / "dunlin" / "first-measured.yaml"


@cache
def bare() -> GapModel:
    one = cabin(load(EXAMPLE).build)
    assert one.carcass is not None
    assert not isinstance(one.tunnel, ValueError)
    return gap_model(uncovered(one.build), one.ledger, one.tunnel, one.carcass)


def read(words: str, touches: str = "it") -> tuple[float, np.ndarray]:
    """Return what is read at a place [mm], and the nearest points on the console and opposite."""
    meant = probed(Probe(probe=words, touches=touches), bare())
    assert not isinstance(meant, NotThere | CardPlace), meant
    table = replace(bare(), sources=(meant.source,)).nominal()
    witness = table.witness[meant.column]
    assert witness is not None
    return float(table.values[0, meant.column]), np.array(witness)


@pytest.mark.parametrize(
    ("words", "touches", "same"),
    [
        ("left wall lower edge at 610 behind", "the carpet", "left wall daylight at 610 behind"),
        ("Left wall at 610 behind", "carpet", "daylight left wall at 610 behind"),
        ("right wall at 420 behind", "bare tunnel", "right wall to tunnel at 420 behind"),
        ("right wall at 420 behind", "the seat", "right wall to seat at 420 behind"),
        ("nose at 20 ahead", "the dash", "deck to dash at 20 ahead"),
        ("box bulkhead at 40 left", "the carpet", "box bulkhead daylight at 40 left"),
    ],
)
def test_an_edge_answers_to_several_words(words: str, touches: str, same: str) -> None:
    assert read(words, touches)[0] == read(same)[0]


@pytest.mark.parametrize(
    ("words", "axis"),
    [
        ("left wall daylight at 610 behind", 2),
        ("left wall to tunnel at 610 behind", 2),
        ("left wall to seat at 580 behind and 100 up", 1),
        ("deck to dash at 20 ahead and 60 left", 2),
    ],
)
def test_the_nearest_points_lie_the_reading_apart_where_it_was_read(words: str, axis: int) -> None:
    value, (on, other) = read(words)
    away = other - on
    assert abs(away[axis]) == pytest.approx(abs(value), abs=1e-9)
    assert np.delete(away, axis) == pytest.approx([0, 0], abs=1e-9)
    place = probe_place(words, "mm")
    assert place is not None
    told = (place.along_mm, place.across_mm, place.up_mm)
    for said, where, within in zip(told, on, (1.0, 1.0, 12.0), strict=True):
        # told on the wood: the console rests some millimetres higher than it is drawn
        assert said is None or where == pytest.approx(said, abs=within)


def test_a_place_on_a_face_lies_on_the_face() -> None:
    carcass = bare().carcass
    assert carcass is not None
    for name, axis in (("left wall 1", 2), ("right wall 2", 2), ("deck 1", 1), ("deck 3", 1)):
        panel = carcass.panel(name)
        along = panel.outer_points()[:, 0]
        x = 0.3 * along.min() + 0.7 * along.max()
        points = on_face(panel, x, np.linspace(*face_line(panel, x, axis), 5), axis)
        depth = (points - np.array(panel.frame.origin)) @ np.array(panel.frame.n)
        assert depth == pytest.approx(np.zeros(5), abs=1e-9)
        assert points[:, 0] == pytest.approx(np.full(5, x))


def test_several_readings_are_forecast_as_each_alone() -> None:
    words = (
        "nose left",
        "left wall daylight at 610 behind",
        "card at 220 behind and 90 left",
        "left wall daylight at 100 behind",
        "handbrake",
        "nose right",
    )
    asked = [probed(Probe(probe=one, touches="it"), bare()) for one in words]
    known = tuple(one for one in asked if not isinstance(one, NotThere))
    assert len(known) == len(words)
    rows = sobol_scores(len(bare().ledger), scrambles=1, each=16, seed=2)
    together = Forecast(bare(), known).of(rows)
    for column, one in enumerate(known):
        assert together[:, column] == pytest.approx(Forecast(bare(), (one,)).of(rows)[:, 0])


def test_a_slice_is_as_far_from_a_body_as_its_points_are() -> None:
    value, (on, _) = read("right wall to heater box at 50 ahead")
    (corners,) = bodies_pieces()
    nearest = np.clip(on, corners.min(axis=0), corners.max(axis=0))
    # the slice is 1 mm thick, so its front stands half a mm nearer than its middle
    assert value == pytest.approx(np.linalg.norm(on - nearest), abs=0.6)


def bodies_pieces() -> tuple[np.ndarray, ...]:
    scene = bare().scene()
    assert scene is not None
    return tuple(piece[0] for piece in bodies(scene.world)[0].pieces)


def test_an_opening_stays_open_where_the_deck_is_sliced() -> None:
    across_hole, _ = read("deck to handbrake at 560 behind")
    beside, (on, _) = read("deck to handbrake at 620 behind")
    assert across_hole > 5  # the bar stands in the opening, 30 of its 60 wide
    assert beside != across_hole
    assert on[0] == pytest.approx(620, abs=1.5)


@pytest.mark.parametrize(
    ("words", "touches", "says"),
    [
        ("left wal daylight at 610 behind", "it", "the nearest is 'left wall daylight'"),
        ("roof at 610 behind", "it", "no edge of this build is called 'roof'"),
        ("left wall at 610 behind", "it", "could mean each of: left wall daylight; left wall to"),
        ("left wall daylight at 610 behind", "the seat", "does not touch 'the seat'"),
        ("left wall daylight at 695 behind", "it", "from 70 mm ahead to 690 mm behind only"),
        ("left wall daylight at 40 left", "it", "at a place along the car, such as: left wall"),
        ("left wall daylight at 40 behind and 9 left", "it", "not probed at a place across"),
        ("box bulkhead daylight at 160 left", "it", "can be probed from 125.1 mm left to"),
        (
            "left wall to seat at 580 behind and 300 up",
            "it",
            "the wall reaches from 72.6 mm below to",
        ),
        ("left wall to seat at 580 behind and 40 below", "it", "is not known at the height of"),
        ("left wall to seat at 100 behind", "it", "from 170 mm behind to 620 mm behind only"),
        ("deck to dash at 20 ahead and 160 left", "it", "the deck reaches from 10"),
        ("deck to dash at 300 behind", "it", "from 70 mm ahead to 10 mm ahead only"),
        ("tail", "it", "no gap of this build is called 'tail'"),
    ],
)
def test_what_is_refused_says_why(words: str, touches: str, says: str) -> None:
    meant = probed(Probe(probe=words, touches=touches), bare())
    assert isinstance(meant, NotThere)
    assert says in meant.says.replace("\u2009", " ")


def test_a_console_that_tips_is_probed_nowhere() -> None:
    model = replace(bare(), guess=None)
    meant = probed(Probe(probe="left wall daylight at 610 behind", touches="it"), model)
    assert isinstance(meant, NotThere)
    assert meant.says == "nothing is known of where the console comes to rest"


@pytest.mark.parametrize("side", ["left", "right"])
def test_no_place_along_a_wall_is_nearer_to_the_seat_than_the_least(side: str) -> None:
    least = bare().nominal().values[0, [g.name for g in bare().gaps].index(f"{side} wall to seat")]
    places = [read(f"{side} wall to seat at {x} behind")[0] for x in range(170, 621, 15)]
    # the wall comes to rest a few hundredths further along than it was designed
    assert min(places) >= least - 0.01
