"""Figures as they are shown to the builder: in his unit, no finer than they are known."""

from fractions import Fraction
from math import ceil, floor
from typing import Literal

from trimwright.quantities.amount import INCH_MM, POUND_KG
from trimwright.quantities.quantity import Unit

Rounding = Literal["plain", "up", "down"]
Step = Literal["fine", "shop"]

THIN_SPACE, MINUS = "\u2009", "\u2212"
MINUTES_SHOWN = 60  # an hour and more is shown in hours
# Steps in the unit shown, finest first: what a steel rule or a tape carries.
_STEPS: dict[Unit, tuple[Fraction, ...]] = {
    "mm": tuple(Fraction(one) for one in ("0.1", "0.5", "1", "2", "5", "10", "20", "50", "100")),
    "in": tuple(
        Fraction(one) for one in ("1/32", "1/16", "1/8", "1/4", "1/2", "1", "2", "3", "6", "12")
    ),
}
_UNIT_MM: dict[Unit, Fraction] = {"mm": Fraction(1), "in": INCH_MM}
_NOISE = Fraction(1, 10**7)  # of a step: what floating point may be off without moving a figure


def shown_step(unit: Unit, *, doubt_mm: float | None = None, step: Step = "shop") -> float:
    """Return the step [mm] to which a length is shown.

    It is 0.5 mm or 1/16 in (`fine`: 0.1 mm, 1/32 in), and grows (1, 2, 5, 10 mm; 1/8, 1/4, 1/2,
    1 in) until it is at least half the doubt, which is the sigma of a normal doubt: a figure
    known to 4 mm either way is shown to 2 mm.

    Parameters
    ----------
    unit : {'mm', 'in'}
        Unit shown.
    doubt_mm : float, optional
        19-to-1 half width [mm], the wider one if they differ.
    step : {'shop', 'fine'}
        How finely to show what is well known.

    Raises
    ------
    ValueError
        If `doubt_mm` is negative or not a number.

    Examples
    --------
    >>> shown_step("mm", doubt_mm=4.0)
    2.0
    """
    return float(_step(unit, doubt_mm, step) * _UNIT_MM[unit])


def _step(unit: Unit, doubt_mm: float | None, step: Step) -> Fraction:
    """Return the step in the unit shown."""
    ladder = _STEPS[unit][0 if step == "fine" else 1 :]
    if doubt_mm is None:
        return ladder[0]
    if not doubt_mm >= 0:
        raise ValueError(f"doubt_mm must be 0 or more, got {doubt_mm:g}")
    sigma = doubt_mm / 2
    enough = (one for one in ladder if float(one * _UNIT_MM[unit]) >= sigma)
    return next(enough, ladder[-1])


def shown(
    value_mm: float,
    unit: Unit,
    rounding: Rounding = "plain",
    *,
    doubt_mm: float | None = None,
    step: Step = "shop",
) -> str:
    """Return a length as it is shown, without its unit.

    Parameters
    ----------
    value_mm : float
        Length [mm].
    unit : {'mm', 'in'}
        Unit shown.
    rounding : {'plain', 'up', 'down'}
        To the nearest step, or to the next one up or down (towards plus or minus); a value on a
        step stays there.
    doubt_mm, step
        As for `shown_step`.

    Raises
    ------
    ValueError
        If `doubt_mm` is negative, or the value is not finite.

    Examples
    --------
    >>> shown(248.37, "mm"), shown(248.37, "mm", doubt_mm=6.0), shown(2.31, "mm", "down")
    ('248.5', '250', '2')
    >>> shown(249.2, "in").replace(THIN_SPACE, "_")
    '9_13/16'
    """
    size = _step(unit, doubt_mm, step)
    steps = _whole_steps(value_mm, size * _UNIT_MM[unit], rounding)
    sign = MINUS if steps < 0 else ""
    return sign + (_decimal if unit == "mm" else _ruled)(abs(steps) * size)


def shown_with_unit(
    value_mm: float,
    unit: Unit,
    rounding: Rounding = "plain",
    *,
    doubt_mm: float | None = None,
    step: Step = "shop",
) -> str:
    """Return a length as `shown`, with its unit.

    Examples
    --------
    >>> shown_with_unit(12.5, "mm")
    '12.5 mm'
    """
    return f"{shown(value_mm, unit, rounding, doubt_mm=doubt_mm, step=step)} {unit}"


