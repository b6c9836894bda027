"""Directions for the trunks of a board: square and compact, else half square, else a fan."""

from math import cos, dist, pi, radians, sin

from msgspec import Struct

Point = tuple[float, float]

CLEAR_MM = 80.0  # between bands that do not meet, so that hands and flags have room
MOST_TRIES = 4000  # directions tried before branches are fanned out instead
SQUARE, HALF_SQUARE = (0, 90, 180, 270), tuple(range(0, 360, 45))  # deg, clockwise from rightwards
WIDEST_FAN = 0.9 * pi  # of one branch: a wedge below half a turn holds all that lies behind it


class Twig(Struct, frozen=True):
    """A trunk before it has its direction: from which spot to which, by number, and its length."""

    trunk: int
    start: int
    end: int
    long_mm: float


def outward(count: int, twigs: list[Twig]) -> list[Twig]:
    """Return trunks from the spot with the most outwards, each away from it, the longest first.

    A trunk that was cut keeps its free end as its far end, as it has nothing beyond.
    """
    meets = [sum(spot in (one.start, one.end) for one in twigs) for spot in range(count)]
    root = max(range(count), key=lambda spot: (meets[spot], -spot))
    order: list[Twig] = []
    waiting, left = [root], list(twigs)
    while waiting:
        here = waiting.pop(0)
        mine = [one for one in left if here in (one.start, one.end)]
        for one in sorted(mine, key=lambda one: (-one.long_mm, one.trunk)):
            left.remove(one)
            there = one.end if one.start == here else one.start
            order.append(Twig(one.trunk, here, there, one.long_mm))
            waiting.append(there)
    return order


def spots_of(count: int, order: list[Twig]) -> list[Point]:
    """Return where spots lie on a board [mm], every trunk at its length, none on another.

    Parameters
    ----------
    count : int
        How many spots there are.
    order : list of Twig
        From `outward`.
    """
    for ways in (SQUARE, HALF_SQUARE):
        search = _Search(order, ways, [None] * count)
        if found := search.spots():
            return found
    return fanned(count, order)


class _Search(Struct):
    """Trunks laid one after the other along a few directions, going back where one finds no room."""

    order: list[Twig]
    ways: tuple[int, ...]
    placed: list[Point | None]
    tries: int = 0

    def spots(self) -> list[Point]:
        """Return where spots lie; nothing if no room was found."""
        root = self.order[0].start if self.order else 0
        self.placed[root] = (0.0, 0.0)
        return self._known() if self._laid(0) else []

    def _known(self) -> list[Point]:
        return [at for at in self.placed if at is not None]

    def _laid(self, number: int) -> bool:
        """Return whether all trunks from a number on could be laid."""
        if number == len(self.order):
            return True
        one = self.order[number]
        known, start = self._known(), self._at(one.start)
        ends = [_away(start, way, one.long_mm) for way in self.ways]
        for end in sorted(ends, key=lambda end: _spread([*known, end])):
            self.tries += 1
            if self.tries > MOST_TRIES:
                return False
            if self._free(number, (start, end)):
                self.placed[one.end] = end
                if self._laid(number + 1):
                    return True
                self.placed[one.end] = None
        return False

    def _at(self, spot: int) -> Point:
        """Return where a spot lies that was laid."""
        at = self.placed[spot]
        if at is None:
            raise ValueError(f"order must lead outwards, got spot {spot} too early")
        return at

    def _free(self, number: int, ends: tuple[Point, Point]) -> bool:
        """Return whether a trunk keeps clear of all laid before it."""
        one = self.order[number]
        for other in self.order[:number]:
            theirs = (self._at(other.start), self._at(other.end))
            apart = min(CLEAR_MM, one.long_mm, other.long_mm)
            if one.start in (other.start, other.end):
                # two that meet part at once: looked at from half the clearance on
                share = apart / 2 / one.long_mm if one.long_mm else 0.0
                part = tuple(a + share * (b - a) for a, b in zip(*ends, strict=True))
                if distance(((part[0], part[1]), ends[1]), theirs) < apart / 4:
                    return False
            elif distance(ends, theirs) < apart:
                return False
        return True


def _away(start: Point, way_deg: float, long_mm: float) -> Point:
    """Return the far end of a trunk, to a millionth, so that square stays square."""
    turn = radians(way_deg)
    return (
        round(start[0] + long_mm * cos(turn), 6) + 0.0,
        round(start[1] + long_mm * sin(turn), 6) + 0.0,
    )


def _spread(points: list[Point]) -> float:
    """Return how large a board points need: its width and height together [mm]."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return round(max(xs) - min(xs) + max(ys) - min(ys), 3)


def distance(first: tuple[Point, Point], second: tuple[Point, Point]) -> float:
    """Return how far two straight pieces are from each other [mm], 0 where they cross.

    Examples
    --------
    >>> distance(((0.0, 0.0), (4.0, 0.0)), ((7.0, 4.0), (9.0, 9.0)))
    5.0
    >>> distance(((0.0, 0.0), (4.0, 0.0)), ((2.0, -1.0), (2.0, 1.0)))
    0.0
    """
    sides = [_side(*first, at) for at in second], [_side(*second, at) for at in first]
    if all(a * b < 0 for a, b in sides):
        return 0.0
    return min(
        *(_reach(at, second) for at in first),
        *(_reach(at, first) for at in second),
    )


def _side(start: Point, end: Point, at: Point) -> float:
    """Return on which side of a line a point is, by sign."""
    return (end[0] - start[0]) * (at[1] - start[1]) - (end[1] - start[1]) * (at[0] - start[0])


def _reach(at: Point, piece: tuple[Point, Point]) -> float:
    """Return how far a point is from a straight piece [mm]."""
    (x0, y0), (x1, y1) = piece
    square = (x1 - x0) ** 2 + (y1 - y0) ** 2
    along = ((at[0] - x0) * (x1 - x0) + (at[1] - y0) * (y1 - y0)) / square if square else 0.0
    share = min(max(along, 0.0), 1.0)
    return dist(at, (x0 + share * (x1 - x0), y0 + share * (y1 - y0)))


def fanned(count: int, order: list[Twig]) -> list[Point]:
    """Return where spots lie with every branch in a wedge of its own.

    A wedge below half a turn holds every sum of steps inside it, so branches in wedges that do not
    overlap never meet.
    """
    below = [1] * count
    for one in reversed(order):
        own = [other for other in order if other.start == one.end]
        below[one.end] = max(1, sum(below[other.end] for other in own))
    placed: list[Point] = [(0.0, 0.0)] * count
    if not order:
        return placed
    wedges = {order[0].start: (0.0, 2 * pi)}
    for start in dict.fromkeys(one.start for one in order):
        own = [one for one in order if one.start == start]
        first, wide = wedges[start]
        whole = sum(below[one.end] for one in own)
        for one in own:
            share = wide * below[one.end] / whole
            kept = min(share, WIDEST_FAN)
            wedges[one.end] = (first + (share - kept) / 2, kept)
            turn = first + share / 2
            x, y = placed[start]
            placed[one.end] = (x + one.long_mm * cos(turn), y + one.long_mm * sin(turn))
            first += share
    return placed
