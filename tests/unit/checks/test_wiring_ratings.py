"""Rule 'ratings': figures that cannot be, or cannot work, together are named."""

import pytest

from tests.small_wiring import changed, told
from trimwright.findings import Finding

RELAY = "  relays:\n    - {name: horn relay, coil: 1 ohm, carries: 10 A}\n"


def _ratings(*swaps: tuple[str, str], more: str = "") -> dict[str, Finding]:
    found = told(changed(*swaps, more=more))
    return {place: one for place, one in found.items() if one.rule == "ratings"}


def test_a_sound_wiring_says_nothing_of_ratings() -> None:
    assert _ratings() == {}


def test_electronics_that_cut_out_above_every_source_never_work() -> None:
    radio = ("kind: LED, takes: 6 W", "kind: electronics, takes: 6 W, cuts out: 14.5 V")
    one = _ratings(radio)["cut-out of lamp"]
    assert (one.grade, one.figure, one.limit) == ("stop", 14.5, 14.2)
    assert "Lamp never works: it cuts out below 14.5 V" in one.says
    running = _ratings(("kind: LED, takes: 6 W", "kind: electronics, takes: 6 W, cuts out: 13 V"))
    assert running["cut-out of lamp"].grade == "look"
    assert "works with the engine running only" in running["cut-out of lamp"].says


def test_what_is_off_with_nothing_else_on_is_not_laid_to_the_others() -> None:
    radio = ("kind: LED, takes: 6 W", "kind: electronics, takes: 6 W, cuts out: 13 V")
    assert "drops out with little else on" in told(changed(radio))["voltage at lamp"].says


def test_an_alternator_below_the_battery_never_charges() -> None:
    one = _ratings(("holds: 14.2 V", "holds: 12.2 V"))["charging"]
    assert (one.grade, one.figure, one.limit) == ("stop", 12.2, 12.6)


@pytest.mark.parametrize(("inside", "left"), [("30 mohm", 9.28), ("1 ohm", 0.976)])
def test_a_battery_too_weak_for_its_starter_is_told(inside: str, left: float) -> None:
    # 150 A at 12.6 V is 84 mohm: what is left is 12.6 x 84/(84 + inside)
    one = _ratings(("inside: 10 mohm", f"inside: {inside}"))["starting"]
    assert one.grade == "change"
    assert one.limit == pytest.approx(9.6)
    assert one.figure == pytest.approx(left, abs=0.005)


def test_a_fuse_that_a_dead_short_does_not_open_is_a_stop() -> None:
    # 12.6 V through 10 mohm is 1260 A, the alternator 55 A more; a fuse may hold 135 %
    assert "rating of main fuse" not in _ratings(("rated: 40 A", "rated: 900 A"))
    one = _ratings(("rated: 40 A", "rated: 1000 A"))["rating of main fuse"]
    assert (one.grade, one.figure) == ("stop", 1000.0)
    assert one.limit == pytest.approx(1315.0)
    assert "never opens" in one.says


def test_a_coil_that_takes_more_than_its_contact_carries_is_a_stop() -> None:
    one = _ratings(more=RELAY)["coil of horn relay"]
    assert (one.grade, one.limit) == ("stop", 10.0)
    assert one.figure == pytest.approx(12.6)
    assert _ratings(more=RELAY.replace("1 ohm", "90 ohm")) == {}
