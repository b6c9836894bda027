"""Equal circles in the smallest circle: published tables, N = 1 to 20.

Exact forms and proofs: Graham 1968 (5 to 6), Pirl 1969 (8 to 10), Melissen 1994 (11), Fodor 1999,
2000 and 2003 (19, 12, 13), Ekanayake and LaFountain 2024 (14); 15 to 18 and 20 are the best known.
Unequal: two touch, and three that touch each other by Descartes' circle theorem. Ours may not be
smaller, nor more than 0.5 % larger. 1.2 sqrt(sum d^2), the shop's rule, is shown where it errs.
"""

import pytest

from trimwright.wiring.bundle import bundle, rule_of_thumb_mm

RATIOS = {
    1: 1.000000,
    2: 2.000000,
    3: 2.154701,
    4: 2.414214,
    5: 2.701302,
    6: 3.000000,
    7: 3.000000,
    8: 3.304765,
    9: 3.613126,
    10: 3.813026,
    11: 3.923804,
    12: 4.029602,
    13: 4.236068,
    14: 4.328429,
    15: 4.521357,
    16: 4.615426,
    17: 4.792034,
    18: 4.863703,
    19: 4.863703,
    20: 5.122321,
}
RULE_ERRS_PERCENT = {
    1: 20.00,
    2: -15.15,
    3: -3.54,
    4: -0.59,
    5: -0.67,
    6: -2.02,
    7: 5.83,
    8: 2.70,
    9: -0.36,
    10: -0.48,
    11: 1.43,
    12: 3.16,
    13: 2.14,
    14: 3.73,
    15: 2.79,
    16: 4.00,
    17: 3.25,
    18: 4.68,
    19: 7.55,
    20: 4.77,
}


@pytest.mark.parametrize(("count", "ratio"), RATIOS.items())
def test_equal_circles(count: int, ratio: float) -> None:
    found = bundle((2.0,) * count).diameter_mm / 2.0
    assert ratio - 5e-7 <= found <= ratio * 1.005


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 13, 18, 19])
def test_equal_circles_of_known_form_are_found_exactly(count: int) -> None:
    assert bundle((2.0,) * count).diameter_mm / 2.0 == pytest.approx(RATIOS[count], abs=1e-6)


@pytest.mark.parametrize(("count", "percent"), RULE_ERRS_PERCENT.items())
def test_where_the_rule_of_thumb_errs(count: int, percent: float) -> None:
    rule = rule_of_thumb_mm((2.0,) * count) / 2.0
    assert (rule / RATIOS[count] - 1) * 100 == pytest.approx(percent, abs=0.005)


@pytest.mark.parametrize("count", [2, 3, 4, 5, 6, 9, 10])
def test_the_rule_of_thumb_is_too_small_for_few_wires(count: int) -> None:
    assert rule_of_thumb_mm((2.0,) * count) < bundle((2.0,) * count).diameter_mm


def test_two_unequal_wires_touch() -> None:
    assert bundle((1.6, 2.4)).diameter_mm == pytest.approx(4.0, abs=1e-9)
    assert rule_of_thumb_mm((1.6, 2.4)) == pytest.approx(3.461329, abs=5e-7)


def test_three_unequal_wires_touch_each_other() -> None:
    assert bundle((1.6, 2.0, 2.4)).diameter_mm == pytest.approx(4.422816, abs=5e-7)
    assert rule_of_thumb_mm((1.6, 2.0, 2.4)) == pytest.approx(4.211983, abs=5e-7)


def test_wires_of_18_gauge() -> None:
    assert bundle((2.6,) * 7).diameter_mm == pytest.approx(7.8, abs=1e-6)
    assert bundle((2.6,) * 3).diameter_mm == pytest.approx(5.602221, abs=5e-7)  # 2.6 (1 + 2/sqrt 3)
