"""Figures on paper, in the build's unit."""

from trimwright.findings import Finding
from trimwright.quantities import Unit, shown_mass, shown_sure, shown_with_unit


def amount(one: Finding, value: float, unit: Unit) -> str:
    """Return one figure of a finding in its measure."""
    if one.measure == "share":
        return shown_sure(min(max(value, 0.0), 1.0))
    if one.measure == "kg":
        return shown_mass(value, unit)
    if one.measure == "mm":
        return shown_with_unit(value, unit)
    return f"{value:.1f}" + (" deg" if one.measure == "deg" else "")


def place_along(x_mm: float, unit: Unit) -> str:
    """Return a place along the car in words.

    Examples
    --------
    >>> place_along(-60.0, "mm"), place_along(0.0, "mm")
    ('60 mm ahead', 'at datum')
    """
    if abs(x_mm) < 0.05:  # noqa: PLR2004  below any figure shown
        return "at datum"
    return f"{shown_with_unit(abs(x_mm), unit)} {'ahead' if x_mm < 0 else 'behind'}"
