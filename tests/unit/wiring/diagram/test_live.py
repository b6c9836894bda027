"""What is live in a state, on a circuit small enough to be followed with a finger."""

import pytest

from trimwright.build import parse
from trimwright.wiring.contacts import contact_network
from trimwright.wiring.diagram import Live, live
from trimwright.wiring.loom import loom

TEXT = """build: Harlow Petrel
unit: mm
wiring:
  feeds: [{name: always}]
  grounds: [{name: stud}]
  fuses: [{name: fuse, rated: 10 A}]
  switches: [{name: switch}]
  relays: [{name: relay}]
  loads: [{name: lamp, kind: lamp, takes: 21 W}]
  paths:
    - {name: lamp, goes: [always, fuse, relay 30-87, lamp, stud]}
    - {name: worked, goes: [fuse, switch, relay 86-85, stud]}
"""


def seen(switch: str) -> Live | None:
    wiring = parse(TEXT).build.wiring
    assert wiring is not None
    laid = loom(wiring)
    facts = (("key", "out"), ("engine", "stopped"), ("switch", switch))
    return live(laid, contact_network(wiring, laid), facts)


def test_at_rest_only_what_lies_ahead_of_open_contacts_is_live() -> None:
    assert seen("rest") == Live(("lamp 1", "lamp 2", "worked 1"), (), ())


def test_a_worked_switch_pulls_the_relay_in_and_the_lamp_burns() -> None:
    assert seen("worked") == Live(
        ("lamp 1", "lamp 2", "lamp 3", "worked 1", "worked 2"),
        ("switch", "relay 30-87"),
        ("lamp", "relay"),
    )


def test_a_position_that_a_switch_cannot_have_is_refused() -> None:
    with pytest.raises(ValueError, match="facts must say switch: rest, worked, got 'up'"):
        seen("up")
