"""What was cut of the console when a reading of a test fit was taken."""

import re
from collections.abc import Iterator
from typing import Any, ClassVar, Literal, NamedTuple

from trimwright.build.console import Console
from trimwright.build.entry import Entry
from trimwright.build.field import maybe
from trimwright.build.form import FreeKeys
from trimwright.build.kind import ChosenLength
from trimwright.quantities import Quantity

_OUTLINE: dict[str, tuple[str, str]] = {
    "nose lower by": ("trims", "nose_lower_by"),
    "front shorter by": ("trims", "front_shorter_by"),
    "left wall in by": ("trims", "left_in_by"),
    "right wall in by": ("trims", "right_in_by"),
    "scribe deeper by": ("scribe", "deeper_by"),
}


class OpeningThen(Entry):
    """The size that an opening had when a reading was taken."""

    opening: str
    way: Literal["wide", "long"]
    was: ChosenLength


def _opening(_: str, match: re.Match[str]) -> dict[str, str]:
    return match.groupdict()


class CutThen(Entry):
    """What was cut when it was read; what is not written here was then as it is cut now."""

    nose_lower_by: ChosenLength | None = maybe(
        "nose lower by", "How much the nose was lower then.", "0 mm"
    )
    front_shorter_by: ChosenLength | None = maybe(
        "front shorter by", "How much the front was shorter then.", "0 mm"
    )
    left_in_by: ChosenLength | None = maybe(
        "left wall in by", "How much further in the left wall was then.", "0 mm"
    )
    right_in_by: ChosenLength | None = maybe(
        "right wall in by", "How much further in the right wall was then.", "0 mm"
    )
    deeper_by: ChosenLength | None = maybe(
        "scribe deeper by", "How much deeper the scribe was then.", "0 mm"
    )
    openings: tuple[OpeningThen, ...] = ()
    FREE: ClassVar[FreeKeys | None] = FreeKeys(
        re.compile(r"(?P<opening>.*\S) +(?P<way>wide|long)"),
        "openings",
        _opening,
        "gear lever wide: 110",
        scalar="was",
        key="an opening's name and wide or long",
        says="the size it had then",
    )


class Then(NamedTuple):
    """One thing that was cut differently: its key, how much, and the entry and field it is in."""

    key: str
    was: Quantity
    entry: Entry
    field: str


def cut_then(then: CutThen) -> Iterator[Then]:
    """Yield everything that a reading says was cut otherwise when it was taken."""
    for key, (_, field) in _OUTLINE.items():
        was: Quantity | None = getattr(then, field)
        if was is not None:
            yield Then(key, was, then, field)
    for one in then.openings:
        yield Then(f"{one.opening} {one.way}", one.was, one, "was")


def can_be_cut(console: Console) -> dict[str, tuple[str | int, ...]]:
    r"""Return all that may be cut, by its key under a reading: the fields that lead to it.

    Examples
    --------
    >>> from trimwright.build import parse
    >>> words = "build: B\nunit: mm\ncar: {carpet: {loose: 15}}\n"
    >>> words += "console: {from: 0 ahead, to: 600 behind, deck height: 200, width: 230}\n"
    >>> can_be_cut(parse(words).build.console)["scribe deeper by"]
    ('scribe', 'deeper_by')
    """
    found: dict[str, tuple[str | int, ...]] = dict(_OUTLINE)
    for place, opening in enumerate(console.openings):
        for way in ("wide", "long"):
            found[f"{opening.name} {way}"] = ("openings", place, way)
    return found


def cut_now(console: Console, key: str) -> Quantity:
    """Return how much is cut now, or how large an opening is, by its key under a reading."""
    entry: Any = console
    for step in can_be_cut(console)[key]:
        entry = entry[step] if isinstance(step, int) else getattr(entry, step)
    if not isinstance(entry, Quantity):
        raise TypeError(f"key must lead to a length, got {key!r}")
    return entry
