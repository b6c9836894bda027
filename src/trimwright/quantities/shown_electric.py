"""Electrical figures in words, no finer than they are known."""

from math import inf

SHORTEST_S = 0.001  # that is told: what is shorter is as short
from trimwright.quantities.figure import MINUS

MILLI = 0.1  # below this many amperes or volts thousandths are told


def shown_current(current_a: float) -> str:
    """Return a current with its unit.

    Examples
    --------
    >>> shown_current(35.0), shown_current(7.204), shown_current(0.0152)
    ('35 A', '7.2 A', '15 mA')
    """
    return _shown(current_a, "A")


def shown_voltage(voltage_v: float) -> str:
    """Return a voltage with its unit.

    Examples
    --------
    >>> shown_voltage(12.243), shown_voltage(0.0451), shown_voltage(-0.0001)
    ('12.2 V', '45 mV', '0 V')
    """
    return _shown(voltage_v, "V")


def shown_seconds(seconds: float) -> str:
    """Return a time with its unit, to two digits; what may never end as such.

    Examples
    --------
    >>> shown_seconds(0.0228), shown_seconds(4.97), shown_seconds(333.0), shown_seconds(float("inf"))
    ('0.023 s', '5 s', '330 s', 'never')
    """
    if seconds == inf:
        return "never"
    if seconds < SHORTEST_S:
        return f"{SHORTEST_S:g} s"
    return f"{float(f'{seconds:.2g}'):g} s"


def _shown(value: float, unit: str) -> str:
    """Return a figure to a tenth, small ones to a thousandth, large ones whole."""
    size = abs(value)
    sign = MINUS if value < 0 else ""
    if size < MILLI:
        thousandths = f"{1000 * size:.0f}"
        return f"0 {unit}" if thousandths == "0" else f"{sign}{thousandths} m{unit}"
    if size < 1:
        return f"{sign}{size:.2f} {unit}"
    return sign + (f"{size:.1f}".removesuffix(".0") if size < 100 else f"{size:.0f}") + f" {unit}"  # noqa: PLR2004  a hundred
