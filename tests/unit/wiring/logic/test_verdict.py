"""Rules, shorts and single faults of circuits that are known by heart."""

import subprocess
import sys

import pytest
from msgspec.structs import replace

from tests.unit.wiring.logic.known_circuit import (
    DOOR_LOCK,
    FUEL_PUMP,
    H_BRIDGE,
    HALL_LAMP,
    SELF_HOLDING,
    WINDOW,
)
from trimwright.wiring.logic import (
    ALWAYS,
    And,
    Closed,
    Coil,
    Contact,
    Fact,
    Fault,
    Fed,
    Feed,
    Is,
    Join,
    Live,
    Load,
    Network,
    Not,
    Or,
    Path,
    Pulled,
    Rule,
    Settler,
    State,
    Verdict,
    contradictions,
    fault_breaks,
    shorts,
    verdicts,
)

UP, DOWN = Is("window switch", "up"), Is("window switch", "down")
ALIKE = Or(
    (
        And((Is("front switch", "up"), Is("rear switch", "up"))),
        And((Is("front switch", "down"), Is("rear switch", "down"))),
    )
)
PUMP = Rule("pump", "never", Fed("fuel pump"), Not(Is("engine", "running")), Is("key", "start"))
LOCK = Rule("lock", "never", Fed("lock motor"), Is("door", "open"))


def verdict(net: Network, rule: Rule) -> Verdict:
    return verdicts(net, [rule])[0]


def breaking(net: Network, rule: Rule) -> set[Fault]:
    return {found.fault for found in fault_breaks(net, [rule])}


def test_either_switch_changes_the_hall_lamp() -> None:
    lit = Rule("lit", "always", Fed("hall lamp"), ALIKE)
    dark = Rule("dark", "never", Fed("hall lamp"), Not(ALIKE))
    assert [found.answer for found in verdicts(HALL_LAMP, [lit, dark])] == ["proven"] * 2


def test_the_hall_lamp_is_shown_lit_with_the_way_the_current_takes() -> None:
    found = verdict(HALL_LAMP, Rule("never", "never", Fed("hall lamp")))
    assert found.example is not None
    assert found.example.state.facts == (("front switch", "up"), ("rear switch", "up"))
    way = ("fuse 3", "front up", "rear up", "lamp wire")
    assert found.example.paths == (Path("battery", way, "hall lamp", (), "31", ()),)


def test_a_lamp_that_stays_dark_is_shown_with_what_is_open_on_its_way() -> None:
    found = verdict(HALL_LAMP, Rule("always", "always", Fed("hall lamp")))
    assert found.example is not None
    assert found.example.state.facts == (("front switch", "up"), ("rear switch", "down"))
    (path,) = found.example.paths
    assert len(path.gaps) == 1
    assert path.gaps[0] in path.to


def test_the_pump_runs_without_the_engine_only_while_the_starter_turns() -> None:
    assert verdict(FUEL_PUMP, PUMP).answer == "proven"


def test_without_its_exception_the_pump_rule_is_broken_by_turning_the_key_to_start() -> None:
    found = verdict(FUEL_PUMP, replace(PUMP, unless=Or(())))
    assert found.answer == "broken"
    assert found.example is not None
    assert found.example.state == State(
        (("key", "start"), ("engine", "stopped"), ("oil pressure", "low")), ("K1",)
    )


def test_what_a_welded_contact_does_to_the_pump_is_told_with_its_state() -> None:
    found = {one.fault: one.example for one in fault_breaks(FUEL_PUMP, [PUMP])}
    welded = {Fault("contact welded", name) for name in ("oil pressure switch", "K1 30-87")}
    assert found.keys() == welded
    example = found[Fault("contact welded", "K1 30-87")]
    assert example.state.facts[0] == ("key", "on")
    assert example.paths[0].to == ("fuse 11", "K1 30-87")


def test_the_lock_does_not_work_while_the_door_is_open() -> None:
    assert verdict(DOOR_LOCK, LOCK).answer == "proven"
    assert breaking(DOOR_LOCK, LOCK) == {
        Fault("contact welded", "door switch"),
        Fault("contact welded", "K1 30-87"),
    }


