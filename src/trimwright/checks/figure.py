"""A finding's figures in words: the same on screen and on paper."""

from collections.abc import Callable

from trimwright.findings import Finding
from trimwright.quantities import (
    Unit,
    shown_current,
    shown_mass,
    shown_sure,
    shown_voltage,
    shown_with_unit,
)

SHOWN: dict[str, Callable[[float], str]] = {
    "share": lambda value: shown_sure(min(max(value, 0.0), 1.0)),
    "V": shown_voltage,
    "A": shown_current,
    "mm2": lambda value: f"{value:g} mm²",
    "days": lambda value: f"{value:.0f} days",
    "minutes": lambda value: f"{value:.0f} minutes",
    "deg": lambda value: f"{value:.1f} deg",
    "count": lambda value: f"{value:.1f}".removesuffix(".0"),
}


def amount(one: Finding, value: float, unit: Unit) -> str:
    """Return one figure of a finding in its measure.

    Examples
    --------
    >>> tips = Finding("rests", "tipping", "good", "It does not tip.", "glue-up", measure="share")
    >>> amount(tips, 0.05, "mm")
    '5 %'
    """
    if one.measure == "kg":
        return shown_mass(value, unit)
    if one.measure == "mm":
        return shown_with_unit(value, unit)
    return SHOWN[one.measure](value)
