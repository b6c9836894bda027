"""Chances of faults by what a meter read, against Bayes' rule worked by hand."""

from math import exp

import numpy as np
import pytest

from trimwright.wiring import MeterTable, diagnosis
from trimwright.wiring.logic import Fault
from trimwright.wiring.odds import chances

ALONE = np.array([[0.0], [1.0], [np.nan]])


def test_three_explanations_of_one_reading_are_those_worked_by_hand() -> None:
    # densities at 0.5 V, sigma 0.5 V, off by one sigma both: exp(-1/2) / (0.5 sqrt(2 pi)) = 0.48394;
    # the third has 1/25 = 0.04: 2 * 0.48394, 1 * 0.48394, 5 * 0.04 of 1.65183
    told = chances(np.array([2.0, 1.0, 5.0]), ALONE, np.full((3, 1), 0.5), np.array([0.5]), 25.0)
    assert told == pytest.approx([0.58594, 0.29297, 0.12108], abs=1e-5)


def test_chances_of_two_stand_as_what_was_held_before_times_how_well_each_fits() -> None:
    # off by 1 and by 3 sigma: exp((9 - 1) / 2) times as likely, before it a quarter as likely
    first, second = chances(
        np.array([1.0, 4.0]), np.array([[1.0], [5.0]]), np.ones((2, 1)), np.array([2.0]), 25.0
    )
    assert first / second == pytest.approx(exp(4.0) / 4.0)
    assert first + second == pytest.approx(1.0)


def test_every_reading_counts_by_itself() -> None:
    odds, shown, doubt = np.array([1.0, 3.0, 2.0]), np.zeros((3, 2)), np.ones((3, 2))
    shown[1], shown[2] = (0.4, -2.0), (1.0, np.nan)
    read = np.array([0.3, -0.2])
    once = chances(odds, shown[:, :1], doubt[:, :1], read[:1], 25.0)
    both = chances(once, shown[:, 1:], doubt[:, 1:], read[1:], 25.0)
    assert chances(odds, shown, doubt, read, 25.0) == pytest.approx(both)


def table(*faults: Fault, shows: tuple[float, ...]) -> MeterTable:
    """Return a table of one reading of 12 V, within 0.5 V, with what each fault makes of it."""
    one = np.array([12.0])
    return MeterTable(
        (), faults, one, one - 0.52, one + 0.52, np.array(shows)[:, None], np.ones((2, 1), np.bool_)
    )


def test_a_blown_fuse_is_thought_of_before_a_broken_wire_that_shows_the_same() -> None:
    # 60 and 20 in ten thousand before, as odds 60/9940 and 20/9980: nothing but these tells them apart
    wire, fuse = Fault("wire broken", "horn 1"), Fault("fuse blown", "fuse 1")
    told = diagnosis(table(wire, fuse, shows=(0.0, 0.0)), {0: 0.0}, 0)
    assert [one.fault for one in told.likely] == [fuse, wire]
    assert told.likely[0].chance / told.likely[1].chance == pytest.approx(60 / 9940 * 9980 / 20)
    total = sum(one.chance for one in told.likely) + told.nothing + told.other
    assert total == pytest.approx(1.0)


def test_what_was_read_at_the_limit_may_well_be_nothing_wrong() -> None:
    crimp, fuse = Fault("bad crimp", "horn 1"), Fault("fuse blown", "fuse 1")
    near = diagnosis(table(crimp, fuse, shows=(10.5, 0.0)), {0: 11.45}, 0)
    far = diagnosis(table(crimp, fuse, shows=(10.5, 0.0)), {0: 10.5}, 0)
    assert near.nothing > 0.5
    assert far.nothing < 0.01
    assert far.likely[0].fault == crimp
    assert far.likely[0].chance > 0.6


def test_what_no_fault_shows_is_something_else() -> None:
    wire, fuse = Fault("wire broken", "horn 1"), Fault("fuse blown", "fuse 1")
    told = diagnosis(table(wire, fuse, shows=(0.0, 0.0)), {0: 5.0}, 0)
    assert told.likely == ()
    assert told.other > 0.99


def test_a_fault_that_could_not_be_solved_counts_among_anything_else() -> None:
    wire, fuse = Fault("wire broken", "horn 1"), Fault("fuse blown", "fuse 1")
    with_it = diagnosis(table(wire, fuse, shows=(0.0, float("nan"))), {0: 5.0}, 0)
    assert with_it.unsolved == 1
    assert with_it.other > 0.99
    assert [one.fault for one in with_it.likely] == []
