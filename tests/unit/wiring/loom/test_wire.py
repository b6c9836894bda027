"""Wires between the stops of paths, and how long to cut them."""

import pytest

from trimwright.build import Wiring, parse
from trimwright.wiring.loom import loom, routes_from

FILE = """build: Larkspur estate
unit: mm
wiring:
  battery: {at: engine bay}
  places:
    - {name: engine bay}
    - {name: fuse box, at: 0, off middle: 0, up: 0}
    - {name: dash, at: 300 behind, off middle: 400 right, up: 0}
    - {name: boot}
  trunks:
    - {from: engine bay, to: fuse box, long: 1000}
    - {from: fuse box, to: dash}
    - {from: engine bay, to: dash, long: 1600}
  feeds:
    - {name: always, at: fuse box}
  grounds:
    - {name: dash stud, at: dash}
    - {name: tail stud, at: boot}
  fuses:
    - {name: fuse 1, at: fuse box, rated: 10 A}
    - {name: fuse 2, rated: 10 A}
  loads:
    - {name: lamp, at: dash, kind: lamp, takes: 10 W}
  paths:
    - {name: lamp, goes: [always, fuse 1, lamp, tail stud], size: 1 mm2, colour: RD}
    - {name: lamp again, goes: [battery +, fuse 2, lamp, dash stud]}
  tail: 50
  slack: 20
"""


def _wiring() -> Wiring:
    found = parse(FILE).build.wiring
    assert found is not None
    return found


def test_neighbours_of_a_path_are_joined_by_one_wire() -> None:
    ends = [(one.name, one.start.node, one.end.node) for one in loom(_wiring()).wires]
    assert ends == [
        ("lamp 1", "fuse 1 out", "lamp +"),
        ("lamp 2", "lamp -", "tail stud stud"),
        ("lamp again 1", "battery +", "fuse 2 in"),
        ("lamp again 2", "fuse 2 out", "lamp +"),
        ("lamp again 3", "lamp -", "dash stud stud"),
    ]


def test_a_feed_and_a_fuse_in_one_box_need_no_wire() -> None:
    (link,) = loom(_wiring()).links
    assert (link.start.node, link.end.node) == ("always out", "fuse 1 in")


def test_a_wire_is_its_way_with_slack_and_two_tails() -> None:
    # fuse box to dash: 300 back and 400 across, so 500 by Pythagoras; 20 for each metre; 2 x 50
    first = loom(_wiring()).wires[0]
    assert first.route is not None
    assert first.route.long_mm == pytest.approx(500)
    assert first.cut_mm == pytest.approx(500 * 1.02 + 100)


def test_what_a_length_waits_for_is_named() -> None:
    waiting = {one.name: one.missing for one in loom(_wiring()).wires if one.cut_mm is None}
    assert waiting == {
        "lamp 2": "a trunk from dash to boot",
        "lamp again 1": "the place of fuse 2",
        "lamp again 2": "the place of fuse 2",
    }


def test_the_shorter_of_two_ways_is_taken() -> None:
    found = routes_from("engine bay", _wiring())
    assert found["dash"].trunks == (0, 1)
    assert found["dash"].long_mm == pytest.approx(1500)
    assert "boot" not in found


def test_a_trunk_names_the_wires_in_it() -> None:
    found = loom(_wiring())
    assert [one.name for one in found.through(1)] == ["lamp 1"]
    assert found.through(0) == ()
