"""Fuses: at which share of its rating a class of fuse opens, and how soon."""

from math import inf

from msgspec import Struct

from trimwright.stock.table import plain_name, row, rows


class FusePoint(Struct, frozen=True):
    """At `share` of the rating it opens no sooner than `least_s` and no later than `most_s` [s].

    `least_s` 0 means that no least time is printed; infinite, that it does not open, or that no
    latest time is printed.
    """

    share: float
    least_s: float
    most_s: float
    read_for: str
    source: str


class FuseClass(Struct, frozen=True):
    """A class of fuse: its printed points, by rising current."""

    name: str
    points: tuple[FusePoint, ...]
    confirmed: bool


def fuse_class(name: str) -> FuseClass:
    """Return a class of fuse by name: 'blade', 'mini blade', 'maxi blade', 'bolted', 'glass 5x20'.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    Examples
    --------
    >>> [(one.share, one.most_s) for one in fuse_class("glass 5x20").points]
    [(1.0, inf), (1.35, 3600.0), (2.0, 120.0)]
    """
    known = row("fuse_class", name)["name"]
    found = [one for one in rows("fuse_class") if plain_name(one["name"]) == plain_name(known)]
    points = (
        FusePoint(
            float(one["percent"]) / 100,
            _seconds(one["least_s"]),
            _seconds(one["most_s"]),
            one["read_for"],
            one["source"],
        )
        for one in found
    )
    return FuseClass(
        known,
        tuple(sorted(points, key=lambda one: one.share)),
        all(one["confirmed"] == "yes" for one in found),
    )


class Breaking(Struct, frozen=True):
    """The most that a fuse can break [A], at which voltage [V] of which supply."""

    amps: float
    at_v: float
    supply: str
    source: str

    @property
    def at_dc(self) -> bool:
        """Whether it was tested at direct current, as a car has it."""
        return self.supply == "DC"


def fuse_breaks(name: str, rating_a: float) -> Breaking | None:
    """Return the most that a fuse of a class and a rating [A] breaks; None if none prints it.

    References
    ----------
    blade-breaking-sheet, bolted-fuse-sheet, iec-miniature-fuses

    Examples
    --------
    >>> fuse_breaks("blade", 15.0).amps, fuse_breaks("glass 5x20", 2.0).amps
    (1000.0, 35.0)
    >>> fuse_breaks("glass 5x20", 5.0).amps, fuse_breaks("glass 5x20", 5.0).at_dc
    (50.0, False)
    """
    found = (one for one in rows("fuse_breaking") if plain_name(one["name"]) == plain_name(name))
    one = next(found, None)
    if one is None:
        return None
    amps = max(float(one["breaks_a"]), float(one["times_rating"]) * rating_a)
    return Breaking(amps, float(one["at_v"]), one["supply"], one["source"])


def _seconds(printed: str) -> float:
    """Return a printed time [s]; 'never' is infinite."""
    return inf if printed == "never" else float(printed)
