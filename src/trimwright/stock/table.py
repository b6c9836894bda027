"""The tables themselves: rows as typed, and the source of each."""

import csv
from collections.abc import Iterable
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from msgspec import Struct

Row = MappingProxyType[str, str]

TABLES = (
    "bend",
    "bend_moving",
    "bolt",
    "bundle_factor",
    "colour",
    "conductor",
    "contact_load",
    "fault_odds",
    "flex",
    "friction",
    "fuse_class",
    "fuse_breaking",
    "inch_bolt",
    "insulation",
    "kerf",
    "least_area",
    "load_kind",
    "nut_factor",
    "reading",
    "sheet",
    "size",
    "standby",
    "thickness",
    "tilt",
    "tool",
    "wire",
)
UNSOURCED = "common-practice"
"""The source of what every shop knows and nobody has printed."""


class Source(Struct, frozen=True):
    """Where a row comes from: the work, and the place in it."""

    id: str
    work: str
    place: str


@cache
def rows(table: str) -> tuple[Row, ...]:
    """Return the rows of one table, each field as its source prints it.

    Raises
    ------
    ValueError
        If there is no such table.

    Examples
    --------
    >>> rows("bolt")[4]["area_mm2"]
    '20.1'
    """
    if table not in (*TABLES, "sources"):
        raise ValueError(f"table must be one of {', '.join(TABLES)}, got {table!r}")
    with files("trimwright.stock").joinpath(f"{table}.csv").open(encoding="utf-8") as lines:
        return tuple(MappingProxyType(row) for row in csv.DictReader(lines, strict=True))


def row(table: str, name: str) -> Row:
    """Return the first row of that name; case and spacing do not count.

    Raises
    ------
    ValueError
        If there is none; the nearest names are offered.

    Examples
    --------
    >>> row("bolt", "m6")["pitch_mm"]
    '1'
    """
    found = _named(table)
    if plain_name(name) not in found:
        raise ValueError(
            unknown(table.replace("_", " "), name, (one["name"] for one in rows(table)))
        )
    return found[plain_name(name)]


@cache
def _named(table: str) -> dict[str, Row]:
    """Return the rows of one table by their plain names, the first of each name."""
    return {plain_name(one["name"]): one for one in reversed(rows(table))}


def unknown(what: str, name: str, known: Iterable[str]) -> str:
    """Return what to say about a name that is not in a table: the nearest, else all there are."""
    names = {plain_name(one): one for one in known}
    near = get_close_matches(plain_name(name), names, n=3, cutoff=0.5) or sorted(names)
    return f"{what} {name!r} is not in the table; did you mean {' or '.join(names[one] for one in near)}?"


def plain_name(name: str) -> str:
    """Return a name without the differences that do not count."""
    return " ".join(name.casefold().split())


def source(source_id: str) -> Source:
    """Return the work behind a source id.

    Raises
    ------
    ValueError
        If there is none.

    Examples
    --------
    >>> source("common-practice").work
    'common practice, no source'
    """
    found = {one["id"]: one for one in rows("sources")}
    if source_id not in found:
        raise ValueError(unknown("source", source_id, found))
    return Source(**found[source_id])
