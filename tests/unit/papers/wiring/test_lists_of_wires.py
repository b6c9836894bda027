"""The wiring's lists hold what the loom holds, and their words keep apart."""

import csv
import math
from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from io import StringIO

import pytest

from tests.invented_loom import LOOM, loom_cabin
from trimwright.build import InputError, parse
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import Line, Size, Text, flat, overlaps
from trimwright.papers.leaf import Leaf, pages
from trimwright.papers.wiring import (
    buying_list,
    label_sheet,
    plug_sheet,
    short_sheet,
    trunk_sheet,
    wire_list,
)
from trimwright.papers.wiring.label_sheet import WRAP_MM
from trimwright.papers.wiring.plug_sheet import cavity_rows
from trimwright.papers.wiring.wire_list import wire_number
from trimwright.papers.wiring.wiring_csv import buying_csv, rubbed_csv, wire_list_csv
from trimwright.papers.wiring.wording import cut_words, way_words
from trimwright.quantities import Unit
from trimwright.wiring import shorted

Leaves = Callable[[Cabin, Size], tuple[Leaf, ...]]
PAPERS: tuple[Leaves, ...] = (
    wire_list.leaves,
    buying_list.leaves,
    label_sheet.leaves,
    plug_sheet.leaves,
    short_sheet.leaves,
    trunk_sheet.leaves,
)
EMPTY = "build: Wrenfold Teal, 1970\nunit: mm\n"


def words(some: tuple[Leaf, ...]) -> list[str]:
    """Return every line of words of leaves."""
    return [one.words for leaf in some for one in flat(leaf.elements) if isinstance(one, Text)]


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("size", ["A4", "Letter"])
@pytest.mark.parametrize("leaves", PAPERS)
def test_words_keep_apart(leaves: Leaves, size: Size, unit: str) -> None:
    one = loom_cabin(unit)
    made = pages(leaves(one, size), one.build)
    assert made
    assert [found for page in made for found in overlaps(page)] == []


@pytest.mark.parametrize("leaves", PAPERS)
def test_without_a_wiring_there_is_no_page(leaves: Leaves) -> None:
    assert leaves(cabin(parse(EMPTY).build), "A4") == ()


def test_every_wire_is_on_the_list_once() -> None:
    one = loom_cabin()
    assert one.wiring is not None
    said = words(wire_list.leaves(one, "A4"))
    for wire in one.wiring.loom.wires:
        assert said.count(wire_number(wire)) == 1


def test_an_unknown_length_says_what_it_waits_for() -> None:
    said = " ".join(words(wire_list.leaves(loom_cabin(), "A4")))
    assert "length not known: waits for a trunk from fuse box to boot" in said


def rows_of(content: bytes) -> list[dict[str, str]]:
    """Return a list of comma-separated values by its headings."""
    assert b"\r\n" in content
    return list(csv.DictReader(StringIO(content.decode("utf-8-sig"), newline="")))


@pytest.mark.parametrize(("unit", "size", "digit"), [("mm", 1.0, 0.005), ("in", 25.4, 0.00005)])
def test_the_list_for_a_spreadsheet_sums_to_the_loom(unit: str, size: float, digit: float) -> None:
    one = loom_cabin(unit)
    assert one.wiring is not None
    rows = rows_of(wire_list_csv(one))
    wires = one.wiring.loom.wires
    assert [row["number"] for row in rows] == [wire_number(wire) for wire in wires]
    for row, wire in zip(rows, wires, strict=True):
        cell = row[f"cut [{unit}]"]
        if wire.cut_mm is None:
            assert (cell, row["waits for"]) == ("", wire.missing)
        else:
            assert float(cell) == pytest.approx(wire.cut_mm / size, abs=digit)
    assert {row["number"] for row in rows if row["size chosen here"] == "yes"} == {
        f"4.{n}" for n in range(1, 8)
    }


def test_the_buying_list_is_the_same_for_a_spreadsheet() -> None:
    one = loom_cabin()
    rows = rows_of(buying_csv(one))
    said = words(buying_list.leaves(one, "A4"))
    assert {row["what"] for row in rows} <= set(said)
    white = next(row for row in rows if row["which"].endswith(", WH"))
    assert (white["which"], white["how many"], white["of"]) == ("2.5 mm², WH", "4", "m")


