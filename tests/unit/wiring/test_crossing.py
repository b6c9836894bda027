"""Trunks across a hinge: their free stretch counts, and their strands are looked at."""

from math import hypot

import pytest

from tests.invented_loom import LOOM
from trimwright.build import InputError, Wiring, parse
from trimwright.wiring import Crossing, crossings, made_of, wiring_outcome
from trimwright.wiring.loom import loom

DOOR = "{from: dash, to: door, long: 700 mm, bends: 10 mm}"
HINGE = "body hole: 30 mm, door hole: 40 mm, closed: 50 mm, opens: 90 deg"


def hinged(more: str = "", unit: str = "mm") -> Wiring:
    """Return the invented loom with its door's trunk across a hinge."""
    text = LOOM.format(unit=unit)
    assert DOOR in text
    new = f"{{from: dash, to: door, long: 700 mm, hinge: {{{HINGE}{more}}}}}"
    found = parse(text.replace(DOOR, new)).build.wiring
    assert found is not None
    return found


def _crossing(more: str = "") -> Crossing:
    (one,) = crossings(wiring_outcome(hinged(more), "mm"))
    return one


def test_the_free_stretch_is_cut_with_the_wires() -> None:
    before, after = loom(hinged(", free: 100 mm")), loom(hinged(", free: 150 mm"))
    for one, other in zip(before.wires, after.wires, strict=True):
        crosses = one.route is not None and 3 in one.route.trunks
        if crosses and one.cut_mm is not None and other.cut_mm is not None:
            assert other.cut_mm - one.cut_mm == pytest.approx(50.0 * 1.03)
        elif not crosses:
            assert other.cut_mm == one.cut_mm
    assert any(one.route and 3 in one.route.trunks for one in before.wires)


def test_without_a_free_length_the_longest_straight_way_is_cut() -> None:
    assert _crossing().free_mm == pytest.approx(70.0)
    assert _crossing().lyings == ()


def test_a_hinge_is_read_as_it_is_written() -> None:
    one = _crossing(", at first: together, along the axis: 30 mm, leaves door: 20 deg")
    assert not one.swing.parting
    assert one.swing.along_mm == 30.0
    assert (one.lead.body_deg, one.lead.door_deg) == (None, 20.0)
    assert one.closest_mm >= 30.0


def test_the_middle_line_is_half_a_bundle_outside_the_bend() -> None:
    one = _crossing(", free: 100 mm")
    assert one.own.bundle is not None
    assert one.bend is not None
    assert one.limit_mm == pytest.approx(one.bend.radius_mm + one.own.bundle.diameter_mm / 2)
    # one wire that moves: 5 times its thickness, where lying still it would be 4
    assert one.bend.radius_mm == pytest.approx(5 * one.own.bundle.diameter_mm)


def test_a_wire_alone_needs_no_more_than_half_a_loop() -> None:
    one = _crossing(", free: 100 mm")
    assert one.tightest is not None
    # all turning in one half loop as tight as it is would be shorter than the loom
    assert one.tightest.radius_mm < hypot(100.0, 100.0)


def test_fine_strands_are_asked_for_by_name() -> None:
    found = wiring_outcome(hinged(", free: 100 mm, strands: fine"), "mm")
    fine = {name for name, own in made_of(found).items() if own.fine}
    assert fine == {one.name for one in found.loom.through(3)}
    assert all(own.bought.endswith(", fine strands") for own in made_of(found).values() if own.fine)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("closed: 50 mm", "closed: 75 mm", 'found "75 mm"; expected from 10 mm to 70 mm'),
        ("closed: 50 mm", "closed: 5 mm", 'found "5 mm"; expected from 10 mm to 70 mm'),
        ("opens: 90 deg", "opens: 300 deg", 'found "300 deg"; expected 270 deg at most'),
        ("opens: 90 deg", "opens: 0 deg", 'found "0 deg"; expected more than nothing'),
        ("long: 700 mm, hinge", "hinge", "expected how long it is on both sides of its hinge"),
    ],
)
def test_what_no_tape_can_find_is_refused(old: str, new: str, says: str) -> None:
    text = LOOM.format(unit="mm").replace(
        DOOR, f"{{from: dash, to: door, long: 700 mm, hinge: {{{HINGE}}}}}"
    )
    assert old in text
    with pytest.raises(InputError, match=says):
        parse(text.replace(old, new))
