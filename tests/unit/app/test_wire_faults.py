"""Faults tried on the diagram, and a rule's break replayed, as the page is told of them."""

from pathlib import Path
from typing import Any

import pytest
from fastapi import FastAPI

from tests.small_wiring import changed
from tests.unit.app.caller import call
from tests.unit.wiring.test_rig import bridge_text
from trimwright.app import Bench, app

ON = "/api/builds/larkspur/wire"
RULES = "  rules:\n    - {never: heater, while: [engine stopped]}\n    - {always: lamp, while: [lamp switch worked]}\n"
IGNITION = "ignition on, engine stopped"
BLOWN = {"kind": "fuse blown", "of": "fuse 2"}


@pytest.fixture
def served(tmp_path: Path) -> FastAPI:
    path = tmp_path / "larkspur.yaml"
    path.write_text(changed(more=RULES), "utf-8")
    return app({"larkspur": Bench(path)})


def _state(served: FastAPI, put: dict[str, str], fault: dict[str, str] | None) -> Any:  # noqa: ANN401  as it is sent
    asked = {"mode": IGNITION, "put": put, "fault": fault}
    return call(served, f"{ON}/state", asked).told


def test_every_part_tells_what_can_be_wrong_in_it_and_where_it_is_drawn(served: FastAPI) -> None:
    told = {one["name"]: one for one in call(served, f"{ON}/faults").told["parts"]}
    assert [one["says"] for one in told["heater switch"]["faults"]] == [
        "heater switch welded",
        "heater switch not closing",
    ]
    assert {one["page"] for one in told.values()} == {1}
    drawn = call(served, f"{ON}/pages/1.svg").content.decode()
    for one in told.values():
        assert any(f' {name}"' in drawn for name in one["drawn"]), one


def test_a_door_switch_is_worked_by_its_door_and_one_of_the_engine_by_nothing(
    tmp_path: Path,
) -> None:
    old = "    - {name: heater switch, at: dash, carries: 20 A}\n"
    more = (
        "    - {name: door switch, at: dash, carries: 2 A, worked by: left door open}\n"
        "    - {name: oil switch, at: bay, carries: 2 A, worked by: oil pressure}\n"
    )
    path = tmp_path / "larkspur.yaml"
    path.write_text(changed((old, old + more)), "utf-8")
    told = call(app({"larkspur": Bench(path)}), f"{ON}/faults").told["parts"]
    by = {one["name"]: one["worked_by"] for one in told}
    assert by["door switch"] == "left door open"
    assert by["heater switch"] == "heater switch"
    assert by["oil switch"] == by["fuse 1"] == ""


def test_a_blown_fuse_stops_what_it_feeds_and_tells_what_dies_with_it(served: FastAPI) -> None:
    works = {"lamp switch": "worked"}
    assert _state(served, works, None)["tried"] is None
    told = _state(served, works, BLOWN)["tried"]
    assert told["says"] == "fuse 2 blown"
    assert told["stopped"] == told["dies"] == ["lamp"]
    assert told["breaks"] == ["lamp always on while lamp switch worked"]
    assert _state(served, {}, BLOWN)["tried"]["stopped"] == []


def test_what_is_live_is_that_of_the_faulted_car(served: FastAPI) -> None:
    assert "lamp 2" in _state(served, {"lamp switch": "worked"}, None)["carries"]
    dead = _state(served, {"lamp switch": "worked"}, BLOWN)
    assert "lamp 2" not in dead["carries"] + dead["live"]


def test_a_bad_crimp_tells_the_volts_before_and_after(served: FastAPI) -> None:
    told = _state(served, {"heater switch": "worked"}, {"kind": "bad crimp", "of": "heater 1"})
    assert told["tried"]["moved"] == [{"name": "heater", "before": "12.2 V", "after": "9.8 V"}]


@pytest.mark.parametrize(
    "fault",
    [
        {"kind": "fuse blown", "of": "fuse 9"},
        {"kind": "wire broken", "of": "fuse 2"},
        {"kind": "eaten by mice", "of": "lamp 1"},
    ],
)
def test_a_fault_that_nothing_can_have_is_refused(served: FastAPI, fault: dict[str, str]) -> None:
    asked = {"mode": IGNITION, "fault": fault}
    assert call(served, f"{ON}/state", asked).status == 404


def test_a_rule_says_what_became_of_it(served: FastAPI) -> None:
    first, second = call(served, f"{ON}/faults").told["rules"]
    assert (first["place"], first["broken"], first["faults"]) == ("never heater", True, [])
    assert not second["broken"]
    assert {**BLOWN, "says": "fuse 2 blown"} in second["faults"]


def test_a_broken_rule_is_replayed_in_words(served: FastAPI) -> None:
    told = call(served, f"{ON}/replay", {"rule": 0}).told
    assert told["walked"]
    assert told["rule"] == "heater never on while engine stopped"
    assert [one["breaks"] for one in told["frames"]] == [False, False, True]
    assert {one["says"] for one in told["frames"]} == {
        "",
        "the key goes to ignition",
        "heater switch is worked",
    }
    assert [one["name"] for one in told["frames"][-1]["state"]["on"]] == ["heater"]


def test_a_rule_that_only_a_fault_breaks_is_replayed_with_it(served: FastAPI) -> None:
    told = call(served, f"{ON}/replay", {"rule": 1, "fault": BLOWN}).told
    assert told["fault"] == "fuse 2 blown"
    assert told["frames"][-1]["breaks"]
    assert told["frames"][-1]["stands"] == ["lamp switch worked"]


@pytest.mark.parametrize("asked", [{"rule": 1}, {"rule": 7}, {"rule": 1, "fault": {"kind": "fuse blown", "of": "fuse 1"}}])  # fmt: skip
def test_what_breaks_no_rule_is_not_replayed(served: FastAPI, asked: dict[str, Any]) -> None:
    assert call(served, f"{ON}/replay", asked).status == 404


def test_a_build_without_wiring_has_no_faults(tmp_path: Path) -> None:
    path = tmp_path / "larkspur.yaml"
    path.write_text("build: Larkspur estate\nunit: mm\n", "utf-8")
    bare = app({"larkspur": Bench(path)})
    told = call(bare, f"{ON}/faults").told
    assert told["parts"] == told["rules"] == []
    assert call(bare, f"{ON}/replay", {"rule": 0}).status == 404


def test_a_relay_that_the_volts_at_its_coil_pull_in_is_told(tmp_path: Path) -> None:
    path = tmp_path / "larkspur.yaml"
    path.write_text(bridge_text(), "utf-8")
    served = app({"larkspur": Bench(path)})
    lost = {"kind": "ground lost", "of": "tail stud stud"}
    told = _state(served, {"heater switch": "worked"}, lost)
    assert told["by_volts"] == [
        "buzz relay pulls in on the 11.6 V that reach its coil through loads"
    ]
    assert {"name": "buzzer", "volts": "12.5 V"} in told["tried"]["wrongly"]
    assert _state(served, {"heater switch": "worked"}, None)["by_volts"] == []