def test_what_has_a_price_is_summed_and_what_meets_no_row_is_said() -> None:
    prices = "".join(
        f"    - {{of: {of}, costs: {costs}}}\n"
        for of, costs in (
            ("2.5 mm2", "1.20"),
            ('"2.5 mm2, WH"', "1.35"),
            ("ring", "0.2"),
            ("gold", 9),
        )
    )
    one = cabin(parse(LOOM.format(unit="mm") + f"  prices:\n{prices}").build)
    rows = rows_of(buying_csv(one))
    white = next(row for row in rows if row["which"].endswith(", WH"))
    # by hand: 4 m at 1.35, the longer words before the shorter
    assert (white["each"], white["together"]) == ("1.35", "5.40")
    rings = [row for row in rows if row["which"].startswith("Ring terminal")]
    green = next(row for row in rows if row["which"] == "2.5 mm², GN")
    assert green["each"] == "1.20"
    total = 5.40 + 1.2 * int(green["how many"]) + 0.2 * sum(int(row["how many"]) for row in rings)
    left = sum(not row["each"] for row in rows)
    said = " ".join(words(buying_list.leaves(one, "A4")))
    assert f"All with a price comes to {total:.2f}; {left} without." in said
    assert "No row begins with: gold." in said


@pytest.mark.parametrize("written", ["£1.20", "1.20 ± 0.1", "dear"])
def test_a_price_is_a_plain_figure(written: str) -> None:
    with pytest.raises(InputError, match="line"):
        parse(LOOM.format(unit="mm") + f"  prices:\n    - {{of: ring, costs: {written}}}\n")


def test_what_a_short_does_is_told_once_of_every_wire() -> None:
    one = loom_cabin()
    assert one.wiring is not None
    rubs = shorted(one.wiring.wiring, "mm")
    told = {rub.wire: rub for rub in rubs}
    behind = short_sheet.groups(one.wiring, rubs)
    named = [wire.name for some in behind.values() for own in some for wire, _ in own.wires]
    assert sorted(named) == sorted(name for name, rub in told.items() if rub.fed)
    assert all(
        rub.fuses == fuses for fuses, some in behind.items() for own in some for rub in own.rubs
    )
    said = " ".join(words(short_sheet.leaves(one, "A4")))
    assert "Ground in every state, nothing flows: 2.3, 3.5, 4.6 to 4.7, 6.1, 7.2" in said
    assert "No fuse ahead" in said
    assert "With it goes: " in said


def test_shorts_are_the_same_for_a_spreadsheet() -> None:
    one = loom_cabin()
    assert one.wiring is not None
    rows = rows_of(rubbed_csv(one))
    rubs = shorted(one.wiring.wiring, "mm")
    assert [row["wire"] for row in rows] == [rub.wire for rub in rubs]
    for row, rub in zip(rows, rubs, strict=True):
        assert row["opens"] == ", ".join(rub.fuses)
        assert float(row["most [A]"]) == pytest.approx(rub.most_a, abs=0.05)
        assert (row["latest [s]"] == "") == (rub.latest_s == math.inf)


def test_one_half_of_a_plug_is_the_mirror_of_the_other() -> None:
    assert cavity_rows(10, mirrored=False) == ((1, 2, 3, 4, 5), (6, 7, 8, 9, 10))
    assert cavity_rows(10, mirrored=True) == ((5, 4, 3, 2, 1), (10, 9, 8, 7, 6))
    assert cavity_rows(3, mirrored=True) == ((3, 2, 1),)
    assert [len(row) for row in cavity_rows(18, mirrored=False)] == [8, 8, 2]


def test_crowded_and_empty_cavities_are_said() -> None:
    said = " ".join(words(plug_sheet.leaves(loom_cabin(), "A4")))
    assert "Cavity 6 empty: fit a blank." in said
    assert "Cavity 2 taken by more than one wire: join them ahead of it." in said


