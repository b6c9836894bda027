"""The place 'wire': its parts with their fields, the next stop of a path, a circuit for a load."""

from pathlib import Path

import pytest
from fastapi import FastAPI

from tests.small_wiring import SMALL, changed
from tests.unit.app.caller import call
from trimwright.app import Bench, app
from trimwright.build import Wiring, parse, stop

BUILD = "/api/builds/larkspur"
ON = f"{BUILD}/wire"
FAN = "    - {name: fan, at: dash, kind: motor, takes: 4 A, worked by: fan switch}\n"


def _served(tmp_path: Path, text: str) -> FastAPI:
    path = tmp_path / "larkspur.yaml"
    path.write_text(text, "utf-8")
    return app({"larkspur": Bench(path)})


@pytest.fixture
def served(tmp_path: Path) -> FastAPI:
    return _served(tmp_path, SMALL)


def _with_fan() -> str:
    return changed(("  paths:\n", f"{FAN}  paths:\n"))


def _wiring(text: str = SMALL) -> Wiring:
    wiring = parse(text).build.wiring
    assert wiring is not None
    return wiring


def test_every_part_is_told_with_the_place_of_its_fields(served: FastAPI) -> None:
    told = call(served, f"{ON}/parts").told
    fields = call(served, f"{BUILD}/fields").told["root"]
    assert told["version"] == call(served, BUILD).told["version"]
    assert len(told["parts"]) == 2 + 4 + 3 + 2 + 3 + 3 + 2 + 2 + 7
    for one in told["parts"]:
        held = fields
        for n in range(len(one["path"])):
            held = next(b for b in held["below"] if b["path"] == one["path"][: n + 1])
        named = {below["key"]: below["value"] for below in held["below"]}.get("name")
        assert named in (None, one["name"])


def test_each_page_names_what_it_draws(served: FastAPI) -> None:
    told = call(served, f"{ON}/drawn").told["pages"]
    assert len(told) == len(call(served, ON).told["pages"])
    for number, names in enumerate(told, start=1):
        drawn = call(served, f"{ON}/pages/{number}.svg").content.decode()
        assert names
        assert all(f'data-of="{name}"' in drawn for name in names)


def test_a_path_tells_its_wires(served: FastAPI) -> None:
    told = call(served, f"{ON}/parts").told["parts"]
    (heater,) = (one for one in told if one["sort"] == "path" and one["name"] == "heater")
    assert [one["name"] for one in heater["wires"]] == [f"heater {n}" for n in (1, 2, 3)]
    assert heater["wires"][0]["joins"] == "fuse 1 out to heater switch in"
    assert heater["wires"][0]["size"] == "4 mm²"
    assert heater["wires"][0]["long"] == "715 mm"  # 500, 30 a metre, two tails of 100


def test_a_trunk_tells_what_lies_in_it(served: FastAPI) -> None:
    told = call(served, f"{ON}/parts").told["parts"]
    (trunk,) = (one for one in told if one["sort"] == "trunk" and one["name"] == "box to boot")
    assert [one["name"] for one in trunk["wires"]] == ["heater 2"]
    assert trunk["facts"][:2] == ["3000 mm long", "1 wire"]


def test_the_plan_names_its_trunks_and_places_once_they_are_measured(tmp_path: Path) -> None:
    bare = _served(tmp_path, SMALL)
    assert call(bare, f"{ON}/plan.svg").status == 404
    (tmp_path / "more").mkdir()
    text = changed(
        ("{name: box}", "{name: box, at: 300 ahead, off middle: 200 right}"),
        ("{name: dash}", "{name: dash, at: 100 ahead, off middle: 0}"),
    )
    drawn = call(_served(tmp_path / "more", text), f"{ON}/plan.svg").content.decode()
    for name in ("place box", "place dash", "trunk 1"):
        assert f'data-of="{name}"' in drawn
    assert 'data-of="trunk 0"' not in drawn  # nobody has said where the bay is


def test_a_build_without_wiring_has_no_parts_and_nothing_to_stop_at(tmp_path: Path) -> None:
    bare = _served(tmp_path, "build: Larkspur estate\nunit: mm\n")
    assert call(bare, f"{ON}/parts").told["parts"] == []
    assert call(bare, f"{ON}/stops", {}).told == {"stops": [], "ends": "There is no device yet."}


def test_every_offered_stop_is_understood_and_can_be_written(served: FastAPI) -> None:
    wiring = _wiring()
    for goes in ([], ["always"], ["always", "fuse 2"], ["fuse 2", "lamp switch", "lamp"]):
        told = call(served, f"{ON}/stops", {"goes": goes}).told["stops"]
        ways = [way["text"] for one in told for way in one["ways"]]
        assert len(set(ways)) == len(ways) > 20
        for text in ways:
            stop(text, wiring)  # raises where it is none
            assert text not in goes


