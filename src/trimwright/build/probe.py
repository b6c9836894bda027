"""What a test fit said: a gap, or a free place along an edge, and what was read there."""

import re
from typing import ClassVar

from msgspec import Struct

from trimwright.build.cut_then import CutThen
from trimwright.build.entry import Entry
from trimwright.build.field import key, maybe
from trimwright.build.form import Split
from trimwright.build.kind import MeasuredLength
from trimwright.findings import Edit
from trimwright.quantities import Quantity, QuantityError, Unit, across, along, upward

CARD = "card"  # a card gauge offered up to the tunnel is no edge of the console
_AT = re.compile(
    r"(?P<what>.*?\S)\s+at\s+(?P<place>(?:the\s+)?datum\b.*|[-+]?[\d.,].*)", re.IGNORECASE
)
_NEXT = re.compile(r"(?<=[a-zA-Z])\s*(?:,|\band\b)\s*")  # '12,5 behind, 90 left' has two
_WAYS = (
    ("along_mm", along, re.compile(r"\b(behind|ahead|datum)\b", re.IGNORECASE)),
    ("across_mm", across, re.compile(r"\b(left|right|middle|cent(re|er))\b", re.IGNORECASE)),
    ("up_mm", upward, re.compile(r"\b(above|up|below|down|level)\b", re.IGNORECASE)),
)


class Probe(Entry):
    """What a feeler or a tape said at one place in a test fit, or what touched there."""

    WAY: ClassVar[str] = "folded card"

    probe: str = key(
        "probe",
        "What was probed: words of a gap, or of an edge and a place along it.",
        "left wall daylight at 610 behind",
    )
    reads: MeasuredLength | None = None
    at_least: MeasuredLength | None = None
    at_most: MeasuredLength | None = None
    touches: str | None = maybe("touches", "What touches there.", "the carpet")
    cut_then: CutThen | None = maybe(
        "cut then",
        "What was cut when it was read; write it where you cut more by hand since.",
        "{nose lower by: 0 mm}",
    )
    SPLITS: ClassVar[dict[str, Split]] = {
        "reads": Split(
            re.compile(r"at least +(?P<at_least>.+)|at most +(?P<at_most>.+)|(?P<reads>.+)"),
            "a gap, or the least or the most it is",
            "2 ± 0.5",
            alike=("reads", "at_least", "at_most"),
        )
    }

    @property
    def said(self) -> Quantity | None:
        """What was read, None where something touched."""
        return next((one for one in (self.reads, self.at_least, self.at_most) if one), None)


class ProbePlace(Struct, frozen=True):
    """Words for an edge or a card, and where it was probed [mm]; None for a way not said."""

    what: str
    along_mm: float | None = None
    across_mm: float | None = None
    up_mm: float | None = None


def probe_place(words: str, unit: Unit) -> ProbePlace | None:
    """Return the free place that a probe's words name, None where they name a whole gap.

    Raises
    ------
    QuantityError
        If a place does not say which way, says one way twice, or carries a doubt.

    Examples
    --------
    >>> probe_place("left wall to seat at 580 behind and 120 up", "mm")
    ProbePlace(what='left wall to seat', along_mm=580.0, across_mm=None, up_mm=120.0)
    >>> probe_place("nose left", "mm")
    """
    found = _AT.fullmatch(words.strip())
    if found is None:
        return None
    places: dict[str, float] = {}
    for part in _NEXT.split(found["place"]):
        name, place = _said(part, unit)
        if name in places:
            raise QuantityError(part, "each way once", "420 behind and 60 left")
        places[name] = place.value
        if place.doubt is not None:
            expected = "a place without a doubt, which goes with what was read there"
            raise QuantityError(part, expected, "420 behind")
    return ProbePlace(found["what"], **places)


def _said(part: str, unit: Unit) -> tuple[str, Quantity]:
    """Return which way a place is told, and where it is."""
    for name, read, ways in _WAYS:
        if ways.search(part):
            at_datum = part.lower().startswith(("datum", "the datum"))
            return name, read(f"at {part}" if at_datum else part, unit)
    return _WAYS[0][0], along(part, unit)


def probe_edits(probe: str, said: str, number: int) -> tuple[Edit, Edit]:
    """Return the edits that add a reading of the test fit: a figure, or 'touches' and what.

    Examples
    --------
    >>> probe_edits("right wall at 420 behind", "touches the carpet", 0)[1].value
    'the carpet'
    """
    base, word = ("test fit", number), said.strip()
    if word.split()[0] == "touches":
        what = word.removeprefix("touches").strip() or "it"
        return Edit((*base, "probe"), probe.strip()), Edit((*base, "touches"), what)
    return Edit((*base, "probe"), probe.strip()), Edit((*base, "reads"), word)
