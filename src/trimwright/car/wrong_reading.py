"""Readings of the tunnel that look wrong, in the builder's words."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from trimwright.build import Build, Mark, Row, Section, readings, said, value
from trimwright.car.curve import Curve
from trimwright.car.doubt_list import default_doubt
from trimwright.car.section import STEP
from trimwright.car.shape import floor_height, shape_of, top_height
from trimwright.car.slip import LOPSIDED, Slip, Widths, slips, swapped_stations
from trimwright.car.wording import section_words
from trimwright.quantities import shown_with_unit

Floats = NDArray[np.float64]

ROUND_SLIPS: Final = (10.0, 25.4, 100.0)  # mm: a misread centimetre, inch, decimetre
ALIKE: Final = 0.5  # mm of depth within which a mark names a row
END: Final = 1.0  # mm: how well the end of a diagonal is placed (sigma); common practice, no source
CARRIED: Final = 3.0  # mm: how well a girth is known where the sides are run on to the floor


@dataclass(frozen=True, slots=True)
class Suspect:
    """A reading that does not fit the others.

    `slip_mm`: as read less as the others have it. `w`: standardised residual, beyond `critical`;
    for a section turned round, left less right [mm] of its first row.
    `partner`: the key it looks swapped with.
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


@dataclass(frozen=True, slots=True)
class SectionAdjustment:
    """What the tunnel's readings say about each other.

    `checked`: keys of readings that others check, with the least slip [mm] found four times in
    five; `unchecked`: keys that nothing checks, and diagonals whose ends name no reading.
    """

    suspects: tuple[Suspect, ...]
    checked: tuple[tuple[str, float], ...]
    unchecked: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Read:
    section: Section
    row: Row
    side: Literal["left", "right"]
    station: int

    @property
    def key(self) -> str:
        return said(self.row, self.side).key

    @property
    def value(self) -> float:
        figure = self.row.left if self.side == "left" else self.row.right
        return figure.value if figure else 0.0


@dataclass(frozen=True, slots=True, eq=False)
class _Tie:
    """A length over several half widths: what it reads, and less its constant."""

    key: str
    words: str
    row: Floats
    reads_mm: float
    read: float
    sigma: float


@lru_cache(maxsize=8)
def adjusted(build: Build) -> SectionAdjustment:
    """Return which half widths of the tunnel do not fit the others, and what checks what."""
    sections = sorted((one for one in build.car.tunnel if one.rows), key=lambda one: one.at.value)
    reads = [
        _Read(section, row, side, number)
        for number, section in enumerate(sections)
        for row in sorted(section.rows, key=lambda one: one.down.value)
        for side in ("left", "right")
        if (row.left if side == "left" else row.right) is not None and row.down.value > 0
    ]
    if not reads:
        return SectionAdjustment((), (), ())
    sigmas = {
        one.key: (value(build, one.key).doubt or default_doubt(one)).sigma
        for one in readings(build)
    }
    widths = Widths(
        np.array([one.at.value for one in sections]),
        np.array([one.station for one in reads], dtype=np.intp),
        np.array([one.row.down.value for one in reads]),
        np.array([-1 if one.side == "left" else 1 for one in reads], dtype=np.intp),
        np.array([one.value for one in reads]),
        np.array([max(sigmas.get(one.key, 1.0), 0.05) for one in reads]),
    )
    ties = (*_girths(build, sections, reads, sigmas), *_diagonals(build, reads, sigmas))
    found = slips(widths, tuple((tie.row, tie.read, tie.sigma) for tie in ties))
    checked = tuple(
        (one.key, least)
        for one, least in zip(reads, found.detectable, strict=True)
        if np.isfinite(least)
    )
    loose = tuple(
        one.key
        for one, least in zip(reads, found.detectable, strict=True)
        if not np.isfinite(least)
    )
    used = {tie.key for tie in ties}
    loose += tuple(
        key for key in (said(one, "length").key for one in build.car.diagonals) if key not in used
    )
    suspects = tuple(
        _suspect(build, reads, one, found.critical)
        if one.reading < len(reads)
        else _tie_suspect(build, ties[one.reading - len(reads)], one, found.critical)
        for one in found.slips
    )
    turned = tuple(_turned(build, reads, sections[k]) for k in swapped_stations(widths))
    return SectionAdjustment((*turned, *suspects), checked, loose)


