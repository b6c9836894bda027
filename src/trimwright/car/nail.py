"""A point from its distances to two nails."""

from math import sqrt


def below_nails(apart_mm: float, left_mm: float, right_mm: float) -> tuple[float, float]:
    """Return how far a point lies right of the left nail, and how far below the nails' line [mm].

    Where the doubts of the two distances are alike and independent, that of the point is
    hypot(u(left), u(right)) / sin(g), with g the angle at which the distances cross in it: least
    where they cross square, without end where they run into one line.

    Parameters
    ----------
    apart_mm : float
        Distance between the nails [mm]; the line through them is level.
    left_mm, right_mm : float
        Distances of the point from the left and the right nail [mm].

    Raises
    ------
    ValueError
        If no point lies so.

    Examples
    --------
    >>> below_nails(400.0, 250.0, 250.0)
    (200.0, 150.0)
    """
    if not abs(left_mm - right_mm) < apart_mm < left_mm + right_mm:
        raise ValueError(
            "left_mm and right_mm must meet below the nails, got"
            f" {left_mm:g} and {right_mm:g} from nails {apart_mm:g} apart"
        )
    # both circles about the nails, one less the other: a straight line across
    right_of = (apart_mm + (left_mm - right_mm) * (left_mm + right_mm) / apart_mm) / 2
    return right_of, sqrt((left_mm - right_of) * (left_mm + right_of))
