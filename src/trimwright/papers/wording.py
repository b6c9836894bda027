"""Figures on paper, in the build's unit."""

from trimwright.quantities import Unit, shown_with_unit


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
