"""The meter's view: every place to read at, and what was read there judged at once."""

from pathlib import Path
from typing import Any

import pytest
from fastapi import FastAPI

from tests.small_wiring import changed
from tests.unit.app.caller import call
from trimwright.app import Bench, app

BUILD = "/api/builds/larkspur"


def _served(tmp_path: Path, text: str) -> FastAPI:
    path = tmp_path / "larkspur.yaml"
    path.write_text(text, "utf-8")
    return app({"larkspur": Bench(path)})


def _readings(served: FastAPI) -> dict[str, Any]:
    told = call(served, f"{BUILD}/wire/meter").told
    return {one["name"]: one for one in told["readings"]}


def _write(served: FastAPI, name: str, volts: str) -> int:
    base = call(served, BUILD).told["version"]
    count = call(served, f"{BUILD}/wire/meter").told["count"]
    edits = [
        {"path": ["wiring", "readings", count, "reading"], "value": name},
        {"path": ["wiring", "readings", count, "reads"], "value": volts},
    ]
    patch = {"base": base, "says": f"Meter at {name}: {volts}", "edits": edits}
    return call(served, f"{BUILD}/edits", patch).status


@pytest.fixture
def served(tmp_path: Path) -> FastAPI:
    return _served(tmp_path, changed())


def test_a_place_tells_probes_positions_and_what_is_expected(served: FastAPI) -> None:
    one = _readings(served)["heater"]
    assert (one["red"], one["black"]) == ("its +", "its -")
    assert one["stands"] == ["ignition on, engine stopped", "heater switch worked"]
    assert (one["mode"], one["put"]) == (one["stands"][0], {"heater switch": "worked"})
    assert one["low_v"] < one["sound_v"] < one["high_v"]
    assert one["sound_v"] == pytest.approx(12.21, abs=0.005)
    assert one["chosen"]
    assert one["verdict"] == one["reads"] == ""


def test_places_stand_in_the_order_of_the_work(served: FastAPI) -> None:
    modes = [one["mode"] for one in _readings(served).values()]
    assert modes == sorted(modes, key=["key out", "ignition on, engine stopped"].index)


def test_a_reading_is_judged_as_soon_as_it_is_written(served: FastAPI) -> None:
    assert _write(served, "heater", "12.1 V") == 200
    assert _write(served, "lamp", "0 V") == 200
    told = _readings(served)
    assert (told["heater"]["verdict"], told["heater"]["index"]) == ("good", 0)
    assert told["heater"]["likely"] == []
    wrong = told["lamp"]
    assert (wrong["verdict"], wrong["reads"], wrong["index"]) == ("wrong", "0 V", 1)
    said = {one["fault"]["says"]: one for one in wrong["likely"]}
    assert said["fuse 2 blown"]["fits"] == "fits"
    assert wrong["tied"] > 1
    assert wrong["likely"][0]["chance"].endswith(" in 10")
    assert (wrong["nothing"], wrong["other"]) == ("under 1 in 100", "under 1 in 100")
    assert wrong["following"] in told


def test_a_reading_below_nought_goes_in_and_is_judged(served: FastAPI) -> None:
    assert _write(served, "lamp", "-12.5 V") == 200
    one = _readings(served)["lamp"]
    assert one["reads_v"] == -12.5
    assert one["verdict"] == "wrong"
    assert one["likely"] == []  # no single fault turns a lamp round


def test_how_well_a_fault_fits_counts_every_reading(served: FastAPI) -> None:
    # with fuse 2 blown the lamp has nothing; the meter itself may be 20 mV off: what is left of
    # 0.3 V is 0.28 V
    _write(served, "lamp", "0.3 V")
    alone = {one["fault"]["says"]: one["fits"] for one in _readings(served)["lamp"]["likely"]}
    assert alone["fuse 2 blown"] == "0.28 V off"
    _write(served, "heater", "12.1 V")
    both = {one["fault"]["says"]: one["fits"] for one in _readings(served)["lamp"]["likely"]}
    assert both["fuse 2 blown"] == "up to 0.28 V off in 2 readings"


def test_a_likely_fault_can_be_tried_on_the_diagram(served: FastAPI) -> None:
    _write(served, "lamp", "0 V")
    one = _readings(served)["lamp"]
    fault = {key: one["likely"][0]["fault"][key] for key in ("kind", "of")}
    asked = {"mode": one["mode"], "put": one["put"], "fault": fault}
    assert call(served, f"{BUILD}/wire/state", asked).told["tried"]["stopped"] == ["lamp"]


def test_where_nothing_is_solved_readings_are_told_as_lost(tmp_path: Path) -> None:
    more = "  readings:\n    - {reading: lamp, reads: 12 V}\n"
    served = _served(tmp_path, changed((", inside: 10 mohm", ""), more=more))
    told = call(served, f"{BUILD}/wire/meter").told
    assert (told["readings"], told["count"], told["lost"]) == ([], 1, ["lamp"])
