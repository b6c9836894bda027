"""Every row has a known source, and a name that is not there is answered with the nearest."""

import re
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

import pytest

from trimwright.stock import (
    TABLES,
    UNSOURCED,
    bolt,
    friction,
    kerf,
    nut_factor,
    rows,
    sheet,
    source,
    tilt,
    tool_error,
    way,
)

CODE = Path(__file__).resolve().parents[3] / "src" / "trimwright"
ALL_ROWS = [(table, row) for table in TABLES for row in rows(table)]


def test_every_table_ships_beside_the_code() -> None:
    beside = {one.name for one in files("trimwright.stock").iterdir() if one.name.endswith(".csv")}
    assert beside == {f"{table}.csv" for table in (*TABLES, "sources")}


def cited() -> set[str]:
    """Return the source ids that the code cites: in brackets, and under References."""
    code = "\n".join(one.read_text("utf-8") for one in sorted(CODE.rglob("*.py")))
    under = "\n".join(re.findall(r"References\n +-+\n(.*?)(?:\n\n|\"\"\")", code, re.DOTALL))
    bracketed = "\n".join(re.findall(r"\[([a-z][^\[\]\n]*)\]", code))
    return set(
        re.findall(r"(?<![\w-])[a-z]+(?:-[a-z0-9]+)*-\d{4}(?:-[a-z0-9]+)*", under + bracketed)
    )


def test_every_row_names_a_known_source() -> None:
    known = [row["id"] for row in rows("sources")]
    assert len(known) == len(set(known))
    assert {row["source"] for _, row in ALL_ROWS} <= set(known)


def test_every_work_cited_is_a_known_source() -> None:
    assert {"yard-pound-1959", "john-1982"} <= cited()
    assert sorted(cited() - {row["id"] for row in rows("sources")}) == []


def test_every_source_is_used() -> None:
    used = {row["source"] for _, row in ALL_ROWS} | cited()
    assert sorted({row["id"] for row in rows("sources")} - used) == []


def test_every_source_names_its_work_and_place() -> None:
    assert all(row["work"] for row in rows("sources"))
    assert [row["id"] for row in rows("sources") if not row["place"]] == [UNSOURCED]


def test_at_most_a_fifth_of_the_rows_is_common_practice() -> None:
    bare = [row for _, row in ALL_ROWS if row["source"] == UNSOURCED]
    assert 0 < len(bare) <= len(ALL_ROWS) / 5


@pytest.mark.parametrize("table", TABLES)
def test_no_field_is_left_empty(table: str) -> None:
    assert rows(table)
    assert all(text for row in rows(table) for text in row.values())


@pytest.mark.parametrize("table", sorted(set(TABLES) - {"fuse_class", "size", "thickness"}))
def test_no_name_stands_twice(table: str) -> None:
    names = [row["name"].casefold() for row in rows(table)]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("table", ["friction", "kerf", "nut_factor"])
def test_a_range_goes_from_low_to_high(table: str) -> None:
    assert all(0 <= float(row["low"]) <= float(row["high"]) for row in rows(table))


def test_a_row_cannot_be_changed() -> None:
    with pytest.raises(TypeError, match="does not support item assignment"):
        rows("bolt")[0]["name"] = "M0"  # type: ignore[index]  # the refusal is the point


@pytest.mark.parametrize(
    ("getter", "wrong", "nearest"),
    [
        (sheet, "birch ply", "birch plywood"),
        (sheet, "mdff", "MDF"),
        (way, "tape measure", "tape"),
        (way, "countour gage", "contour gauge"),
        (bolt, "M66", "M6"),
        (bolt, "1/4-21", "1/4-20"),
        (nut_factor, "zinc", "zinc plated"),
        (kerf, "jig saw", "jigsaw"),
        (tilt, "miter saw", "mitre saw"),
        (friction, "wood on steel", "wood on smooth steel"),
        (source, "iso-898", "iso-898-1"),
    ],
)
def test_an_unknown_name_is_answered_with_the_nearest(
    getter: Callable[[str], object], wrong: str, nearest: str
) -> None:
    with pytest.raises(ValueError, match="is not in the table; did you mean") as refused:
        getter(wrong)
    assert nearest in str(refused.value)
    assert wrong in str(refused.value)


def test_only_the_nearest_are_offered() -> None:
    with pytest.raises(ValueError, match="did you mean") as refused:
        sheet("birch ply")
    assert "aluminium" not in str(refused.value)


def test_a_name_like_nothing_is_answered_with_all_there_are() -> None:
    with pytest.raises(ValueError, match="class I rule or class I tape") as refused:
        tool_error("zzzz", 1.0)
    assert "caliper" in str(refused.value)


def test_an_unknown_table_is_refused() -> None:
    with pytest.raises(
        ValueError, match=r"table must be one of bend, bend_moving, bolt, .* got 'hinge'"
    ):
        rows("hinge")


def test_case_and_spacing_do_not_count() -> None:
    assert sheet("  Birch   PLYWOOD ") == sheet("birch plywood")
    assert bolt("m6") == bolt("M6")
