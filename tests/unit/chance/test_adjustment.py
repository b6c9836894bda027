from math import inf

import numpy as np
import pytest

from trimwright.chance import adjust


def test_the_odd_one_of_four() -> None:
    found = adjust(np.ones((4, 1)), np.array([200.0, 200.2, 199.8, 206.0]), np.ones(4))
    assert found.suspect == 3
    assert found.slip == pytest.approx(6.0)
    assert found.w[3] == pytest.approx(4.5 / 0.75**0.5)
    assert found.as_likely == ()


def test_good_readings_are_left_alone() -> None:
    found = adjust(np.ones((4, 1)), np.array([200.0, 200.2, 199.8, 201.0]), np.ones(4))
    assert (found.suspect, found.slip, found.as_likely) == (None, 0.0, ())


def test_two_readings_of_one_thing_cannot_be_told_apart() -> None:
    found = adjust(np.ones((2, 1)), np.array([200.0, 210.0]), np.ones(2))
    assert (found.suspect, found.as_likely) == (0, (1,))


def test_a_reading_nothing_checks_is_never_suspect() -> None:
    # the third unknown hangs on the third reading alone
    design = np.array([[1.0, 0], [1, 0], [0, 1]])
    found = adjust(design, np.array([5.0, 5.1, 999.0]), np.ones(3))
    assert found.unchecked == (2,)
    assert (found.w[2], found.detectable[2], found.suspect) == (0.0, inf, None)


def test_unknowns_left_open_are_counted() -> None:
    # only differences are read: the level stays open
    design = np.array([[1.0, -1, 0], [0, 1, -1], [1, 0, -1]])
    found = adjust(design, np.array([1.0, 2.0, 3.3]), np.ones(3))
    assert found.open_unknowns == 1
    assert found.redundancy == pytest.approx((1 / 3,) * 3)
    assert found.residuals == pytest.approx([-0.1, -0.1, 0.1])


def test_a_worse_reading_weighs_less() -> None:
    found = adjust(np.ones((2, 1)), np.array([0.0, 5.0]), np.array([1.0, 2.0]))
    assert found.unknowns[0] == pytest.approx(1.0)


def test_nonsense_is_refused() -> None:
    one = np.ones(1)
    with pytest.raises(ValueError, match=r"must be \(n, m\), \(n,\), \(n,\), got \(2, 1\)"):
        adjust(np.ones((2, 1)), one, one)
    with pytest.raises(ValueError, match=r"sigma must be above 0 .*, got 0 and 0\.001"):
        adjust(np.ones((1, 1)), one, 0 * one)
    with pytest.raises(ValueError, match="false_alarm between 0 and 1, got 1 and 1"):
        adjust(np.ones((1, 1)), one, one, 1.0)