def test_the_lock_fails_to_work_when_anything_on_its_ways_opens() -> None:
    rule = Rule(
        "locks", "always", Fed("lock motor"), Is("lock button", "pressed"), Is("door", "open")
    )
    assert verdict(DOOR_LOCK, rule).answer == "proven"
    opened = {Fault("contact open", name) for name in ("lock button", "door switch", "K1 30-87")}
    more = {Fault("wire broken", "coil wire"), Fault("ground lost", "31"), Fault("coil open", "K1")}
    assert breaking(DOOR_LOCK, rule) == opened | more


def test_the_window_motor_turns_either_way_and_rests_on_ground() -> None:
    rules = [
        Rule("turns", "always", Fed("window motor"), Or((UP, DOWN))),
        Rule("rests", "never", Fed("window motor"), Is("window switch", "rest")),
        Rule("up", "always", And((Live("M+"), Not(Live("M-")))), UP),
        Rule("down", "always", And((Live("M-"), Not(Live("M+")))), DOWN),
    ]
    assert [found.answer for found in verdicts(WINDOW, rules)] == ["proven"] * 4
    assert shorts(WINDOW) == ()


def test_both_sides_of_a_bridge_closed_are_a_short() -> None:
    (found,) = shorts(H_BRIDGE)
    assert found.feed == "battery"
    assert found.example.state.facts == (("forward", "on"), ("reverse", "on"))
    assert found.example.paths == (Path("battery", (), "", ("high left", "low left"), "31", ()),)


def test_a_constraint_takes_the_short_away() -> None:
    never_both = Not(And((Is("forward", "on"), Is("reverse", "on"))))
    assert shorts(replace(H_BRIDGE, constraints=(never_both,))) == ()


def test_the_stop_button_beats_the_relay_that_holds_itself() -> None:
    rule = Rule("stop", "never", Fed("pump"), Is("stop", "pressed"))
    assert verdict(SELF_HOLDING, rule).answer == "proven"
    assert breaking(SELF_HOLDING, rule) == {Fault("contact welded", "stop button")}


def test_a_relay_that_held_itself_is_found_with_the_button_released() -> None:
    found = verdict(SELF_HOLDING, Rule("start", "never", Fed("pump"), Is("start", "released")))
    assert found.example is not None
    assert found.example.state == State((("start", "released"), ("stop", "released")), ("K1",))
    assert found.example.paths[0].to == ("stop button", "K1 30-87")


def test_a_dead_ring_does_not_feed_itself() -> None:
    ring = tuple(Join(a + b, a, b) for a, b in ("ab", "bc", "ca"))
    net = Network(
        joins=ring,
        contacts=(Contact("K1 30-87", "a", "b", Pulled("K1")),),
        feeds=(Feed("battery", "30"),),
        grounds=("31",),
        coils=(Coil("K1", "a", "31"),),
        loads=(Load("lamp", "b", "31"),),
    )
    assert verdict(net, Rule("dead", "never", Fed("lamp"))).answer == "proven"
    assert Settler(net).settings(()) == (State(()),)


def test_a_load_is_not_a_way_for_current_to_another() -> None:
    net = Network(
        feeds=(Feed("battery", "30"),),
        grounds=("31",),
        loads=(Load("first", "30", "between"), Load("second", "between", "31")),
    )
    assert verdict(net, Rule("series", "never", Fed("second"))).answer == "proven"


def test_a_load_at_a_node_of_its_own_is_never_fed() -> None:
    net = Network(feeds=(Feed("battery", "30"),), loads=(Load("lamp", "a", "b"),))
    assert verdict(net, Rule("loose", "always", Fed("lamp"))).answer == "broken"


def test_a_feed_that_dies_while_cranking_leaves_its_load_dead() -> None:
    net = Network(
        facts=(Fact("engine", ("stopped", "cranking")),),
        feeds=(Feed("radio feed", "15r", Not(Is("engine", "cranking"))),),
        grounds=("31",),
        loads=(Load("radio", "15r", "31"),),
    )
    assert verdict(net, Rule("plays", "always", Fed("radio"))).answer == "broken"
    cranking = Is("engine", "cranking")
    assert verdict(net, Rule("plays", "always", Fed("radio"), ALWAYS, cranking)).answer == "proven"


