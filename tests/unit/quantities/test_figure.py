"""Figures as they are shown."""

from typing import Literal

import pytest

from trimwright.quantities import (
    Unit,
    shown,
    shown_angle,
    shown_mass,
    shown_step,
    shown_sure,
    shown_with_unit,
)


@pytest.mark.parametrize(
    ("mm", "unit", "written"),
    [
        (12.5, "mm", "12.5"),
        (12.0, "mm", "12"),
        (12.74, "mm", "12.5"),
        (12.76, "mm", "13"),
        (-2.0, "mm", "\u22122"),
        (-0.1, "mm", "0"),
        (19.05, "in", "3/4"),
        (249.2, "in", "9\u200913/16"),
        (25.4, "in", "1"),
        (0.0, "in", "0"),
        (-38.1, "in", "\u22121\u20091/2"),
    ],
)
def test_a_length_is_shown_as_a_rule_carries_it(mm: float, unit: Unit, written: str) -> None:
    assert shown(mm, unit) == written


@pytest.mark.parametrize(("rounding", "written"), [("plain", "6.5"), ("up", "7"), ("down", "6.5")])
def test_rounding_goes_the_way_that_is_asked(
    rounding: Literal["plain", "up", "down"], written: str
) -> None:
    assert shown(6.6, "mm", rounding) == written


def test_rounding_down_goes_towards_minus() -> None:
    assert (shown(-6.6, "mm", "down"), shown(-6.6, "mm", "up")) == ("\u22127", "\u22126.5")


def test_noise_does_not_move_a_figure_that_stands_on_a_step() -> None:
    assert 0.1 + 0.2 > 0.3
    assert shown(0.1 + 0.2, "mm", "up", step="fine") == "0.3"
    assert shown(3 * 25.4 / 16 - 1e-12, "in", "down") == "3/16"


@pytest.mark.parametrize(
    ("doubt_mm", "mm_step", "in_step"),
    [
        (0.0, 0.5, 1 / 16),
        (1.0, 0.5, 1 / 16),
        (2.0, 1.0, 1 / 16),
        (3.2, 2.0, 1 / 8),
        (9.0, 5.0, 1 / 4),
        (30.0, 20.0, 1.0),
    ],
)
def test_the_step_grows_with_the_doubt(doubt_mm: float, mm_step: float, in_step: float) -> None:
    assert shown_step("mm", doubt_mm=doubt_mm) == mm_step
    assert shown_step("in", doubt_mm=doubt_mm) == pytest.approx(in_step * 25.4)


def test_a_fine_step_is_finer() -> None:
    assert (shown(12.34, "mm", step="fine"), shown(0.8, "in", step="fine")) == ("12.3", "1/32")
    assert shown(12.34, "mm", step="fine", doubt_mm=4.0) == "12"


def test_the_unit_stands_after_a_space() -> None:
    assert shown_with_unit(248.37, "in", doubt_mm=2.0) == "9\u20093/4 in"
    assert shown_with_unit(248.37, "mm") == "248.5 mm"


@pytest.mark.parametrize(
    ("p", "written"),
    [
        (0.9687, "96 %"),
        (0.9499, "94 %"),
        (0.95, "95 %"),
        (0.29, "29 %"),
        (0.99, "99 %"),
        (0.9901, "over 99 %"),
        (1.0, "over 99 %"),
        (0.01, "1 %"),
        (0.0099, "under 1 %"),
        (0.0, "under 1 %"),
    ],
)
def test_certainty_is_never_shown_greater_than_it_is(p: float, written: str) -> None:
    assert shown_sure(p) == written


def test_mass_and_angle_are_shown_to_a_tenth() -> None:
    assert (shown_mass(4.26, "mm"), shown_mass(4.26, "in")) == ("4.3 kg", "9.4 lb")
    assert (shown_angle(-2.04), shown_angle(1.96), shown_angle(0.26)) == (
        "\u22122 deg",
        "2 deg",
        "0.3 deg",
    )


@pytest.mark.parametrize("p", [-0.1, 1.1, float("nan")])
def test_no_probability_no_certainty(p: float) -> None:
    with pytest.raises(ValueError, match="p must be from 0 to 1"):
        shown_sure(p)


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_is_no_figure_is_not_shown(value: float) -> None:
    with pytest.raises(ValueError, match="value must be finite"):
        shown(value, "mm")


def test_a_negative_doubt_is_refused() -> None:
    with pytest.raises(ValueError, match="doubt_mm must be 0 or more, got -1"):
        shown(1.0, "mm", doubt_mm=-1.0)
