"""A hinge in the plane square to its axis: where two holes stand to each other as it swings."""

from math import acos, cos, degrees, hypot, pi, radians, sin

from msgspec import Struct

Point = tuple[float, float]
_NOISE = 1e-9  # of the last digits of a triangle that is just closed


class Swing(Struct, frozen=True):
    """Two holes on either side of a hinge axis, which is the origin.

    The hole in the body lies on the x axis, the one in the door so that it stands above the x axis,
    or on it, when closed.

    Parameters
    ----------
    body_mm, door_mm : float
        From the axis to the hole in the body, and to the one in the door [mm], each above 0.
    closed_mm : float
        Straight from hole to hole when closed [mm].
    opens_deg : float
        How far it opens [deg], above 0 up to 270.
    parting : bool
        Whether the holes part at first as it opens, rather than near each other.
    along_mm : float, default 0
        How far the holes are from each other along the axis [mm]; part of `closed_mm`.
    """

    body_mm: float
    door_mm: float
    closed_mm: float
    opens_deg: float
    parting: bool
    along_mm: float = 0.0

    @property
    def shut_rad(self) -> float:
        """The angle at the axis between the holes when closed [rad], from 0 to pi.

        Raises
        ------
        ValueError
            If no triangle has such sides.

        Examples
        --------
        >>> round(degrees(Swing(30.0, 40.0, 50.0, 70.0, True).shut_rad), 6)
        90.0
        """
        square = self.closed_mm**2 - self.along_mm**2
        # law of cosines: c2 = a2 + b2 - 2 a b cos(angle)
        share = (self.body_mm**2 + self.door_mm**2 - square) / (2 * self.body_mm * self.door_mm)
        if not abs(share) <= 1 + _NOISE:
            raise ValueError(f"closed_mm must close a triangle, got {self.closed_mm:g}")
        return acos(min(max(share, -1.0), 1.0))

    def turned_rad(self, open_deg: float) -> float:
        """Return the direction from the axis to the door's hole [rad], opened so far [deg]."""
        return self.shut_rad + (1 if self.parting else -1) * radians(open_deg)

    def holes(self, open_deg: float) -> tuple[Point, Point]:
        """Return where the holes are [mm], opened so far [deg]: the body's, the door's."""
        turned = self.turned_rad(open_deg)
        return (self.body_mm, 0.0), (self.door_mm * cos(turned), self.door_mm * sin(turned))

    def flat_mm(self, open_deg: float) -> float:
        """Return how far apart the holes are as one looks along the axis [mm]."""
        (x0, y0), (x1, y1) = self.holes(open_deg)
        return hypot(x1 - x0, y1 - y0)

    def straight_mm(self, open_deg: float) -> float:
        """Return how far apart the holes are, straight [mm]."""
        return hypot(self.flat_mm(open_deg), self.along_mm)

    @property
    def turning_deg(self) -> tuple[float, ...]:
        """Openings at which the distance may be longest or shortest [deg]: its ends, and between.

        Between them it is where both holes are in line with the axis, on opposite sides of it or
        on one.

        Examples
        --------
        >>> [round(one, 6) for one in Swing(50.0, 50.0, 50.0, 150.0, True).turning_deg]
        [0.0, 120.0, 150.0]
        """
        first, sign = self.shut_rad, 1 if self.parting else -1
        inner = (sign * (degrees(half * pi - first)) for half in range(-2, 4))
        between = sorted(one for one in inner if 0.0 < one < self.opens_deg)
        return (0.0, *between, self.opens_deg)

    @property
    def longest_deg(self) -> float:
        """The opening at which the holes are furthest apart [deg]; of equal ones the least."""
        return max(self.turning_deg, key=lambda one: (round(self.straight_mm(one), 9), -one))

    @property
    def closest_deg(self) -> float:
        """The opening at which the holes are closest [deg]; of equal ones the least."""
        return min(self.turning_deg, key=lambda one: (round(self.straight_mm(one), 9), one))
