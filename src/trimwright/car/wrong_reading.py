"""Readings of the tunnel that look wrong, in the builder's words."""

from functools import lru_cache
from typing import Final, Literal

from msgspec import Struct

from trimwright.build import Build, readings, said, value
from trimwright.car.doubt_list import default_doubt
from trimwright.car.second_way import ties
from trimwright.car.slip import LOPSIDED, Slip, Tie, slips, swapped_stations
from trimwright.car.spot import Spots, spots
from trimwright.car.suspicion import (
    Source,
    both_called,
    called,
    fine,
    instead,
    outermost,
    shown,
    sources,
    turned,
    written,
)
from trimwright.car.wording import section_words
from trimwright.quantities import shown_with_unit

ROUND_SLIPS: Final = (10.0, 25.4, 100.0)  # mm: a misread centimetre, inch, decimetre
ROUND: Final = 0.15  # of a round slip: how near it a slip must come
TOLD: Final = 25.4  # mm: what is said to be checked shows a slip of an inch four times in five

Edits = tuple[tuple[str, str], ...]


class Suspect(Struct, frozen=True):
    """A reading that does not fit the others.

    `slip_mm`: as read less as the others have it. `w`: standardised residual, beyond `critical`;
    for a section turned round, left less right [mm] of its first row.
    `partner`: the key it looks swapped with. `rewrites`: what may be written instead, the
    likeliest first, each as keys with their text.
    """

    key: str
    reads_mm: float
    likely_mm: float
    slip_mm: float
    w: float
    critical: float
    kind: Literal["slip", "round slip", "swapped"]
    partner: str | None
    says: str
    rewrites: tuple[Edits, ...] = ()


class SectionAdjustment(Struct, frozen=True):
    """What the tunnel's readings say about each other.

    `checked`: keys of readings that others check, with the least slip [mm] found four times in
    five, an inch at most; `unchecked`: keys that nothing checks so well, and second ways to a
    figure that lead nowhere.
    """

    suspects: tuple[Suspect, ...]
    checked: tuple[tuple[str, float], ...]
    unchecked: tuple[str, ...]


@lru_cache(maxsize=8)
def adjusted(build: Build) -> SectionAdjustment:
    """Return which readings of the tunnel do not fit the others, and what checks what."""
    sigmas = {
        one.key: (value(build, one.key).doubt or default_doubt(one)).sigma
        for one in readings(build)
    }
    known = sources(build)
    floor = said(build.car, "floor_below_string").key
    found = spots(build.car, {key: one for key, one in sigmas.items() if key in known}, (floor,))
    if found is None:
        return SectionAdjustment((), (), ())
    second = ties(build, found, sigmas)
    search = slips(found.widths, second)
    judge = _Judge(build, found, second, known, search.critical)
    suspects = (
        *(judge.turned_round(k) for k in swapped_stations(found.widths)),
        *(judge.suspect(one) for one in search.slips),
    )
    least = dict(zip(found.keys, search.detectable, strict=True))
    used = {tie.key for tie in second}
    idle = (key for key in _second_keys(build) if key not in used)
    return SectionAdjustment(
        suspects,
        tuple((key, one) for key, one in least.items() if one <= TOLD),
        (*(key for key, one in least.items() if not one <= TOLD), *idle),
    )


def _second_keys(build: Build) -> list[str]:
    """Return the keys of all that was read as a second way to a figure."""
    girths = [said(one, "girth").key for one in build.car.tunnel if one.girth is not None]
    return [*(said(one, "length").key for one in build.car.diagonals), *girths]


class _Option(Struct, frozen=True):
    """One reading that a slip may be in: what it reads and what the others have, also as text."""

    key: str
    words: str
    reads_mm: float
    slip_mm: float
    reads: str
    likely: str

    @property
    def likely_mm(self) -> float:
        return self.reads_mm - self.slip_mm

    @property
    def round_mm(self) -> float | None:
        """The misread centimetre, inch or decimetre that it comes near."""
        near = (one for one in ROUND_SLIPS if abs(abs(self.slip_mm) - one) <= ROUND * one)
        return next(near, None)


class _Judge(Struct, frozen=True, eq=False):
    """A car and its readings, to word what was found."""

    build: Build
    spots: Spots
    ties: tuple[Tie, ...]
    known: dict[str, Source]
    critical: float

    def suspect(self, slip: Slip) -> Suspect:
        """Return one slip in the builder's words."""
        if slip.partner is not None:
            return self._exchanged(slip, slip.partner)
        options = [self._option(*one) for one in ((slip.reading, slip.slip_mm), *slip.instead)]
        options.sort(key=lambda one: one.round_mm is None)  # a misread centimetre is likelier
        first, *others = options
        says = f"The {first.words} reads {first.reads}; the others have {first.likely}"
        if first.round_mm is not None:
            says += f": a slip of {shown_with_unit(first.round_mm, self.build.unit)}, it seems"
        for one in others:
            same = one.words == first.words
            says += (
                f", or else {one.likely}" if same else f", or else the {one.words} is {one.likely}"
            )
        kind: Literal["slip", "round slip"] = "slip" if first.round_mm is None else "round slip"
        sizes = (first.likely_mm, first.slip_mm, slip.w, self.critical)
        edits = tuple(self._rewrite(one) for one in options)
        return Suspect(first.key, first.reads_mm, *sizes, kind, None, f"{says}.", edits)

    def _option(self, number: int, slip_mm: float) -> _Option:
        """Return one reading that a slip may be in."""
        if number >= len(self.spots.keys):
            tie, unit = self.ties[number - len(self.spots.keys)], self.build.unit
            texts = (shown_with_unit(tie.reads_mm - off, unit) for off in (0.0, slip_mm))
            return _Option(tie.key, tie.words, tie.reads_mm, slip_mm, *texts)
        one = self.known[self.spots.keys[number]]
        reads = one.figure.value
        texts = (shown(self.build, one, figure) for figure in (None, reads - slip_mm))
        return _Option(one.key, called(self.build, one), reads, slip_mm, *texts)

    def _rewrite(self, one: _Option) -> Edits:
        if one.key in self.known:
            return (written(self.build, self.known[one.key], one.likely_mm),)
        return ((one.key, fine(one.likely_mm, self.build)),)

    def _exchanged(self, slip: Slip, partner: int) -> Suspect:
        """Return two readings of a row that look exchanged."""
        mine, theirs = (self.known[self.spots.keys[one]] for one in (slip.reading, partner))
        says = f"Left and right look swapped at {both_called(self.build, mine, theirs)}."
        edits = (instead(mine, theirs), instead(theirs, mine))
        return _swapped((mine, theirs), (slip.slip_mm, slip.w, self.critical), says, edits)

    def turned_round(self, station: int) -> Suspect:
        """Return a section whose left and right look exchanged, by its outermost places."""
        section = self.spots.sections[station]
        left, right = outermost(section)
        says = f"Left and right look swapped all over {section_words(self.build, section)}."
        slip = abs(left.figure.value) - abs(right.figure.value)
        return _swapped((left, right), (slip, slip, LOPSIDED), says, turned(section))


def _swapped(
    pair: tuple[Source, Source], sizes: tuple[float, float, float], says: str, edits: Edits
) -> Suspect:
    """Return a pair of readings that look exchanged; `sizes` are slip, residual, critical."""
    reads, likely = (abs(one.figure.value) for one in pair)
    return Suspect(
        pair[0].key, reads, likely, *sizes, "swapped", pair[1].key, says, (edits,) if edits else ()
    )
