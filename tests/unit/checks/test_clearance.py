"""What is said of a gap fits what it lies between."""

import pytest

from trimwright.checks.clearance import CLEAR, HIT, PHYSICS, TIGHT, kind
from trimwright.fit import Gap


@pytest.mark.parametrize(
    ("name", "keys", "family"),
    [
        ("nose to dash", ("car.dash",), "nose"),
        ("left wall to seat", ("car.seats.left",), "seat"),
        ("knob to dash, engine moved", ("car.lever",), "lever"),
        ("lever to opening, standing", ("car.lever",), "lever"),
        ("handbrake", ("car.handbrake",), "handbrake"),
        ("daylight right wall", ("car.carpet",), "daylight"),
        ("deck to heater box", ("car.bodies.0", "covers"), "body"),
        ("left wall to seat belt reel", ("car.bodies.1", "covers"), "body"),
        ("deck to handbrake cable", ("car.bodies.2", "covers"), "body"),
    ],
)
def test_a_gap_is_told_as_what_it_is(name: str, keys: tuple[str, ...], family: str) -> None:
    assert kind(Gap(name, "", ("deck", "other"), 5.0, keys)) == family


def test_every_family_has_its_words() -> None:
    families = {"nose", "seat", "lever", "handbrake", "body", "daylight"}
    for words in (HIT, TIGHT, CLEAR, PHYSICS):
        assert set(words) == families