def test_what_usually_comes_next_comes_first(served: FastAPI) -> None:
    def first(*goes: str) -> str:
        told: str = call(served, f"{ON}/stops", {"goes": goes}).told["stops"][0]["sort"]
        return told

    assert first() == "feed"
    assert first("always") == "fuse"
    assert first("always", "fuse 2") == "switch"
    assert first("always", "fuse 2", "lamp switch") == "load"
    assert first("always", "fuse 2", "lamp switch", "lamp") == "ground"


def test_a_path_ends_at_its_ground_and_what_is_no_stop_is_said(served: FastAPI) -> None:
    ended = call(served, f"{ON}/stops", {"goes": ["lamp", "dash stud"]}).told
    assert ended == {"stops": [], "ends": "A path ends at its ground."}
    wrong = call(served, f"{ON}/stops", {"goes": ["lantern"]}).told
    assert wrong["stops"] == []
    assert "a device of this wiring" in wrong["ends"]


def test_terminals_of_a_relay_are_offered_by_number(tmp_path: Path) -> None:
    relays = "  relays:\n    - {name: fan relay, at: box}\n"
    served = _served(tmp_path, changed(("  loads:\n", f"{relays}  loads:\n")))
    told = call(served, f"{ON}/stops", {"goes": ["always", "fuse 1"]}).told["stops"]
    (relay,) = (one for one in told if one["device"] == "fan relay")
    texts = [way["text"].removeprefix("fan relay ") for way in relay["ways"]]
    assert texts[:3] == ["30-87", "30-87a", "86-85"]
    assert {"30", "87", "87a", "85", "86"} < set(texts)
    behind = call(served, f"{ON}/stops", {"goes": ["fuse 1", "fan relay 86-85"]}).told["stops"]
    assert behind[0]["sort"] == "ground"


def test_terminals_that_a_path_meets_already_name_it(served: FastAPI) -> None:
    told = call(served, f"{ON}/stops", {"goes": ["always"]}).told["stops"]
    by = {way["text"]: way["by"] for one in told for way in one["ways"]}
    assert by["fuse 1"] == ["heater"]
    assert by["lamp +"] == ["lamp"]


def test_a_load_that_waits_gets_a_whole_circuit_that_the_file_takes(tmp_path: Path) -> None:
    served = _served(tmp_path, _with_fan())
    (fan,) = (one for one in call(served, f"{ON}/parts").told["parts"] if one["waits"])
    assert fan["name"] == "fan"
    told = call(served, f"{ON}/circuit", {"load": "fan"}).told
    assert told["says"].startswith("Wire fan: 1 fuse")
    body = {"base": told["version"], "edits": told["edits"], "says": "Draw the circuit of fan"}
    assert call(served, f"{BUILD}/edits", body).status == 200
    after = call(served, f"{ON}/parts").told["parts"]
    assert not any(one["waits"] for one in after)
    (path,) = (one for one in after if one["sort"] == "path" and one["name"] == "fan")
    assert len(path["wires"]) > 1
    assert call(served, f"{ON}/circuit", {"load": "fan"}).status == 404


def test_a_load_of_which_nothing_is_known_says_what_is_missing(tmp_path: Path) -> None:
    served = _served(tmp_path, _with_fan().replace("takes: 4 A, ", ""))
    told = call(served, f"{ON}/circuit", {"load": "fan"}).told
    assert told["edits"] == []
    assert told["says"] == "Missing: what fan takes."


def test_a_part_is_called_otherwise_everywhere_in_one_step(served: FastAPI) -> None:
    told = call(served, f"{ON}/rename", {"path": ["wiring", "places", 1], "name": "fuse box"}).told
    assert told["says"] == "It is named in 7 more places."
    body = {"base": told["version"], "edits": told["edits"], "says": "Call box fuse box"}
    before = call(served, f"{BUILD}/fields").told["root"]
    assert call(served, f"{BUILD}/edits", body).status == 200
    names = [one["name"] for one in call(served, f"{ON}/parts").told["parts"]]
    assert "fuse box to boot" in names
    assert "box" not in names
    assert call(served, f"{BUILD}/undo", {}).status == 200
    assert call(served, f"{BUILD}/fields").told["root"] == before


def test_a_name_that_is_taken_is_a_fault_of_its_field(served: FastAPI) -> None:
    asked = {"path": ["wiring", "fuses", 1], "name": "fuse 2"}
    refused = call(served, f"{ON}/rename", asked)
    assert refused.status == 422
    assert refused.told[0]["path"] == ["wiring", "fuses", 1, "name"]


def test_what_goes_with_a_part_is_said_before_it_goes(served: FastAPI) -> None:
    told = call(served, f"{ON}/without", {"path": ["wiring", "loads", 1]}).told
    assert told["says"] == "With it goes the path lamp."
    told = call(served, f"{ON}/without", {"path": ["wiring", "fuses", 1]}).told
    assert told["says"] == "Its wires are joined in heater."
    told = call(served, f"{ON}/without", {"path": ["wiring", "places", 3]}).told
    assert told["edits"] == []
    assert told["says"].startswith("Named by the trunk box to boot, ")
    assert call(served, f"{ON}/without", {"path": ["car", "tunnel", 3]}).told["edits"] == []