def test_every_end_of_every_wire_has_a_label() -> None:
    one = loom_cabin()
    assert one.wiring is not None
    said = words(label_sheet.leaves(one, "A4"))
    for wire in one.wiring.loom.wires:
        assert said.count(f"{wire_number(wire)} {wire.name}") == 2
    cut = [
        line
        for leaf in label_sheet.leaves(one, "A4")
        for line in leaf.elements
        if isinstance(line, Line) and line.layer == "cut"
    ]
    assert len(cut) == 2 * len(one.wiring.loom.wires)


def test_the_words_of_a_label_stay_clear_of_its_blank_end() -> None:
    (first, *_) = label_sheet.leaves(loom_cabin(), "A4")
    folds = {
        line.points[0][0]
        for line in first.elements
        if isinstance(line, Line) and line.layer == "fold"
    }
    outlines = {line.points[0][0] for line in first.elements if isinstance(line, Line)} - folds
    assert {
        round(fold - edge, 6) for fold, edge in zip(sorted(folds), sorted(outlines), strict=True)
    } == {WRAP_MM}


CROWD = 120


@lru_cache(maxsize=1)
def crowded() -> Cabin:
    """Return a wiring of many loads with long names behind one fuse, one relay and one cavity."""
    many = [f"lamp number {n} of the long roof rail on the left" for n in range(CROWD)]
    loads = "\n".join(f"    - {{name: {name}, at: roof, kind: lamp, takes: 5 W}}" for name in many)
    paths = "\n".join(
        f"    - {{name: {name}, goes: [roof relay 87, roof plug 1, {name}, stud]}}" for name in many
    )
    text = f"""build: Wrenfold Teal, many lamps
unit: mm
wiring:
  battery: {{at: box, holds: 60 Ah, cranks: 480 A}}
  places: [{{name: box}}, {{name: roof}}]
  trunks: [{{from: box, to: roof, long: 700, hole: 60}}]
  feeds: [{{name: always, at: box}}]
  grounds: [{{name: stud, at: roof}}]
  fuses: [{{name: fuse 1, at: box, rated: 15 A}}]
  relays: [{{name: roof relay, at: box}}]
  plugs: [{{name: roof plug, at: roof, cavities: 2}}]
  loads:
{loads}
  paths:
    - {{name: feed, goes: [always, fuse 1, roof relay 30]}}
    - {{name: coil, goes: [fuse 1, roof relay 86-85, stud], size: 1 mm2, colour: BN}}
{paths}
"""
    return cabin(parse(text).build)


@pytest.mark.parametrize("leaves", PAPERS)
def test_more_wires_than_a_row_has_room_for_are_counted(leaves: Leaves) -> None:
    one = crowded()
    made = pages(leaves(one, "Letter"), one.build)
    assert made
    assert [found for page in made[:3] for found in overlaps(page)] == []


def test_what_is_left_out_of_a_cell_is_said() -> None:
    said = " ".join(words(plug_sheet.leaves(crowded(), "A4")))
    assert f"and {CROWD - 6} more: see the wire list" in said


@pytest.mark.parametrize(("unit", "size"), [("mm", 1.0), ("in", 25.4)])
def test_a_wire_is_never_cut_shorter_than_its_way_asks(unit: Unit, size: float) -> None:
    found = loom_cabin().wiring
    assert found is not None
    for wire in found.loom.wires:
        if wire.cut_mm is not None:
            figure, of = cut_words(wire, unit).rsplit(" ", 1)
            assert of == unit
            shown = float(sum(Fraction(part) for part in figure.split("\u2009")))
            assert 0.0 <= shown * size - wire.cut_mm < 7.0  # the next 5 mm or quarter of an inch


def test_a_relay_says_what_is_at_the_other_end() -> None:
    said = words(plug_sheet.leaves(loom_cabin(), "A4"))
    assert "30: fuse 1 out (WH)" in said
    assert "87: lamp + (WH)" in said
    assert "85: dash joint (GYWH)" in said


def test_the_way_of_a_wire_names_the_places_between() -> None:
    found = loom_cabin().wiring
    assert found is not None
    ways = {wire.name: way_words(wire, found) for wire in found.loom.wires}
    assert ways["lamp 1"] == "stays there"
    assert ways["feed 1"] == "straight there"
    assert ways["lamp 3"] == "by fuse box"  # from engine bay to dash
    assert ways["boot lamp 1"] == "way not known"
