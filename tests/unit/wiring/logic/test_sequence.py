"""The steps from rest to an offence, in circuits that are known by heart."""

import pytest
from msgspec.structs import replace

from tests.unit.wiring.logic.known_circuit import (
    BUZZER,
    COURTESY,
    FUEL_PUMP,
    SELF_HOLDING,
)
from trimwright.wiring.logic import (
    ALWAYS,
    And,
    Condition,
    Contact,
    Fact,
    FactChange,
    Fault,
    Fed,
    Feed,
    Is,
    Load,
    Network,
    Not,
    Pulled,
    RelayMove,
    Rule,
    UnitMove,
    Walker,
    offending_sequence,
    verdicts,
)

SHUT = Rule("shut", "never", Fed("courtesy lamp"), Is("door", "shut"))
OPEN = Rule("open", "always", Fed("courtesy lamp"), Is("door", "open"))


def test_a_relay_holds_after_its_button_is_released() -> None:
    rule = Rule("start", "never", Fed("pump"), Is("start", "released"))
    found = offending_sequence(SELF_HOLDING, rule)
    assert found.answer == "broken"
    assert found.steps == (
        FactChange((("start", "pressed"),)),
        RelayMove("K1", pulls_in=True),
        FactChange((("start", "released"),)),
    )
    assert found.paths[0].to == ("stop button", "K1 30-87")


def test_the_lamp_stays_lit_after_the_door_is_shut() -> None:
    found = offending_sequence(COURTESY, SHUT)
    assert found.steps == (
        FactChange((("door", "open"),)),
        UnitMove("lamp unit", "lit"),
        FactChange((("door", "shut"),)),
        UnitMove("lamp unit", "after"),
    )


def test_with_the_key_on_the_lamp_goes_out_with_the_door() -> None:
    assert offending_sequence(COURTESY, replace(SHUT, unless=Is("key", "off"))).answer == "kept"


def test_a_lamp_lit_at_once_is_lit_whenever_the_door_is_open() -> None:
    assert offending_sequence(COURTESY, OPEN).answer == "kept"
    assert verdicts(COURTESY, [OPEN])[0].answer == "proven"


def test_a_wait_that_runs_out_is_a_step() -> None:
    dark = Rule("dark", "always", Not(Is("lamp unit", "dark")), Is("key", "off"))
    unit = COURTESY.units[0]
    net = replace(COURTESY, units=(replace(unit, states=("lit", "after", "dark")),))
    assert offending_sequence(net, dark).steps == (
        UnitMove("lamp unit", "after"),
        UnitMove("lamp unit", "dark"),
    )


def test_a_fault_in_the_units_door_wire_keeps_the_lamp_dark() -> None:
    found = offending_sequence(COURTESY, OPEN, Fault("wire broken", "door wire"))
    assert found.steps == (FactChange((("door", "open"),)),)
    assert "door wire" not in found.paths[0].to  # the unit does not know; its own output is open
    assert found.paths[0].gaps == ("lamp output",)


def test_facts_that_a_constraint_ties_change_together() -> None:
    rule = Rule("oil", "never", Fed("fuel pump"), Is("oil pressure", "up"))
    found = offending_sequence(FUEL_PUMP, rule)
    assert found.steps == (
        FactChange((("key", "on"),)),
        FactChange((("engine", "running"), ("oil pressure", "up"))),
    )


def test_a_state_that_finds_no_rest_is_told() -> None:
    found = offending_sequence(BUZZER, Rule("bulb", "never", Fed("bulb")))
    assert found.answer == "kept"
    assert found.restless is not None
    assert dict(found.restless.facts) == {"key": "on"}


def test_a_state_that_only_a_latch_could_be_in_has_no_way_to_it() -> None:
    first, start, hold = SELF_HOLDING.contacts
    net = replace(SELF_HOLDING, contacts=(first, replace(start, when=Pulled("K1")), hold))
    rule = Rule("never", "never", Fed("pump"))
    assert verdicts(net, [rule])[0].answer == "broken"
    assert offending_sequence(net, rule).answer == "kept"


def test_what_was_not_looked_at_to_the_end_is_not_called_kept() -> None:
    assert offending_sequence(COURTESY, OPEN, most_states=1).answer == "unfinished"


def test_rest_against_a_constraint_is_refused() -> None:
    net = replace(COURTESY, constraints=(Not(Is("door", "shut")),))
    with pytest.raises(ValueError, match="facts at rest must keep every constraint"):
        offending_sequence(net, Rule("any", "never", Fed("courtesy lamp"), ALWAYS))


def test_what_is_asked_one_after_another_is_answered_as_if_it_were_asked_alone() -> None:
    lit = Fed("courtesy lamp")
    asked: list[Condition] = [
        And((lit, Is("door", "shut"))),
        lit,
        And((Not(lit), Is("door", "open"))),
        lit,
    ]
    walker = Walker(COURTESY)
    assert [walker.soonest(one) for one in asked] == [Walker(COURTESY).soonest(n) for n in asked]
    assert walker.soonest(asked[0]).steps[-1] == UnitMove("lamp unit", "after")
    assert Walker(COURTESY).soonest(asked[0], most_states=1).unfinished


def test_two_lamps_that_know_nothing_of_each_other_are_each_led_to() -> None:
    names = ("left", "right")
    net = Network(
        facts=tuple(Fact(one, ("open", "shut")) for one in names),
        contacts=tuple(Contact(one, "plus", f"{one} in", Is(one, "shut")) for one in names),
        feeds=(Feed("battery", "plus"),),
        grounds=("minus",),
        loads=tuple(Load(one, f"{one} in", "minus") for one in names),
    )
    walker = Walker(net)
    for one in names:
        assert walker.soonest(Fed(one)).steps == (FactChange(((one, "shut"),)),)
