"""Places and slopes as they are shown to the builder: with their way in words, never a sign."""

from typing import Literal

from trimwright.quantities.figure import Rounding, shown_angle, shown_with_unit
from trimwright.quantities.quantity import Unit

Axis = Literal["along", "across", "upward"]

_WORDS: dict[Axis, tuple[str, str, str]] = {
    "along": ("behind datum", "ahead of datum", "at datum"),
    "across": ("right of middle", "left of middle", "on middle"),
    "upward": ("above datum", "below datum", "level with datum"),
}


def shown_place(
    value_mm: float,
    axis: Axis,
    unit: Unit,
    rounding: Rounding = "plain",
    *,
    doubt_mm: float | None = None,
) -> str:
    """Return a place with its unit and its way.

    Parameters
    ----------
    value_mm : float
        Place on its axis [mm]: behind, right and above are positive.
    axis : {'along', 'across', 'upward'}
        Which way it is counted.
    unit, rounding, doubt_mm
        As for `shown`; 'up' goes towards behind, right and above.

    Raises
    ------
    ValueError
        If the value is not finite, or `doubt_mm` is negative.

    Examples
    --------
    >>> shown_place(-60.2, "along", "mm"), shown_place(0.1, "across", "mm")
    ('60 mm ahead of datum', 'on middle')
    """
    positive, negative, nothing = _WORDS[axis]
    figure = shown_with_unit(value_mm, unit, rounding, doubt_mm=doubt_mm)
    if figure == f"0 {unit}":
        return nothing
    signless = figure.lstrip("\u2212")
    return f"{signless} {positive if signless == figure else negative}"


def shown_slope(value_deg: float) -> str:
    """Return a slope along the car with its way, nose up positive, to 0.1 deg.

    Examples
    --------
    >>> shown_slope(-2.04), shown_slope(0.04)
    ('2 deg nose down', 'level')
    """
    figure = shown_angle(value_deg)
    if figure == "0 deg":
        return "level"
    signless = figure.lstrip("\u2212")
    return f"{signless} nose {'up' if signless == figure else 'down'}"