def _whole_steps(value: float, size: Fraction, rounding: Rounding) -> int:
    """Return the number of steps; halves go away from zero, noise counts as nothing."""
    if not abs(value) < float("inf"):
        raise ValueError(f"value must be finite, got {value:g}")
    exact = Fraction(value) / size
    nearest = floor(abs(exact) + Fraction(1, 2) + _NOISE) * (-1 if exact < 0 else 1)
    if rounding == "plain" or abs(exact - nearest) <= _NOISE:
        return nearest
    return ceil(exact) if rounding == "up" else floor(exact)


def _decimal(size: Fraction) -> str:
    """Return a positive figure in tenths, without a needless '.0'."""
    return f"{float(size):.1f}".removesuffix(".0")


def _ruled(size: Fraction) -> str:
    """Return a positive figure as whole and fraction."""
    whole, rest = divmod(size, 1)
    if not rest:
        return str(whole)
    return f"{whole}{THIN_SPACE}{rest}" if whole else str(rest)


def shown_sure(p: float) -> str:
    """Return a probability as it is shown: whole per cent rounded down, never none, never all.

    Rounded down, so that what is shown is never more than what was computed; the ends say
    'under 1 %' and 'over 99 %'.

    Raises
    ------
    ValueError
        If it is not from 0 to 1.

    Examples
    --------
    >>> shown_sure(0.9687), shown_sure(1.0), shown_sure(0.002)
    ('96 %', 'over 99 %', 'under 1 %')
    """
    if not 0 <= p <= 1:
        raise ValueError(f"p must be from 0 to 1, got {p:g}")
    percent = 100 * Fraction(p)
    if percent > 99 + _NOISE:
        return "over 99 %"
    return "under 1 %" if percent < 1 - _NOISE else f"{floor(percent + _NOISE)} %"


def shown_chance(p: float) -> str:
    """Return how likely something is, in words: so many in 10, the unlikely so many in 100.

    Raises
    ------
    ValueError
        If it is not from 0 to 1.

    Examples
    --------
    >>> shown_chance(0.71), shown_chance(0.031), shown_chance(0.999), shown_chance(0.0001)
    ('7 in 10', '3 in 100', 'over 9 in 10', 'under 1 in 100')
    """
    if not 0 <= p <= 1:
        raise ValueError(f"p must be from 0 to 1, got {p:g}")
    if p > 0.95:  # noqa: PLR2004  where it would round to 10 in 10
        return "over 9 in 10"
    if p >= 0.095:  # noqa: PLR2004  what is less is told in hundredths
        return f"{max(1, round(10 * p))} in 10"
    return f"{round(100 * p)} in 100" if p >= 0.005 else "under 1 in 100"  # noqa: PLR2004  rounds to 1


def shown_mass(value_kg: float, unit: Unit) -> str:
    """Return a mass with its unit: to 0.1 kg where lengths are in mm, to 0.1 lb where in inches.

    Examples
    --------
    >>> shown_mass(4.26, "mm"), shown_mass(4.26, "in")
    ('4.3 kg', '9.4 lb')
    """
    per, name = (Fraction(1), "kg") if unit == "mm" else (POUND_KG, "lb")
    return f"{_tenths(value_kg, per)} {name}"


def shown_angle(value_deg: float) -> str:
    """Return an angle with its unit, to 0.1 deg.

    Examples
    --------
    >>> shown_angle(2.04)
    '2 deg'
    """
    return f"{_tenths(value_deg, Fraction(1))} deg"


def shown_hours(value_h: float) -> str:
    """Return a time with its unit: below an hour in whole minutes, else to a tenth of an hour.

    Raises
    ------
    ValueError
        If it is negative.

    Examples
    --------
    >>> shown_hours(0.0), shown_hours(0.008), shown_hours(0.125), shown_hours(2.46)
    ('0 min', 'under 1 min', '8 min', '2.5 h')
    """
    if value_h < 0:
        raise ValueError(f"value_h must be 0 or more, got {value_h:g}")
    minutes = round(60 * value_h)
    if minutes >= MINUTES_SHOWN:
        return f"{_tenths(value_h, Fraction(1))} h"
    return "under 1 min" if value_h > 0 and minutes == 0 else f"{minutes} min"


def _tenths(value: float, per: Fraction) -> str:
    """Return a signed figure to a tenth of the unit shown."""
    steps = _whole_steps(value, per / 10, "plain")
    return (MINUS if steps < 0 else "") + _decimal(Fraction(abs(steps), 10))
