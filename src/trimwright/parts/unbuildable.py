"""What stops a design from being made."""

from msgspec import Struct


class Unbuildable(Struct, frozen=True):
    """One reason why a design cannot be made: the key in the file, and what is wrong in words."""

    key: str
    says: str


def place(x_mm: float) -> str:
    """Return a place along the car in words.

    Parameters
    ----------
    x_mm : float
        Place, rearward from the datum [mm].

    Returns
    -------
    str
        The place without a sign.

    Examples
    --------
    >>> place(-70.0), place(250.25)
    ('70 mm ahead', '250.2 mm behind')
    """
    if abs(x_mm) < 0.05:  # noqa: PLR2004  half the last digit shown
        return "the datum"
    return f"{shown(abs(x_mm))} mm {'ahead' if x_mm < 0 else 'behind'}"


def shown(value_mm: float) -> str:
    """Return a length with one decimal at most.

    Parameters
    ----------
    value_mm : float
        Length [mm].

    Returns
    -------
    str
        The figure, without a trailing zero.

    Examples
    --------
    >>> shown(12.0), shown(6.25)
    ('12', '6.2')
    """
    return f"{value_mm:.1f}".removesuffix(".0")
