"""The walk over the wire: a build begun, readings held and written, a slip named at once."""

import asyncio
import json
from collections.abc import MutableMapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from fastapi import FastAPI

from trimwright.app import app, shelf
from trimwright.build import edited, written
from trimwright.findings import Edit

ROOT = Path(__file__).parents[3]


@dataclass(frozen=True)
class Page:
    """Asks the application in this process: the status and what was told."""

    inside: FastAPI

    def get(self, path: str) -> tuple[int, Any]:
        """Ask for something."""
        return asyncio.run(self._ask("GET", path, b""))

    def post(self, path: str, body: object) -> tuple[int, Any]:
        """Send a message."""
        return asyncio.run(self._ask("POST", path, json.dumps(body).encode()))

    def version(self, path: str) -> str:
        """Return the version of the build at an address."""
        told: str = self.get(path)[1]["version"]
        return told

    async def _ask(self, method: str, path: str, body: bytes) -> tuple[int, Any]:
        told: list[MutableMapping[str, Any]] = []
        scope = {
            "type": "http", "http_version": "1.1", "method": method, "scheme": "http",
            "path": path, "raw_path": path.encode(), "query_string": b"", "root_path": "",
            "headers": [(b"host", b"bench"), (b"content-type", b"application/json")],
        }  # fmt: skip

        async def receive() -> MutableMapping[str, Any]:
            return {"type": "http.request", "body": body, "more_body": False}

        async def send(message: MutableMapping[str, Any]) -> None:
            told.append(message)

        await self.inside(scope, receive, send)
        whole = b"".join(one.get("body", b"") for one in told[1:])
        return told[0]["status"], json.loads(whole)


@pytest.fixture
def client(tmp_path: Path) -> Page:
    return Page(app(shelf(tmp_path), folder=tmp_path))


def begin(client: Page) -> str:
    asked = {"title": "Larkspur", "unit": "mm", "driver": "left"}
    status, made = client.post("/api/builds", asked)
    assert status == 201
    return f"/api/builds/{made['name']}"


def test_a_build_is_begun_once(client: Page, tmp_path: Path) -> None:
    begin(client)
    asked = {"title": "Larkspur", "unit": "in", "driver": "left"}
    status, again = client.post("/api/builds", asked)
    assert status == 409
    assert "is there already" in again["detail"]
    assert written((tmp_path / "larkspur.yaml").read_text("utf-8"))["unit",] == "mm"
    assert [one["name"] for one in client.get("/api/builds")[1]] == ["larkspur"]


def test_readings_wait_for_each_other_and_are_written_together(
    client: Page, tmp_path: Path
) -> None:
    address = begin(client)
    file = tmp_path / "larkspur.yaml"
    steps = client.get(f"{address}/walk")[1]["steps"]
    knob = [one["path"] for one in steps if one["path"][1] == "lever knob"]
    base = client.version(address)
    held: list[dict[str, Any]] = []
    for path in knob[:-1]:
        reading = {"path": path, "value": "60"}
        asked = {"base": base, "reading": reading, "held": held}
        taken = client.post(f"{address}/walk", asked)[1]
        held = taken["held"]
        assert taken["version"] == base
        assert ("car", "lever knob", "across") not in written(file.read_text("utf-8"))
    assert [one["path"] for one in held] == knob[:-1]
    reading = {"path": knob[-1], "value": "270"}
    taken = client.post(f"{address}/walk", {"base": base, "reading": reading, "held": held})[1]
    assert taken["held"] == []
    said = written(file.read_text("utf-8"))
    assert all(tuple(path) in said for path in knob)


def test_a_figure_with_two_readings_is_refused_with_both(client: Page) -> None:
    address = begin(client)
    for path in (["car", "carpet", "loose"], ["car", "lever knob", "across"]):
        asked = {
            "base": client.version(address),
            "reading": {"path": path, "value": "1,250"},
        }
        status, refused = client.post(f"{address}/walk", asked)
        assert status == 422
        assert refused[0]["readings"] == ["1250", "1.25"]


def test_a_figure_far_off_is_written_only_if_it_is_meant(client: Page, tmp_path: Path) -> None:
    address = begin(client)
    path = ["car", "between seats", "at hip"]
    asked = {"base": client.version(address), "reading": {"path": path, "value": "2620"}}
    status, refused = client.post(f"{address}/walk", asked)
    assert status == 422
    assert refused[0]["readings"] == ["262", "2620"]
    assert client.post(f"{address}/walk", {**asked, "meant": True})[0] == 200
    said = written((tmp_path / "larkspur.yaml").read_text("utf-8"))
    assert said["car", "between seats", "at hip"] == "2620"


def test_an_edit_of_another_hand_is_not_written_over(client: Page, tmp_path: Path) -> None:
    address = begin(client)
    base = client.version(address)
    file, path = tmp_path / "larkspur.yaml", ("car", "carpet", "loose")
    file.write_text(edited(file.read_text("utf-8"), [Edit(path, "9")]), "utf-8")
    asked = {"base": base, "reading": {"path": path, "value": "15"}}
    assert client.post(f"{address}/walk", asked)[0] == 409
    assert written(file.read_text("utf-8"))[path] == "9"


def test_a_slip_is_named_while_the_tape_is_out(tmp_path: Path) -> None:
    text = (ROOT / "examples/dunlin/after-remedies.yaml").read_text("utf-8")
    (tmp_path / "dunlin.yaml").write_text(text, "utf-8")
    client = Page(app(shelf(tmp_path), folder=tmp_path))
    path = next(p for p in written(text) if p[:2] == ("car", "tunnel") and p[-1] == "left")
    right = written(text)[path]

    def slips(more: float) -> list[list[str | int]]:
        value = f"{float(right.split()[0]) + more:g}"
        asked = {
            "base": client.version("/api/builds/dunlin"),
            "reading": {"path": path, "value": value},
        }
        told = client.post("/api/builds/dunlin/walk", asked)[1]["slips"]
        return [one["path"] for one in told]

    assert list(path) not in slips(1.0)
    assert list(path) in slips(40.0)
    elsewhere = {"path": ["car", "carpet", "loose"], "value": "15 ± 2"}
    asked = {"base": client.version("/api/builds/dunlin"), "reading": elsewhere}
    assert client.post("/api/builds/dunlin/walk", asked)[1]["slips"] == []  # told once
    steps = client.get("/api/builds/dunlin/walk")[1]["steps"]
    assert list(path) in [one["path"] for one in steps]


def test_a_reading_at_the_car_is_written_and_weighed(tmp_path: Path) -> None:
    text = (ROOT / "examples/fifteen-minutes/build.yaml").read_text("utf-8")
    (tmp_path / "petrel.yaml").write_text(text, "utf-8")
    client = Page(app(shelf(tmp_path), folder=tmp_path))
    base = client.version("/api/builds/petrel")
    asked = {"base": base, "words": "left wall to seat", "reads": "at least 1/4"}
    status, told = client.post("/api/builds/petrel/test-fit", asked)
    assert status == 200
    said = written((tmp_path / "petrel.yaml").read_text("utf-8"))
    assert said["test fit", 0, "reads"] == "at least 1/4"
    asked["words"], asked["base"] = "bonnet", told["version"]
    status, refused = client.post("/api/builds/petrel/test-fit", asked)
    assert status == 409
    assert "there is: " in refused["detail"]
