"""A finding's figures in words: the same on screen and on paper."""

from trimwright.findings import Finding
from trimwright.quantities import Unit, shown_mass, shown_sure, shown_with_unit


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
    if one.measure == "mm":
        return shown_with_unit(value, unit)
    return f"{value:.1f}" + (" deg" if one.measure == "deg" else "")
