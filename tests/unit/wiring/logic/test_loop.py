"""What loops of relays do, in circuits that are known by heart."""

import pytest
from msgspec.structs import replace

from tests.unit.wiring.logic.known_circuit import (
    BUZZER,
    COURTESY,
    DOOR_LOCK,
    FUEL_PUMP,
    HALL_LAMP,
    RIVALS,
    SELF_HOLDING,
    WINDOW,
)
from trimwright.wiring.logic import (
    Fact,
    FactChange,
    Fed,
    Is,
    Join,
    Network,
    Not,
    Pulled,
    Rule,
    Settler,
    State,
    Unit,
    loop_findings,
    loops,
    verdicts,
)


@pytest.mark.parametrize("net", [HALL_LAMP, FUEL_PUMP, DOOR_LOCK, WINDOW])
def test_relays_that_do_not_move_each_other_are_no_loop(net: Network) -> None:
    assert loops(net) == ()


def test_a_unit_that_comes_back_to_a_state_need_not_chatter() -> None:
    assert loops(COURTESY) == (("lamp unit",),)
    assert loop_findings(COURTESY) == ()


def test_a_relay_that_holds_itself_latches_while_no_button_is_pressed() -> None:
    assert loops(SELF_HOLDING) == (("K1",),)
    (found,) = loop_findings(SELF_HOLDING)
    facts = (("start", "released"), ("stop", "released"))
    assert (found.kind, found.states) == ("latch", (State(facts), State(facts, ("K1",))))


@pytest.mark.parametrize(
    ("start", "stop", "settings"),
    [
        ("released", "released", [(), ("K1",)]),
        ("pressed", "released", [("K1",)]),
        ("released", "pressed", [()]),
        ("pressed", "pressed", [()]),
    ],
)
def test_settings_of_the_relay_that_holds_itself(
    start: str, stop: str, settings: list[tuple[str, ...]]
) -> None:
    found = Settler(SELF_HOLDING).settings([("start", start), ("stop", stop)])
    assert [state.pulled for state in found] == settings


def test_a_unit_that_nothing_moves_may_stand_in_either_state() -> None:
    net = Network(facts=(Fact("key", ("off", "on")),), units=(Unit("lock", ("open", "shut")),))
    found = Settler(net).settings([("key", "on")])
    assert {state.units for state in found} == {(("lock", "open"),), (("lock", "shut"),)}


def test_settings_are_the_same_when_they_are_asked_for_again() -> None:
    net = Network(facts=(Fact("key", ("off", "on")),), units=(Unit("lock", ("open", "shut")),))
    settler = Settler(net)
    assert settler.settings([("key", "on")], most=1) == settler.settings([("key", "on")])[:1]
    assert len(settler.settings([("key", "off")])) == len(settler.settings([("key", "on")])) == 2


def test_a_coil_behind_its_own_break_contact_chatters() -> None:
    (found,) = loop_findings(BUZZER)
    assert (found.kind, found.loop) == ("chatter", ("K1",))
    assert found.states[0].facts == (("key", "on"),)
    assert len(Settler(BUZZER).settings([("key", "off")])) == 1
    assert Settler(BUZZER).settings([("key", "on")]) == ()


def test_a_rule_on_what_chatters_is_never_called_proven() -> None:
    on = Is("key", "on")
    (found,) = verdicts(BUZZER, [Rule("bulb", "never", Fed("bulb"), on)])
    assert found.answer == "unsettled"


def test_what_chatters_does_not_hide_what_does_not_hang_on_it() -> None:
    (found,) = verdicts(BUZZER, [Rule("lamp", "never", Fed("key lamp"), Is("key", "on"))])
    assert found.answer == "broken"
    assert found.example is not None
    assert found.example.unsettled == ("K1",)


def test_between_two_rivals_the_quicker_wins() -> None:
    latch, race = loop_findings(RIVALS)
    assert [latch.kind, race.kind] == ["latch", "race"]
    assert race.change == FactChange((("key", "on"),))
    assert race.before == State((("key", "off"),))
    assert {state.pulled for state in race.states} == {("K1",), ("K2",)}


def test_rivals_on_a_live_feed_race_as_it_comes_on() -> None:
    net = replace(RIVALS, joins=(Join("feed", "30", "15"),), contacts=RIVALS.contacts[1:])
    _, race = loop_findings(net)
    assert (race.kind, race.before, race.change) == ("race", None, None)
    assert {state.pulled for state in race.states} == {("K1",), ("K2",)}


def test_a_head_start_ends_the_race() -> None:
    first, second, third = RIVALS.contacts
    slower = replace(third, when=Pulled("K1"))
    net = replace(RIVALS, contacts=(first, replace(second, when=Not(Is("key", "off"))), slower))
    assert loop_findings(net) == ()
