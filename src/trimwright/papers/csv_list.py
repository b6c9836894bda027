"""Findings and cut list as comma-separated values, for a spreadsheet: units in the headings."""

import csv
from io import StringIO

from trimwright.cabin import Cabin
from trimwright.checks import amount
from trimwright.findings import Finding
from trimwright.papers.cut_list import edges_of, size_of
from trimwright.quantities import Unit

IN_UNIT_MM: dict[Unit, tuple[float, int]] = {"mm": (1.0, 2), "in": (25.4, 4)}  # and decimals
ACTED_ON = ("=", "+", "-", "@", "\t", "\r")  # a spreadsheet computes words that begin with these
MARK = "\ufeff"  # tells a spreadsheet that the letters are UTF-8


def findings_csv(cabin: Cabin, findings: tuple[Finding, ...]) -> bytes:
    """Return every finding as a row, in the order of the findings sheet.

    Lengths are figures in the build's unit. A figure that is no length stands in words with its
    own unit in the two columns named so.

    References
    ----------
    RFC 4180
    """
    unit = cabin.build.unit
    head = [
        *("number", "grade", "before", "place", "zone", "what it says"),
        *(f"{name} [{unit}]" for name in ("figure", "limit", "5 % below", "95 % below")),
        *("other figure", "other limit", "sure [%]", "remedy", "missing", "limit from"),
    ]
    rows, number = [head], 0
    for one in findings:
        number += one.grade != "good"
        rows.append(_finding(one, "" if one.grade == "good" else str(number), unit))
    return as_csv(rows)


def _finding(one: Finding, number: str, unit: Unit) -> list[str]:
    """Return one finding as cells."""
    of_length = one.measure == "mm"
    lengths = (one.figure, one.limit, one.low, one.high) if of_length else (None,) * 4
    others = (None, None) if of_length else (one.figure, one.limit)
    return [
        *(number, one.grade, one.lock, cell_of_words(one.place), one.zone, cell_of_words(one.says)),
        *(cell_of_length(value, unit) for value in lengths),
        *("" if value is None else amount(one, value, unit) for value in others),
        "" if one.sure is None else f"{100 * one.sure:.1f}",
        cell_of_words(one.remedies[0].says if one.remedies else ""),
        cell_of_words("; ".join(one.missing)),
        cell_of_words(one.source),
    ]


def cut_list_csv(cabin: Cabin) -> bytes:
    """Return every piece as a row, sizes over all on the larger face.

    Raises
    ------
    ValueError
        If there is no console, or it cannot be made.

    References
    ----------
    RFC 4180
    """
    carcass, unit = cabin.carcass, cabin.build.unit
    if carcass is None or not carcass.panels:
        raise ValueError("cabin must have a console that can be made")
    sizes = (f"{name} [{unit}]" for name in ("long", "wide", "thick"))
    rows = [["piece", *sizes, "grain", "edges"]]
    for panel in carcass.panels:
        figures = (*size_of(panel), panel.thickness)
        cells = (cell_of_length(value, unit) for value in figures)
        edges = edges_of(panel)
        rows.append([cell_of_words(panel.name), *cells, panel.grain, cell_of_words(edges)])
    return as_csv(rows)


def cell_of_length(value_mm: float | None, unit: Unit) -> str:
    """Return a length as a figure without its unit; nothing where there is none."""
    if value_mm is None:
        return ""
    size, decimals = IN_UNIT_MM[unit]
    return f"{value_mm / size:.{decimals}f}"


def cell_of_words(text: str) -> str:
    """Return words that no spreadsheet takes for a formula.

    Examples
    --------
    >>> cell_of_words("=2+3"), cell_of_words("left wall")
    ("'=2+3", 'left wall')
    """
    return f"'{text}" if text.startswith(ACTED_ON) else text


def as_csv(rows: list[list[str]]) -> bytes:
    """Return rows as bytes, after RFC 4180, with a mark that the letters are UTF-8."""
    out = StringIO(newline="")
    csv.writer(out, lineterminator="\r\n").writerows(rows)
    return (MARK + out.getvalue()).encode("utf-8")
