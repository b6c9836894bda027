"""What the points of a section have to agree on, whichever way they were written."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import cos, radians

from trimwright.build.entry import Entry, list_of
from trimwright.build.fault import Fault
from trimwright.build.stranger import Say
from trimwright.build.tunnel import NailPoint, Nails, Section
from trimwright.build.whole import Build

FORMS = {"rows": "down ...", "points": "points", "bites": "bites", "nails": "nails"}
TOP_WIDE = 5.0  # mm: a point nearer the middle than this may stand on either side
FLATTEST_DEG = 10.0  # two distances that cross flatter than this place no point
EXAMPLE = "from left 312, from right 287"
SHARED = 2  # points that place one bite beside another


def wrong_forms(build: Build, say: Say) -> Iterator[Fault]:
    """Yield a fault for every section whose points cannot be laid out.

    `say` makes a fault of an entry, its field, what was found, what was expected, an example.
    """
    for section in build.car.tunnel:
        forms = [name for name in FORMS if getattr(section, name)]
        if len(forms) > 1:
            told = " and ".join(FORMS[name] for name in forms)
            found, expected = f"both {told}", "one of the two in one section"
            yield say(section, forms[-1], found, expected, on=(section.key,))
        if section.depths_within is not None and not section.rows:
            found, expected = "no row with a depth", "rows, or no such key"
            example, on = "down 30: {left: 88, right: 90}", (section.key,)
            yield say(section, "depths_within", found, expected, example, on=on)
        across = [point.off_middle.value for point in section.points]
        yield from _order(section.points, across, say)
        yield from _bites(section, say)
        if section.nails:
            yield from _nails(section.nails, say)


def _bites(section: Section, say: Say) -> Iterator[Fault]:
    """Refuse a bite that shares too little with those before it."""
    known: set[str] = set()
    for number, bite in enumerate(section.bites):
        own = {point.letter for point in bite.points if point.letter}
        if number and len(own & known) < SHARED:
            found = f"{len(own & known)} lettered points that an earlier bite has too"
            example, on = "A at 12 right, 30 down", list_of(bite)
            yield say(bite, "points", found, "two at least", example, on=on)
        known |= own


def _nails(nails: Nails, say: Say) -> Iterator[Fault]:
    """Refuse lengths that do not meet, or cross too flat; then points out of order."""
    faults = [
        fault
        for point in (nails.middle, *nails.points)
        if (fault := _crossing(nails, point, say)) is not None
    ]
    yield from faults
    if not faults:
        mark = _right_of(nails, nails.middle)
        yield from _order(nails.points, [_right_of(nails, one) - mark for one in nails.points], say)


def _crossing(nails: Nails, point: NailPoint, say: Say) -> Fault | None:
    """Return what is wrong with the triangle of a point and the nails."""
    left, right, apart = point.left.value, point.right.value, nails.apart.value
    found = f'"{_spoken(point)}"'
    if not abs(left - right) < apart < left + right:
        expected = f"two lengths that meet: the nails are {nails.apart.text} apart"
        return say(point, "left", found, expected, EXAMPLE)
    crossing = (left**2 + right**2 - apart**2) / (2 * left * right)
    if abs(crossing) > cos(radians(FLATTEST_DEG)):
        expected = "two lengths that cross less flat: move the nails for this point"
        return say(point, "left", found, expected, EXAMPLE)
    return None


def _right_of(nails: Nails, point: NailPoint) -> float:
    """Return how far a point lies right of the middle between the nails [mm]."""
    return (point.left.value**2 - point.right.value**2) / (2 * nails.apart.value)


def _order(points: Sequence[Entry], across: list[float], say: Say) -> Iterator[Fault]:
    """Refuse points that do not run from left to right, and a point written twice."""
    wrong = _strays(across)
    field = "left" if points and isinstance(points[0], NailPoint) else "off_middle"
    if wrong and not _strays(across[::-1]):
        found, expected = "points from right to left", "points from left to right"
        yield say(points[0], field, found, expected, on=list_of(points[0]))
        return
    for number in wrong:
        side, other = ("left", "right") if across[number] > 0 else ("right", "left")
        found = f'"{_spoken(points[number])}", a point on the {other} among those on the {side}'
        expected = f"points from left to right, here on the {side}"
        yield say(points[number], field, found, expected, on=list_of(points[0]))
    for before, after in pairwise(points):
        if _spoken(before) == _spoken(after):
            found, expected = f'"{_spoken(after)}" a second time', "each point once"
            yield say(after, field, found, expected, on=list_of(after))


def _strays(across: list[float]) -> list[int]:
    """Return the fewest numbers that keep left, top and right from following each other.

    Of two that would do alike, the one farther off the middle.
    """
    sides = [0 if abs(y) < TOP_WIDE else (1 if y > 0 else -1) for y in across]
    if sides == sorted(sides):
        return []
    count = len(sides)
    laid = (
        [-1] * a + [0] * (b - a) + [1] * (count - b) for b in range(count + 1) for a in range(b + 1)
    )
    wrong = ([n for n in range(count) if sides[n] != right[n]] for right in laid)
    beside = [one for one in wrong if all(sides[n] for n in one)]
    return min(beside, key=lambda one: (len(one), -sum(abs(across[n]) for n in one)), default=[])


def _spoken(point: Entry) -> str:
    """Return a point as it is written in a file."""
    if isinstance(point, NailPoint):
        return f"from left {point.left.text}, from right {point.right.text}"
    held = point.__dict__
    return f"{held['off_middle'].text}, {held['down'].text} down"
