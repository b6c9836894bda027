"""Five loads and nothing else become a whole wiring by one remedy, in mm and in inches."""

import pytest

from trimwright.build import Load, edited, parse
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.findings import Finding
from trimwright.wiring import MODES, WiringOutcome, wiring_outcome

FIVE = """# what I want in the Larkspur
build: Larkspur estate, five loads
unit: mm   # the tape's
wiring:
  loads:
    - {name: fog lamps, kind: lamp, takes: 110 W, live: ignition, worked by: fog switch}   # heavy
    - {name: seat heater, kind: heater, takes: 5 A, live: ignition, worked by: heater switch}
    - {name: boot light, kind: LED, takes: 6 W, worked by: boot switch}
    - {name: washer pump, kind: motor, takes: 4 A, starts with: 12 A, on for: 5 s, live: accessory,
      worked by: washer switch}
    - {name: charger, kind: electronics, takes: 3 A, live: accessory}
"""
PLACED = """build: Larkspur estate, five loads
unit: in
wiring:
  places:
    - {name: nose, at: 72 ahead, off middle: 4 left, up: 3 up}
    - {name: console, at: 8 behind, off middle: 2 right, up: 7 up}
    - {name: boot, at: 75 behind, off middle: 20 right, up: 2 up}
  loads:
    - {name: fog lamps, at: nose, kind: lamp, takes: 110 W, live: ignition, worked by: fog switch}
    - {name: seat heater, at: console, kind: heater, takes: 5 A, live: ignition, worked by: heater switch}
    - {name: boot light, at: boot, kind: LED, takes: 6 W, worked by: boot switch}
    - {name: washer pump, at: nose, kind: motor, takes: 4 A, starts with: 12 A, on for: 5 s, live: accessory, worked by: washer switch}
    - {name: charger, at: console, kind: electronics, takes: 3 A, live: accessory}
"""
KEYS = {"always": {"out", "accessory", "ignition", "start"}, "accessory": {"accessory", "ignition", "start"}, "ignition": {"ignition", "start"}}  # fmt: skip


def told(text: str) -> dict[str, Finding]:
    """Return the findings of a text by their place."""
    return {one.place: one for one in all_findings(cabin(parse(text).build))}


def wired(text: str) -> str:
    """Return a text with the one remedy for all loads made."""
    return edited(text, told(text)["loads without a circuit"].remedies[0].edits)


def outcome(text: str) -> WiringOutcome:
    """Return what is computed of a text's wiring."""
    build = parse(text).build
    assert build.wiring is not None
    return wiring_outcome(build.wiring, build.unit)


@pytest.mark.parametrize("text", [FIVE, PLACED], ids=["mm", "in"])
def test_every_load_works_with_the_key_where_it_is_to(text: str) -> None:
    found = outcome(wired(text))
    assert found.idle == ()
    for load in found.wiring.loads:
        works = {use.mode.key for use in found.uses if use.consumer.name == load.name}
        assert works == KEYS[load.live or "always"]
    assert {mode.key for mode in MODES} == KEYS["always"]


@pytest.mark.parametrize("text", [FIVE, PLACED], ids=["mm", "in"])
def test_what_was_written_stays_to_the_byte(text: str) -> None:
    after = wired(text).splitlines()
    assert [line for line in text.splitlines() if line not in after] == []


@pytest.mark.parametrize("text", [FIVE, PLACED], ids=["mm", "in"])
def test_nothing_is_stopped_and_what_is_not_known_is_asked_for(text: str) -> None:
    found = told(wired(text))
    assert [
        one.says for one in found.values() if one.rule != "circuits" and one.grade == "stop"
    ] == []
    asked = {missing for one in found.values() for missing in one.missing}
    assert {"the battery: its cranking current, or its inner resistance"} <= asked
    assert {"the place of fog switch", "the place of heater switch"} <= asked


@pytest.mark.parametrize("text", [FIVE, PLACED], ids=["mm", "in"])
def test_with_the_battery_known_every_fuse_contact_and_wire_will_do(text: str) -> None:
    known = wired(text).replace(
        "battery:\n    at: engine bay", "battery:\n    at: engine bay\n    cranks: 480 A"
    )
    assert "cranks" in known
    found = told(known)
    judged = [
        one for one in found.values() if one.rule in ("fuse", "contact", "voltage", "wire size")
    ]
    assert len(judged) >= 6 + 5 + 5  # fuses, contacts, loads
    assert {one.grade for one in judged if one.rule != "voltage"} == {"good"}
    for one in judged:  # a wire is chosen with little else on, its loss told with all on
        if one.grade == "look":  # nobody has said where its switch is, or which way wires go
            assert all(words.startswith(("the place of", "a trunk from")) for words in one.missing)
        elif one.grade != "good":
            assert one.grade == "change"
            after = told(edited(known, one.remedies[0].edits))[one.place]
            assert after.grade == "good" or after.missing
    electrics = outcome(known).electrics
    assert electrics is not None
    assert all(one.needed for one in electrics.sizings)


def test_a_switch_that_cannot_bear_its_load_works_a_relay() -> None:
    # a 12 V lamp asks for 5 times its current [AC 43.13-1B, table 11-4]: 110 W at 13.5 V is 8.15 A
    wiring = parse(wired(FIVE)).build.wiring
    assert wiring is not None
    assert [(one.name, one.carries.text, one.coil_guard) for one in wiring.relays] == [
        ("fog lamps relay", "70 A", "resistor")
    ]
    goes = {one.name: one.goes for one in wiring.paths}
    assert goes["fog lamps"] == ("ignition feed", "fog lamps fuse", "fog lamps relay 30-87", "fog lamps", "body stud")  # fmt: skip
    assert goes["fog lamps worked"] == ("fog lamps fuse", "fog switch", "fog lamps relay 86-85", "body stud")  # fmt: skip
    assert goes["charger"] == ("accessory feed", "charger fuse", "charger", "body stud")


def test_fuses_are_the_smallest_that_bear_what_lasts() -> None:
    # by hand: 5 A at 13.5 V is 5.26 A at 14.2 V, and 0.8 times 7.5 A is 6 A; 6 W at 10.5 V is 0.57 A
    wiring = parse(wired(FIVE)).build.wiring
    assert wiring is not None
    rated = {one.name: one.rated.text for one in wiring.fuses}
    assert rated["seat heater fuse"] == "7.5 A"
    assert rated["boot light fuse"] == "1 A"
    assert rated["charger fuse"] == "5 A"
    assert rated["fog lamps fuse"] == "15 A"


def test_each_load_alone_has_a_remedy_of_its_own_that_works() -> None:
    text, loads = FIVE, ("fog lamps", "seat heater", "boot light", "washer pump", "charger")
    for name in loads:
        found = told(text)
        text = edited(text, found[f"{name} never works"].remedies[0].edits)
        assert f"{name} never works" not in told(text)
    build = parse(text).build
    assert build.wiring is not None
    assert [one.name for one in build.wiring.feeds if one.live == "always"] == ["always"]
    assert outcome(text).idle == ()
    assert all(isinstance(one, Load) for one in build.wiring.loads)
