"""One thing the tool has to say."""

from collections.abc import Container
from math import isfinite
from typing import Literal, get_args

from msgspec import Struct

from trimwright.findings.remedy import Remedy

Grade = Literal["stop", "change", "look", "good"]
Measure = Literal["mm", "share", "deg", "kg", "count", "V", "A", "mm2", "days", "minutes"]
Point = tuple[float, float, float]

GRADES: tuple[Grade, ...] = ("stop", "change", "look", "good")
Lock = Literal["carpet", "wood is cut", "glue-up", "covering", "refit"]
LOCKS: tuple[Lock, ...] = get_args(Lock)
"""What makes things hard to change, in the order of the work."""


class Finding(Struct, frozen=True):
    """Where, how bad, how much, how sure, what to do, before which lock, by which source.

    Parameters
    ----------
    rule, place : str
        The rule that was applied and the place in the build, both in words.
    grade : {'stop', 'change', 'look', 'good'}
        Unsafe or will not go in; works badly; for the builder to decide, or not evaluated; passed.
    says : str
        One plain sentence in the builder's units.
    lock : str
        One of `LOCKS`: after it this is hard to change.
    zone : str
        Where on the drawing: 'B4'.
    figure, limit, margin : float, optional
        What was computed, what it is held against, how much is to spare (negative: short),
        in the unit that `measure` says.
    measure : {'mm', 'share', 'deg', 'kg', 'count', 'V', 'A', 'mm2', 'days',
        'minutes'}
        Unit of figure, limit, margin, low, high and worst.
    sure : float, optional
        Probability, 0 to 1, that the limit is kept.
    low, high, worst : float, optional
        The 5 % and 95 % figures, and the figure when every doubt adds up.
    remedies : tuple of Remedy
        What can be done, the best first.
    source : str
        Where the limit comes from.
    missing : tuple of str
        What was not known, in the order in which it is worth measuring; the rule was not evaluated.
    at, on : tuple of 3 float, optional
        The two points the figure lies between, one on each body [mm, car axes].
    why : tuple of str
        Physics, formula, assumptions and range of validity, a line each.

    Raises
    ------
    ValueError
        If the parts contradict each other: a figure with a limit that is merely 'look', something
        missing with another grade or a figure, an empty rule, place or sentence, an unknown lock.

    Examples
    --------
    >>> Finding("nose to dash", "nose left", "stop", "The nose hits the dash.", "covering",
    ...     figure=-2.0, limit=6.0, margin=-8.0, sure=0.02).margin
    -8.0
    """

    rule: str
    place: str
    grade: Grade
    says: str
    lock: str
    zone: str = ""
    figure: float | None = None
    limit: float | None = None
    margin: float | None = None
    measure: Measure = "mm"
    sure: float | None = None
    low: float | None = None
    high: float | None = None
    worst: float | None = None
    remedies: tuple[Remedy, ...] = ()
    source: str = ""
    missing: tuple[str, ...] = ()
    at: Point | None = None
    on: Point | None = None
    why: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a finding whose parts contradict each other."""
        self._refuse_silence()
        self._refuse_bad_figures()
        if self.missing and (self.grade != "look" or self.figure is not None):
            raise ValueError(
                f"a finding with missing parts must be 'look' without a figure, got {self.grade!r}"
                f", {self.figure}"
            )
        if self.grade == "look" and self.figure is not None and self.limit is not None:
            raise ValueError(
                f"a figure with a limit must not be 'look', got {self.figure:g}, {self.limit:g}"
            )

    def _refuse_silence(self) -> None:
        """Every finding names its rule and place, says something, and has a grade and a lock."""
        for name in ("rule", "place", "says"):
            if not getattr(self, name).strip():
                raise ValueError(f"{name} must not be empty, got {getattr(self, name)!r}")
        if self.grade not in GRADES:
            raise ValueError(f"grade must be one of {', '.join(GRADES)}, got {self.grade!r}")
        if self.lock not in LOCKS:
            raise ValueError(f"lock must be one of {', '.join(LOCKS)}, got {self.lock!r}")

    def _refuse_bad_figures(self) -> None:
        """Figures are finite, a probability is one, and low lies below high."""
        for name in ("figure", "limit", "margin", "low", "high", "worst"):
            value = getattr(self, name)
            if value is not None and not isfinite(value):
                raise ValueError(f"{name} must be finite, got {value:g}")
        if self.sure is not None and not 0 <= self.sure <= 1:
            raise ValueError(f"sure must be from 0 to 1, got {self.sure:g}")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise ValueError(f"low must not be above high, got {self.low:g}, {self.high:g}")


def lock_heading(lock: str, locked: Container[str]) -> str:
    """Return what stands above the findings of a lock: what it is before, or what it is behind.

    Examples
    --------
    >>> lock_heading("covering", ()), lock_heading("covering", {"covering"})
    ('Before covering', 'Locked by covering')
    """
    return f"{'Locked by' if lock in locked else 'Before'} {lock}"
