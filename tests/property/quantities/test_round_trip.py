"""What is shown can be read back, and every spelling of a length is the same length."""

from collections.abc import Callable
from fractions import Fraction
from typing import Literal

from hypothesis import given
from hypothesis import strategies as st

from trimwright.quantities import (
    Axis,
    Quantity,
    Unit,
    across,
    along,
    length,
    shown,
    shown_place,
    shown_slope,
    shown_step,
    shown_sure,
    slope,
    upward,
)

UNITS = st.sampled_from(["mm", "in"])
STEPS = st.sampled_from(["shop", "fine"])
LENGTHS = st.floats(0.0, 19_000.0)
DOUBTS = st.none() | st.floats(0.0, 100.0)
PARSERS: dict[Axis, Callable[[str, Unit], Quantity]] = {
    "along": along,
    "across": across,
    "upward": upward,
}
NOISE_MM = 1e-6  # a step may be missed by a ten-millionth of itself


@given(LENGTHS, UNITS, STEPS, DOUBTS)
def test_plain_figures_are_within_half_a_step(
    mm: float, unit: Unit, step: Literal["shop", "fine"], doubt: float | None
) -> None:
    back = length(shown(mm, unit, doubt_mm=doubt, step=step), unit).value
    assert abs(back - mm) <= shown_step(unit, doubt_mm=doubt, step=step) / 2 + NOISE_MM


@given(LENGTHS, UNITS, STEPS, DOUBTS)
def test_up_and_down_stay_on_their_side_within_a_step(
    mm: float, unit: Unit, step: Literal["shop", "fine"], doubt: float | None
) -> None:
    size = shown_step(unit, doubt_mm=doubt, step=step)
    up = length(shown(mm, unit, "up", doubt_mm=doubt, step=step), unit).value
    down = length(shown(mm, unit, "down", doubt_mm=doubt, step=step), unit).value
    assert -NOISE_MM <= up - mm <= size
    assert -NOISE_MM <= mm - down <= size


@given(st.integers(0, 12_000), UNITS, STEPS, st.sampled_from(["plain", "up", "down"]))
def test_a_figure_on_a_step_is_shown_as_it_is(
    steps: int, unit: Unit, step: Literal["shop", "fine"], rounding: Literal["plain", "up", "down"]
) -> None:
    mm = steps * shown_step(unit, step=step)
    assert shown(mm, unit, rounding, step=step) == shown(mm, unit, step=step)
    assert abs(length(shown(mm, unit, rounding, step=step), unit).value - mm) < NOISE_MM


@given(LENGTHS, UNITS, DOUBTS)
def test_a_shorter_figure_is_the_same_one_turned_round(
    mm: float, unit: Unit, doubt: float | None
) -> None:
    above, below = shown(mm, unit, "up", doubt_mm=doubt), shown(-mm, unit, "down", doubt_mm=doubt)
    assert below == (above if above == "0" else f"\u2212{above}")


@given(UNITS, STEPS, st.floats(0.0, 100.0), st.floats(0.0, 100.0))
def test_nothing_is_shown_finer_than_it_is_known(
    unit: Unit, step: Literal["shop", "fine"], one: float, other: float
) -> None:
    less, more = sorted((one, other))
    steps = [shown_step(unit, doubt_mm=doubt, step=step) for doubt in (less, more)]
    assert steps == sorted(steps)
    assert all(size >= doubt / 2 for size, doubt in zip(steps, (less, more), strict=True))


@given(st.floats(0.0, 1.0))
def test_certainty_shown_is_a_floor(p: float) -> None:
    said = shown_sure(p)
    least = {"over 99 %": 0.99, "under 1 %": 0.0}.get(said)
    stated = float(said.split()[0]) / 100 if least is None else least
    assert stated <= p + 1e-8
    assert said != "100 %"


@given(st.integers(0, 40), st.integers(0, 31), st.sampled_from([2, 4, 8, 16, 32]))
def test_every_spelling_of_an_inch_figure_is_one_length(whole: int, top: int, bottom: int) -> None:
    over = f"{top % bottom}/{bottom}"
    exact = whole + Fraction(top % bottom, bottom)
    feet, inches = divmod(whole, 12)
    spelled = [
        f"{whole} {over} in",
        f'{whole}-{over}"',
        f"{whole} {over.replace('/', chr(0x2044))}\u201d",
        f"{whole}\u00a0{over}\u2009inches",
        f"{float(exact):.5f} in",
        f"{float(exact):.5f} in".replace(".", ","),
        f"{feet}' {inches} {over}\"",
        f"{feet}\u2032 {inches}-{over}\u2033",
        f"{feet} ft {inches} {over} in",
        f"{float(exact * Fraction(254, 10)):.8f} mm",
    ]
    assert {length(one, "mm").value for one in spelled} == {float(exact * Fraction(254, 10))}


@given(st.integers(1, 9_999), st.sampled_from(["", " ± 2", " at most 2 off"]))
def test_opposite_words_are_opposite_places(mm: int, doubt: str) -> None:
    for parser, one, other in (
        (along, "behind", "ahead"),
        (across, "right", "left"),
        (upward, "above", "below"),
    ):
        here, there = parser(f"{mm}{doubt} {one}", "mm"), parser(f"{mm} {other}{doubt}", "mm")
        assert (here.value, here.doubt) == (mm, there.doubt)
        assert there.value == -mm


@given(st.floats(-9_000.0, 9_000.0), UNITS, DOUBTS)
def test_a_place_as_shown_is_read_as_that_place(mm: float, unit: Unit, doubt: float | None) -> None:
    half_step = shown_step(unit, doubt_mm=doubt) / 2 + NOISE_MM
    for axis, parser in PARSERS.items():
        said = shown_place(mm, axis, unit, doubt_mm=doubt)
        assert abs(parser(said, unit).value - mm) <= half_step
        assert not {"-", "\u2212"} & set(said)


@given(st.floats(-89.0, 89.0))
def test_a_slope_as_shown_is_read_as_that_slope(deg: float) -> None:
    assert abs(slope(shown_slope(deg)).value - deg) <= 0.05 + 1e-8


@given(st.text(max_size=12) | st.text("0123456789 /.,'\"±+-inm½”²", max_size=12), UNITS)
def test_any_text_is_read_or_refused_in_words(text: str, unit: Unit) -> None:
    try:
        value = length(text, unit).value
    except ValueError as refused:
        assert "expected" in str(refused)  # noqa: PT017  both outcomes are right
    else:
        assert 0 <= value <= 20_000
