"""A build's wiring as contacts: what is joined in which position of key, engine and switches."""

from tests.small_wiring import outcome, wiring
from trimwright.wiring import WiringOutcome
from trimwright.wiring.contacts import contact_network
from trimwright.wiring.logic import And, Board, Fed, Is, Prover, at_rest
from trimwright.wiring.loom import loom

WINDOW = (
    ("    - {name: lamp switch, at: dash, carries: 10 A}\n", "    - {name: lamp switch, at: dash, carries: 10 A}\n    - {name: lift, at: dash, contacts: reversing, action: momentary}\n"),
    ("    - {name: lamp, at: dash, kind: LED, takes: 6 W}\n", "    - {name: lamp, at: dash, kind: LED, takes: 6 W}\n    - {name: window, at: boot, kind: motor, takes: 8 A}\n"),
)  # fmt: skip
LIFT = (
    "    - {name: lift feed, goes: [always, lift feed]}\n"
    "    - {name: up, goes: [lift a, window a]}\n"
    "    - {name: down, goes: [window b, lift b]}\n"
    "    - {name: lift ground, goes: [lift ground, dash stud]}\n"
)


def _modes(found: WiringOutcome, name: str) -> set[str]:
    return {use.mode.name for use in found.uses if use.consumer.name == name}


def test_a_feed_is_live_as_its_key_says() -> None:
    found = outcome()
    assert _modes(found, "heater") == {
        "ignition on, engine stopped",
        "cranking",
        "idling hot",
        "running",
    }
    assert "key out" in _modes(found, "lamp")


def test_a_feed_that_dies_while_cranking_feeds_nothing_then() -> None:
    found = outcome(("live: ignition, behind", "live: ignition, cranking: dies, behind"))
    assert "cranking" not in _modes(found, "heater")


def test_a_feed_without_a_supply_is_a_source_of_its_own() -> None:
    found = outcome(("    - {name: keyed, goes: [always, ignition], size: 16 mm2}\n", ""))
    assert [one.name for one in found.network.feeds] == ["ignition", "battery", "alternator B+"]


def test_a_reversing_switch_feeds_its_motor_either_way_and_rests_grounded() -> None:
    own = wiring(*WINDOW, more=LIFT)
    network = contact_network(own, loom(own))
    prover, board = Prover(network), Board(network)
    for way in ("one way", "other way"):
        example = prover.example(And((Fed("window"), Is("lift", way))), Fed("window"))
        assert example is not None
        assert example.paths[0].gaps == ()
    rest = at_rest(board, tuple((fact.name, fact.values[0]) for fact in network.facts))
    assert rest is not None
    assert {"lift a", "lift b"} <= set(rest.grounded)
    assert not board.holds(Fed("window"), rest)


def test_no_engine_runs_with_the_key_out() -> None:
    own = wiring()
    prover = Prover(contact_network(own, loom(own)))
    assert not prover.possible(And((Is("engine", "running"), Is("key", "out"))))
    assert not prover.possible(And((Is("engine", "cranking"), Is("key", "ignition"))))


def test_a_charge_lamp_burns_against_the_rotor_until_the_engine_runs() -> None:
    found = outcome(more="    - {name: charge lamp, goes: [ignition, lamp +]}\n").uses
    assert found
    own = outcome(
        (
            "[always, fuse 2, lamp switch, lamp, dash stud]",
            "[ignition, fuse 2, lamp, alternator D+]",
        )
    )
    assert _modes(own, "lamp") == {"ignition on, engine stopped", "cranking"}


def test_what_nothing_sets_to_work_is_named() -> None:
    found = outcome(("heater switch, heater, tail stud", "heater switch, heater"))
    assert [one.name for one in found.idle] == ["heater"]


def test_a_fuse_boxed_with_two_feeds_joins_them() -> None:
    both = "    - {name: bridge, goes: [ignition, fuse 2]}\n"
    assert "heater" not in {u.consumer.name for u in outcome().uses if u.mode.name == "key out"}
    assert "key out" in _modes(outcome(more=both), "heater")
    assert "key out" in _modes(outcome(more=both), "lamp")
