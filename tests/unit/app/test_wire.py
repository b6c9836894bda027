"""The place 'wire': the diagram's pages, and what is live with switches as they are put."""

from pathlib import Path

import pytest
from fastapi import FastAPI

from tests.small_wiring import SMALL
from tests.unit.app.caller import call
from trimwright.app import Bench, app

ON = "/api/builds/larkspur/wire"


def _served(tmp_path: Path, text: str) -> FastAPI:
    path = tmp_path / "larkspur.yaml"
    path.write_text(text, "utf-8")
    return app({"larkspur": Bench(path)})


@pytest.fixture
def served(tmp_path: Path) -> FastAPI:
    return _served(tmp_path, SMALL)


def test_the_diagram_comes_in_pages_whose_wires_are_named(served: FastAPI) -> None:
    told = call(served, ON).told
    assert [one["number"] for one in told["pages"]] == list(range(1, len(told["pages"]) + 1))
    drawn = "".join(
        call(served, f"{ON}/pages/{one['number']}.svg").content.decode() for one in told["pages"]
    )
    for name in ("wire heater 1", "wire lamp 2", "contact heater switch"):
        assert f'data-of="{name}"' in drawn


def test_what_follows_from_a_state_is_told_in_words(served: FastAPI) -> None:
    asked = {"mode": "ignition on, engine stopped", "put": {"heater switch": "worked"}}
    told = call(served, f"{ON}/state", asked).told
    assert told["settled"]
    assert told["on"] == [{"name": "heater", "volts": "12.2 V"}]
    assert "heater 2" in told["carries"]


@pytest.mark.parametrize("asked", [{"mode": "flying"}, {"mode": ""}])
def test_a_state_that_no_car_has_is_refused(served: FastAPI, asked: dict[str, str]) -> None:
    assert call(served, f"{ON}/state", asked).status == 404


def test_a_position_that_a_switch_does_not_have_leaves_it_at_rest(served: FastAPI) -> None:
    asked = {
        "mode": "running",
        "put": {"heater switch": "sideways", "key": "start", "moon": "full"},
    }
    assert call(served, f"{ON}/state", asked).told["on"] == []


def test_a_page_that_is_not_there_is_refused(served: FastAPI) -> None:
    assert call(served, f"{ON}/pages/99.svg").status == 404


def test_a_build_without_wiring_has_no_pages(tmp_path: Path) -> None:
    bare = _served(tmp_path, "build: Larkspur estate\nunit: mm\n")
    told = call(bare, ON).told
    assert told["pages"] == told["handles"] == []
    assert call(bare, f"{ON}/state", {"mode": "running"}).status == 404
