"""Notes and photos of the build book: each with the part, reading or finding that it belongs to."""

from collections.abc import Iterable
from typing import Any

from trimwright.build import Noted, readings
from trimwright.cabin import Cabin
from trimwright.drawing import PhotoError, photo, printed
from trimwright.findings import Finding

Told = dict[str, Any]
LONGEST_PX = 1200  # of a printed picture: 300 dots an inch at 100 mm
WIDEST_MM, HIGHEST_MM = 72.0, 84.0  # two beside each other in a column of text
LEAST_DPI = 110.0  # a small picture is printed small before its dots show
INCH_MM = 25.4
TEST_FIT = "test fit"  # what is read there is called so, and then what was probed


def notes_told(
    cabin: Cabin, findings: tuple[Finding, ...], notes: tuple[Noted, ...]
) -> tuple[Told, dict[str, bytes]]:
    """Return the notes by what they belong to, and their pictures as files by name.

    Parameters
    ----------
    cabin, findings
        As the book tells them; a note about something that is not among them stands by itself.
    notes : tuple of Noted
        Every note of the build, in the order of its file.

    Returns
    -------
    told : dict
        `findings` by place in small letters, `readings` and `fit` in the order of the readings and
        of the test fit, `parts` with their names, and `others` with what they are about.
    files : dict of str to bytes
        Pictures, made anew.
    """
    told, files = _each(notes)
    panels = cabin.carcass.panels if cabin.carcass else ()
    names = {panel.name.casefold(): panel.name for panel in panels}
    places = {one.place.lower() for one in findings}
    tried = [f"{TEST_FIT} {one.probe}".casefold() for one in cabin.build.test_fit]
    keys = [one.key for one in readings(cabin.build)]
    homes = {"part": set(names), "finding": places, "fit": set(tried), "reading": set(keys)}
    home = [_home(one, homes) for one in notes]

    def at(kind: str, name: str) -> list[Told]:
        return [one for one, place in zip(told, home, strict=True) if place == (kind, name)]

    others = list(dict.fromkeys(name for kind, name in home if kind == ""))
    return {
        "findings": {printed(name, "count"): at("finding", name) for name in sorted(places)},
        "readings": [at("reading", key) for key in keys],
        "fit": [at("fit", one) if one not in tried[:n] else [] for n, one in enumerate(tried)],
        "parts": _named((name, at("part", small)) for small, name in names.items()),
        "others": _named((name, at("", name)) for name in others),
    }, files


def _home(one: Noted, homes: dict[str, set[str]]) -> tuple[str, str]:
    """Return the kind and name of what a note stands with; no kind where it stands by itself."""
    note = one.note
    part, finding, reading = (
        (text or "").strip() for text in (note.part, note.finding, note.reading)
    )
    asked = {
        "part": part.casefold(),
        "finding": finding.lower(),
        "fit": reading.casefold(),  # the place that was probed, whatever it read
        "reading": one.key,
    }
    for kind, name in asked.items():
        if name in homes[kind]:
            return kind, name
    return "", printed(part or finding or reading, "count")


def _named(groups: Iterable[tuple[str, list[Told]]]) -> list[Told]:
    """Return groups of notes that have any, each with its name."""
    return [{"name": printed(name, "count"), "notes": notes} for name, notes in groups if notes]


def _each(notes: tuple[Noted, ...]) -> tuple[list[Told], dict[str, bytes]]:
    """Return what is printed of each note, and the pictures by file."""
    told, files = [], {}
    for number, one in enumerate(notes, start=1):
        says, lacks, file, wide = one.note.says or "", one.lacks, "", 0.0
        if one.picture:
            try:
                made = photo(one.picture, LONGEST_PX)
            except PhotoError as wrong:
                lacks = f"{one.note.photo}: {wrong}"
            else:
                file = f"photo-{number}{made.ending}"
                files[file] = made.data
                wide = _wide_mm(made.width, made.height)
        told.append(
            {
                "says": printed(says, "count"),
                "lacks": printed(lacks, "count"),
                "file": file,
                "wide": wide,
            }
        )
    return told, files


def _wide_mm(width_px: int, height_px: int) -> float:
    """Return how wide a picture is printed [mm].

    Examples
    --------
    >>> _wide_mm(1200, 900), _wide_mm(600, 1200), _wide_mm(110, 110)
    (72.0, 42.0, 25.4)
    """
    most = min(WIDEST_MM, HIGHEST_MM * width_px / height_px)
    return round(min(most, width_px / LEAST_DPI * INCH_MM), 2)
