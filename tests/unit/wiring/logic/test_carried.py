"""Which facts reach what a rule is about."""

from msgspec.structs import replace

from tests.unit.wiring.logic.known_circuit import COURTESY, DOOR_LOCK, FUEL_PUMP, WINDOW
from trimwright.wiring.logic import (
    And,
    Fact,
    Fed,
    Feed,
    Grounded,
    Is,
    Join,
    Network,
    Not,
    Pulled,
    Rule,
    known_facts,
    uninformed,
    verdicts,
)

RUNS = Is("engine", "running")


def test_a_fact_is_carried_through_a_relay_and_its_ground_side() -> None:
    rule = Rule("lock", "never", Fed("lock motor"), Is("door", "open"))
    assert known_facts(rule, DOOR_LOCK) == ("door", "lock button")
    assert uninformed(rule, DOOR_LOCK) == ()


def test_a_fact_is_carried_into_a_unit() -> None:
    rule = Rule("shut", "never", Fed("courtesy lamp"), Is("door", "shut"), Is("key", "off"))
    assert known_facts(rule, COURTESY) == ("door", "key")
    assert uninformed(rule, COURTESY) == ()


def test_a_fact_that_works_only_another_circuit_is_not_carried() -> None:
    rule = Rule("relay", "never", Pulled("K1"), Is("oil pressure", "up"))
    assert known_facts(rule, FUEL_PUMP) == ("key",)
    assert uninformed(rule, FUEL_PUMP) == ("oil pressure",)


def test_a_fact_that_nothing_follows_is_known_to_no_wire() -> None:
    net = replace(WINDOW, facts=(*WINDOW.facts, Fact("rear door", ("shut", "open"))))
    rule = Rule("door", "never", Fed("window motor"), Is("rear door", "open"))
    assert uninformed(rule, net) == ("rear door",)


def test_what_a_pressure_switch_follows_tells_of_the_engine() -> None:
    rule = Rule("pump", "never", Fed("fuel pump"), Not(RUNS))
    assert known_facts(rule, FUEL_PUMP) == ("key", "oil pressure")
    assert uninformed(rule, FUEL_PUMP) == ()


def test_the_key_alone_does_not_tell_whether_the_engine_runs() -> None:
    no_switch = tuple(one for one in FUEL_PUMP.contacts if one.name != "oil pressure switch")
    net = replace(FUEL_PUMP, contacts=no_switch)
    rule = Rule("pump", "never", Fed("fuel pump"), Not(RUNS), Is("key", "start"))
    assert known_facts(rule, net) == ("key",)
    assert uninformed(rule, net) == ("engine",)


def test_what_makes_a_feed_live_decides_whether_ground_gets_past_it() -> None:
    net = Network(
        facts=(Fact("key", ("off", "on")),),
        joins=(Join("one", "31", "15"), Join("other", "15", "lamp")),
        feeds=(Feed("ignition", "15", Is("key", "on")),),
        grounds=("31",),
    )
    rule = Rule("earth", "always", Grounded("lamp"), Is("key", "off"))
    assert known_facts(rule, net) == ("key",)
    rules = [rule, replace(rule, when=Is("key", "on"))]
    assert [found.answer for found in verdicts(net, rules)] == ["proven", "broken"]


def test_a_ground_that_is_a_feed_now_and_then_is_moved_by_what_makes_it_live() -> None:
    net = Network(
        facts=(Fact("key", ("off", "on")),),
        feeds=(Feed("ignition", "post", Is("key", "on")),),
        grounds=("post",),
    )
    rule = Rule("earth", "always", Grounded("post"), Is("key", "off"))
    assert known_facts(rule, net) == ("key",)
    rules = [rule, replace(rule, when=Is("key", "on"))]
    assert [found.answer for found in verdicts(net, rules)] == ["proven", "broken"]


def test_a_fact_named_in_an_exception_counts() -> None:
    rule = Rule("relay", "never", Pulled("K1"), Is("key", "start"), RUNS)
    assert uninformed(rule, FUEL_PUMP) == ("engine",)


def test_what_the_carried_facts_settle_between_them_is_known() -> None:
    # while it cranks, pressure may be up or not: it tells of a stalled engine only with the key
    stalled = And((Is("engine", "stopped"), Is("key", "on")))
    told = Rule("pump", "never", Fed("fuel pump"), stalled)
    assert uninformed(told, FUEL_PUMP) == ()
    assert uninformed(replace(told, when=Is("engine", "stopped")), FUEL_PUMP) == ("engine",)