def test_what_no_state_asks_for_is_said_to_be_vacuous() -> None:
    both = And((UP, DOWN))
    assert verdict(WINDOW, Rule("both", "never", Fed("window motor"), both)).answer == "vacuous"
    assert verdict(WINDOW, Rule("but", "never", Fed("window motor"), UP, UP)).answer == "vacuous"


def test_rules_that_cannot_both_be_kept_are_named_with_a_state() -> None:
    never = Rule("never", "never", Fed("window motor"), Not(DOWN))
    always = Rule("always", "always", Fed("window motor"), Or((UP, DOWN)))
    (found,) = contradictions(WINDOW, [always, never])
    assert (found.never, found.always) == (never, always)
    assert found.example.state.facts == (("window switch", "up"),)
    assert contradictions(WINDOW, [replace(never, unless=UP), always]) == ()


def test_a_contact_and_a_relay_may_be_what_a_rule_is_about() -> None:
    rules = [
        Rule("contact", "never", Closed("K1 30-87"), Not(UP)),
        Rule("relay", "always", Pulled("K2"), DOWN),
        Rule("wrong", "never", Closed("K1 30-87a"), DOWN),
    ]
    assert [found.answer for found in verdicts(WINDOW, rules)] == ["proven", "proven", "broken"]


def test_the_plainest_state_has_as_few_facts_off_rest_as_can_be() -> None:
    facts = tuple(Fact(f"switch {k}", ("open", "shut")) for k in range(6))
    ladder = tuple(
        Contact(f"a{k}", f"n{k}", f"n{k + 1}", Is(f"switch {k}", "shut")) for k in range(5)
    )
    either = Contact("b", "n0", "n4", Is("switch 5", "shut"))
    net = Network(
        facts=facts,
        contacts=(*ladder, either),
        feeds=(Feed("battery", "n0"),),
        grounds=("31",),
        loads=(Load("lamp", "n5", "31"),),
    )
    found = verdict(net, Rule("lamp", "never", Fed("lamp")))
    assert found.example is not None
    shut = [name for name, value in found.example.state.facts if value == "shut"]
    assert shut == ["switch 4", "switch 5"]


@pytest.mark.parametrize("turn", range(6))
def test_one_switch_is_told_rather_than_five_that_do_the_same(turn: int) -> None:
    facts = [Fact(f"switch {k}", ("open", "shut")) for k in range(6)]
    ladder = tuple(
        Contact(f"a{k}", f"n{k}", f"n{k + 1}", Is(f"switch {k}", "shut")) for k in range(5)
    )
    net = Network(
        facts=(*facts[turn:], *facts[:turn]),
        contacts=(*ladder, Contact("b", "n0", "n5", Is("switch 5", "shut"))),
        feeds=(Feed("battery", "n0"),),
        grounds=("31",),
        loads=(Load("lamp", "n5", "31"),),
    )
    found = verdict(net, Rule("lamp", "never", Fed("lamp")))
    assert found.example is not None
    assert [name for name, value in found.example.state.facts if value == "shut"] == ["switch 5"]


@pytest.mark.parametrize(
    "subject", [Fed("horn"), Pulled("K9"), Live("nowhere"), Closed("K9 30"), Is("key", "on")]
)
def test_a_rule_on_what_is_not_there_is_refused(subject: Fed) -> None:
    with pytest.raises(ValueError, match="must name what the network has"):
        verdicts(WINDOW, [Rule("wrong", "never", subject)])


def test_a_name_given_twice_is_refused() -> None:
    with pytest.raises(ValueError, match=r"joins and contacts .* twice: one$"):
        Network(joins=(Join("one", "a", "b"), Join("one", "b", "c")))


def test_a_contact_may_not_hang_on_what_is_live() -> None:
    with pytest.raises(ValueError, match="must name what the network has"):
        Network(contacts=(Contact("one", "a", "b", Live("a")),))


def test_without_rules_no_solver_is_loaded() -> None:
    text = (
        "import sys; from trimwright.wiring.logic import *;"
        "net = Network(feeds=(Feed('battery', '30'),));"
        "assert verdicts(net, ()) == fault_breaks(net, ()) == contradictions(net, ()) == ();"
        "sys.exit('pysat' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", text], check=False).returncode == 0  # noqa: S603  our own words
