"""Euler's elastica: the large deflections of a slender bar that is bent by its ends.

Timoshenko and Gere, Theory of Elastic Stability (2nd edition, 1961), table 2-4: a column held at
its foot, its free end turned by alpha; xa is how high the end stands, ya how far it has gone aside,
both as shares of its length. It is worked from tables of three and four figures: two of its figures are
out by one in the last place (.560 is 0.5594, .220 is 0.2194), so one whole digit is allowed. Two such columns, foot to foot, are a bar with both ends free to turn.
Closed forms by complete elliptic integrals, from SciPy, say the rest.
"""

from math import cos, pi, radians, sin

import pytest
from scipy.special import ellipe, ellipk

from trimwright.wiring.swing.elastica import Ends, bent, guess

LAST_DIGIT = 0.001


@pytest.mark.parametrize(
    ("alpha_deg", "xa", "ya"),
    [
        (20, ".970", ".220"),
        (40, ".881", ".422"),
        (60, ".741", ".593"),
        (80, ".560", ".719"),
        (100, ".349", ".792"),
        (120, ".123", ".803"),
    ],
)
def test_table_2_4(alpha_deg: int, xa: str, ya: str) -> None:
    modulus = sin(radians(alpha_deg) / 2) ** 2
    chord = 2 * ellipe(modulus) / ellipk(modulus) - 1
    assert chord == pytest.approx(float(xa), abs=LAST_DIGIT)
    free = Ends((float(chord), 0.0), None, None)
    shape = bent(free, guess(free, 1))
    assert 2 * float(shape.points[:, 1].max()) == pytest.approx(float(ya), abs=LAST_DIGIT)


@pytest.mark.parametrize("alpha_deg", [10, 45, 75, 110, 130])
def test_ends_free_to_turn_bend_by_the_elliptic_integral(alpha_deg: int) -> None:
    k = sin(radians(alpha_deg) / 2)
    whole = float(ellipk(k * k))
    free = Ends((float(2 * ellipe(k * k) / whole - 1), 0.0), None, None)
    # curvature in the middle: 2 k sqrt(P/EI), with sqrt(P/EI) = 2 K for a length of 1
    assert bent(free, guess(free, 1)).tightest == pytest.approx(4 * k * whole, rel=1e-5)


@pytest.mark.parametrize("alpha_deg", [20, 60, 100])
def test_ends_held_straight_bend_as_four_quarters(alpha_deg: int) -> None:
    k = sin(radians(alpha_deg) / 2)
    whole = float(ellipk(k * k))
    held = Ends((float(2 * ellipe(k * k) / whole - 1), 0.0), 0.0, 0.0)
    assert bent(held, guess(held, 1)).tightest == pytest.approx(8 * k * whole, rel=1e-4)


@pytest.mark.parametrize("turn_deg", [30, 90, 180, 250])
def test_an_arc_stays_an_arc(turn_deg: int) -> None:
    turn = radians(turn_deg)
    arc = Ends((sin(turn) / turn, (1 - cos(turn)) / turn), 0.0, turn)
    shape = bent(arc, guess(arc, 1))
    assert shape.curvature == pytest.approx(turn, rel=1e-6)


def test_a_half_circle_from_a_straight_start_is_found() -> None:
    arc = Ends((0.0, 2 / pi), 0.0, pi)
    assert bent(arc, guess(arc, 0)).energy == pytest.approx(pi**2 / 2, rel=1e-9)


def test_ends_further_apart_than_the_line_is_long_are_refused() -> None:
    with pytest.raises(ValueError, match=r"below the line's length 1, got 1$"):
        bent(Ends((1.0, 0.0), None, None), guess(Ends((0.9, 0.0), None, None), 1))