def _girths(
    build: Build, sections: list[Section], reads: list[_Read], sigmas: dict[str, float]
) -> tuple[_Tie, ...]:
    """Return each girth as a linear form of the half widths around what was read."""
    floor = floor_height(build.car)
    if floor is None:
        return ()
    columns = {one.key: number for number, one in enumerate(reads)}
    found = []
    for section in sections:
        if section.girth is None:
            continue
        shape = shape_of(build.car, build.car.tunnel.index(section))
        lengths = Curve.through(shape.variants(), shape.corners).length(floor.value)
        rise = (lengths[1:] - lengths[0]) / STEP
        row = np.zeros(len(reads))
        for key, share in zip(shape.keys, rise, strict=True):
            if key in columns:
                row[columns[key]] += share
        constant = lengths[0] - row @ np.array([one.value for one in reads])
        sigma = np.hypot(sigmas.get(said(section, "girth").key, 1.0), CARRIED)
        words = f"girth at {section_words(build, section)}"
        key, reads_mm = said(section, "girth").key, section.girth.value
        found.append(_Tie(key, words, row, reads_mm, reads_mm - float(constant), float(sigma)))
    return tuple(found)


def _diagonals(build: Build, reads: list[_Read], sigmas: dict[str, float]) -> tuple[_Tie, ...]:
    """Return each diagonal as a linear form of the half widths at its two ends."""
    found = []
    for number, diagonal in enumerate(build.car.diagonals):
        ends = [_marked(reads, mark) for mark in (diagonal.start, diagonal.end)]
        if ends[0] is None or ends[1] is None:
            continue
        a, b = (_place(build, reads[end]) for end in ends if end is not None)
        along = b - a
        length = float(np.linalg.norm(along))
        unit = along / length
        row = np.zeros(len(reads))
        row[ends[0]] -= unit[1] * (-1 if diagonal.start.side == "left" else 1)
        row[ends[1]] += unit[1] * (-1 if diagonal.end.side == "left" else 1)
        constant = length - float(row @ np.array([one.value for one in reads]))
        key = said(diagonal, "length").key
        # the ends' places along and heights are off too, each way, at both ends
        sigma = float(np.hypot(sigmas.get(key, 1.0), END * np.sqrt(2 * (1 - unit[1] ** 2))))
        words, read = f"diagonal {number + 1}", diagonal.length.value
        found.append(_Tie(key, words, row, read, read - constant, sigma))
    return tuple(found)


def _marked(reads: list[_Read], mark: Mark) -> int | None:
    """Return the number of the reading that a mark names."""
    for number, one in enumerate(reads):
        same = abs(one.section.at.value - mark.at.value) < 1 and one.side == mark.side
        if same and abs(one.row.down.value - mark.down.value) < ALIKE:
            return number
    return None


def _place(build: Build, one: _Read) -> Floats:
    """Return where a reading lies [mm]."""
    high = top_height(build.car, one.section).value - one.row.down.value
    side = -1.0 if one.side == "left" else 1.0
    return np.array([one.section.at.value, side * one.value, high])


def _tie_suspect(build: Build, tie: _Tie, slip: Slip, critical: float) -> Suspect:
    likely = tie.reads_mm - slip.slip_mm
    texts = [shown_with_unit(one, build.unit) for one in (tie.reads_mm, likely)]
    says = f"The {tie.words} reads {texts[0]}; the half widths it spans have {texts[1]}."
    return Suspect(
        tie.key, tie.reads_mm, likely, slip.slip_mm, slip.w, critical, "slip", None, says
    )


def _turned(build: Build, reads: list[_Read], section: Section) -> Suspect:
    """Return a section whose left and right look exchanged, by its first row."""
    left, right = (
        next(one for one in reads if one.section is section and one.side == side)
        for side in ("left", "right")
    )
    says = f"Left and right look swapped all over {section_words(build, section)}."
    slip = left.value - right.value
    return Suspect(
        left.key, left.value, right.value, slip, slip, LOPSIDED, "swapped", right.key, says
    )


def _suspect(build: Build, reads: list[_Read], slip: Slip, critical: float) -> Suspect:
    one = reads[slip.reading]
    down = shown_with_unit(one.row.down.value, build.unit)
    place = f"{section_words(build, one.section)}, {down} down"
    likely = one.value - slip.slip_mm
    rounds = [size for size in ROUND_SLIPS if abs(abs(slip.slip_mm) - size) <= 0.15 * size]
    reads_text, likely_text = (shown_with_unit(v, build.unit) for v in (one.value, likely))
    says = f"The {one.side} half width at {place} reads {reads_text}; the others have {likely_text}"
    kind: Literal["slip", "round slip", "swapped"] = "slip"
    partner = None if slip.partner is None else reads[slip.partner].key
    if partner is not None:
        kind, says = "swapped", f"Left and right look swapped at {place}"
    elif rounds:
        kind = "round slip"
        says = f"{says}: a slip of {shown_with_unit(rounds[0], build.unit)}, it seems"
    return Suspect(
        one.key, one.value, likely, slip.slip_mm, slip.w, critical, kind, partner, f"{says}."
    )
