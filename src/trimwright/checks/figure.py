"""A finding's figures in words: the same on screen and on paper."""

from trimwright.findings import Finding
from trimwright.quantities import (
    Unit,
    shown_current,
    shown_mass,
    shown_sure,
    shown_voltage,
    shown_with_unit,
)

ELECTRIC = {"V": shown_voltage, "A": shown_current}


def amount(one: Finding, value: float, unit: Unit) -> str:
    """Return one figure of a finding in its measure.

    Examples
    --------
    >>> tips = Finding("rests", "tipping", "good", "It does not tip.", "glue-up", measure="share")
    >>> amount(tips, 0.05, "mm")
    '5 %'
    """
    if one.measure == "share":
        return shown_sure(min(max(value, 0.0), 1.0))
    if one.measure == "kg":
        return shown_mass(value, unit)
    if one.measure in ELECTRIC:
        return ELECTRIC[one.measure](value)
    if one.measure == "mm2":
        return f"{value:g} mm²"
    if one.measure == "mm":
        return shown_with_unit(value, unit)
    return f"{value:.1f}" + (f" {one.measure}" if one.measure in ("deg", "days") else "")
