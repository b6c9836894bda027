"""Live figures are those that the written file then has; nothing is written meanwhile."""

from pathlib import Path
from shutil import copy
from typing import Any

import pytest
from fastapi import FastAPI

from tests.unit.app.caller import call
from trimwright.app import app
from trimwright.app.bench import Bench

EXAMPLE = Path(__file__).parents[3] / "examples/dunlin/first-measured.yaml"
Steps = tuple[str | int, ...]
NOSE: Steps = ("console", "deck", 0, "height")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Return a copy of the example."""
    return Path(copy(EXAMPLE, tmp_path))


@pytest.fixture
def served(file: Path) -> FastAPI:
    """Return what serves it."""
    return app({"one": Bench(file)})


def drag(served: FastAPI, path: Steps, by_mm: float, **more: object) -> dict[str, Any]:
    """Return the answer to a drag."""
    answer = call(
        served, "/api/builds/one/drag", {"moves": [{"path": path, "by_mm": by_mm}], **more}
    )
    assert answer.status == 200, answer.told
    told: dict[str, Any] = answer.told
    return told


def test_live_figures_are_those_of_the_file_once_written(served: FastAPI, file: Path) -> None:
    """Every gap told live is told the same by the findings after the edit is written."""
    before = file.read_bytes()
    told = drag(served, NOSE, -9.0)
    assert file.read_bytes() == before
    assert told["gaps"]
    base = call(served, "/api/builds/one").told["version"]
    patch = {"base": base, "edits": told["edits"], "says": "nose down"}
    assert call(served, "/api/builds/one/edits", patch).status == 200
    findings = {one["place"]: one for one in call(served, "/api/builds/one/fit").told["findings"]}
    for gap in told["gaps"]:
        assert findings[gap["name"]]["figure"] == gap["figure"]
        assert findings[gap["name"]]["limit"] == gap["wanted"]


def test_the_gap_shortest_of_room_comes_first(served: FastAPI) -> None:
    short = [gap["short_mm"] for gap in drag(served, NOSE, 12.0)["gaps"]]
    assert short == sorted(short, reverse=True)


def test_views_come_where_they_are_looked_at(served: FastAPI) -> None:
    assert drag(served, NOSE, -9.0)["views"] is None
    seen = drag(served, NOSE, -9.0, seen={"at_mm": 100.0})["views"]
    size = {tuple(one["path"]): one for one in seen["views"][0]["sizes"]}[tuple(NOSE)]
    assert size["typed"] == "175 mm"  # 184 less 9


def test_what_cannot_be_made_says_so(served: FastAPI) -> None:
    told = drag(served, NOSE, -170.0)  # into the tunnel
    assert told["cannot"] != ""
    assert told["gaps"] == []


def test_what_the_file_cannot_say_is_a_fault(served: FastAPI) -> None:
    move = {"moves": [{"path": NOSE, "by_mm": -900.0}]}
    answer = call(served, "/api/builds/one/drag", move)
    assert answer.status == 422
    assert answer.told[0]["path"] == list(NOSE)


def test_what_no_handle_moves_is_not_found(served: FastAPI) -> None:
    move = {"moves": [{"path": ["car", "carpet", "loose"], "by_mm": 1.0}]}
    assert call(served, "/api/builds/one/drag", move).status == 404
