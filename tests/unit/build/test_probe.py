"""A free place is told in words, each way once, and never with a bare sign."""

import pytest

from trimwright.build import ProbePlace, parse, probe_place
from trimwright.quantities import QuantityError, Unit

HEAD = "build: Larkspur estate\nunit: mm\ncar: {carpet: {loose: 15}}\n"


@pytest.mark.parametrize(
    ("words", "unit", "place"),
    [
        ("left wall daylight at 610 behind", "mm", ProbePlace("left wall daylight", 610.0)),
        ("deck to dash at 2 1/2 ahead and 1 left", "in", ProbePlace("deck to dash", -63.5, -25.4)),
        ("card at 12,5 behind,90 right", "mm", ProbePlace("card", 12.5, 90.0)),
        ("wall at the datum", "mm", ProbePlace("wall", 0.0)),
        ("wall at 60 ahead of the datum, 40 up", "mm", ProbePlace("wall", -60.0, None, 40.0)),
        ("gear bulkhead at 40 left of middle", "mm", ProbePlace("gear bulkhead", None, -40.0)),
        ("deck to box at rear", "mm", None),
        ("nose left", "mm", None),
    ],
)
def test_words_name_a_place(words: str, unit: Unit, place: ProbePlace | None) -> None:
    assert probe_place(words, unit) == place


@pytest.mark.parametrize(
    "place", ["420", "-420", "420 rear", "4 behind, 5 behind", "420 ± 3 behind"]
)
def test_a_place_that_says_no_way_or_one_twice_is_refused(place: str) -> None:
    with pytest.raises(QuantityError, match="expected"):
        probe_place(f"left wall at {place}", "mm")


@pytest.mark.parametrize(
    ("says", "field", "value"),
    [("4", "reads", 4.0), ("at least 3", "at_least", 3.0), ("at most 2 ± 1", "at_most", 2.0)],
)
def test_a_reading_is_a_figure_or_a_limit(says: str, field: str, value: float) -> None:
    lines = f"test fit:\n  - {{probe: left wall at 610 behind, reads: {says}}}\n"
    (probe,) = parse(HEAD + lines).build.test_fit
    assert getattr(probe, field).value == value
    assert probe.said == getattr(probe, field)
