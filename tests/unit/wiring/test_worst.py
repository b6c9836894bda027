"""The combination of all else that is worst, where everything on is not."""

from tests.small_wiring import outcome
from trimwright.wiring import Electrics, Supply, combination, most_a
from trimwright.wiring.use import Row

MODE = "ignition on, engine stopped"
# a relay that takes the heater off while a small lamp is on
CUT = (
    ("  loads:\n", "  relays:\n    - {name: cut relay}\n  loads:\n    - {name: sign, kind: lamp, takes: 5 W}\n"),
    ("    - {name: lamp switch", "    - {name: sign switch, at: dash}\n    - {name: lamp switch"),
    ("heater switch, heater, tail", "heater switch, cut relay 30-87a, heater, tail"),
)  # fmt: skip
CUTS = """    - {name: sign, goes: [always, sign switch, sign, dash stud], size: 1 mm2}
    - {name: cut, goes: [sign switch out, cut relay 86-85, dash stud], size: 1 mm2}
"""
# a switch with a small load on one throw and the heater on the other
EITHER = (
    ("{name: heater switch, at: dash", "{name: heater switch, contacts: changeover, at: dash"),
    ("  loads:\n", "  loads:\n    - {name: sign, kind: lamp, takes: 5 W}\n"),
    ("heater switch, heater, tail", "heater switch in-rest, heater, tail"),
)
THROWN = "    - {name: sign, goes: [heater switch worked, sign, dash stud], size: 1 mm2}\n"
# a motor that is on for moments, beside what lasts
MOMENTS = (
    ("  loads:\n", "  loads:\n    - {name: motor, kind: motor, takes: 20 A, on for: 5 s}\n"),
    ("    - {name: lamp switch", "    - {name: motor button, at: dash, action: momentary}\n    - {name: lamp switch"),
)  # fmt: skip
RUN = "    - {name: motor, goes: [always, motor button, motor, dash stud], size: 4 mm2}\n"
SIGN = "    - {name: sign, goes: [fuse 1, sign switch, sign, dash stud], size: 1 mm2}\n"
# a motor that goes either way
TURNED = (
    ("  loads:\n", "  loads:\n    - {name: window, kind: motor, takes: 8 A, on for: 6 s}\n"),
    ("    - {name: lamp switch", "    - {name: rocker, at: dash, contacts: reversing, action: momentary}\n    - {name: lamp switch"),
)  # fmt: skip
TURNS = """    - {name: window, goes: [always, fuse 2, rocker feed], size: 4 mm2}
    - {name: up, goes: [rocker a, window a], size: 4 mm2}
    - {name: down, goes: [window b, rocker b], size: 4 mm2}
    - {name: back, goes: [rocker ground, dash stud], size: 4 mm2}
"""


def solved(*swaps: tuple[str, str], more: str = "") -> Electrics:
    own = outcome(*swaps, more=more).electrics
    assert own is not None
    return own


def of(own: Electrics, name: str) -> tuple[Supply, Row]:
    (supply,) = [
        one for one in own.supplies if one.use.consumer.name == name and one.use.mode.name == MODE
    ]
    return supply, own.rows[supply.worst_in]


def test_what_an_interlock_takes_off_is_on_in_the_worst_for_another() -> None:
    own = solved(*CUT, more=CUTS)
    supply, row = of(own, "lamp")
    assert row.on == {"lamp", "heater"}
    assert supply.worst_v is not None
    all_worked = [
        n for n, one in enumerate(own.rows) if one.mode.name == MODE and {"sign", "lamp"} <= one.on
    ]
    place = own.solved.circuit.element("lamp")
    assert all(own.solved.across[n, place] > supply.worst_v + 0.02 for n in all_worked)


def test_the_throw_that_draws_more_is_on_in_the_worst() -> None:
    _, row = of(solved(*EITHER, more=THROWN), "lamp")
    assert row.on == {"lamp", "heater"}
    assert dict(row.state.facts)["heater switch"] == "rest"


def test_what_is_on_for_moments_is_left_out_of_what_lasts_with_all_else_on() -> None:
    own = solved(*MOMENTS, more=RUN)
    amps, state = most_a(own, "main fuse", lasting=True)
    assert own.rows[state].on == {"heater", "lamp"}
    most, peak = most_a(own, "main fuse", lasting=False)
    assert own.rows[peak].on == {"heater", "lamp", "motor"}
    assert most > amps + 15


def test_the_current_of_a_fuse_is_worst_with_nothing_else_on_where_its_load_is_a_resistance() -> (
    None
):
    own = solved(*MOMENTS, more=RUN)
    _, state = most_a(own, "fuse 1", lasting=False)
    assert own.rows[state].on == {"heater"}
    assert own.rows[state].mode.engine == "running"


def test_the_combination_is_told_in_words_with_how_it_was_found() -> None:
    own = solved(*MOMENTS, more=RUN)
    supply, _ = of(own, "lamp")
    assert combination(own, supply.worst_in, "lamp") == (
        "Found worst with all else on (ignition on, engine stopped): all 8 combinations of switches"
        " and doors were solved."
    )
    _, state = most_a(own, "fuse 1", lasting=False)
    assert combination(own, state).startswith("Found worst with heater on (idling hot): all 8 ")
    _, state = most_a(own, "main fuse", lasting=True)
    assert "with all else on but motor (idling hot)" in combination(own, state)


def test_what_is_lost_on_a_way_counts_only_where_current_goes_that_way() -> None:
    own = solved(*TURNED, more=TURNS)
    supply, _ = of(own, "window")
    both = {dict(row.state.facts)["rocker"] for row in own.rows if "window" in row.on}
    assert both == {"one way", "other way"}
    ways = [one for one in own.supplies if one.use.consumer.name == "window"]
    assert all(0 < one.lost * 12.0 < 1.0 for one in ways)
    assert set(supply.use.path.parts) <= own.rows[supply.lost_in].closed


def test_what_lasts_through_a_fuse_is_worst_without_what_is_on_for_moments_and_without_others() -> (
    None
):
    shared = ("goes: [always, motor button", "goes: [fuse 1, motor button")
    own = solved(
        *MOMENTS,
        ("  loads:\n", "  loads:\n    - {name: sign, kind: lamp, takes: 21 W}\n"),
        (
            "    - {name: lamp switch",
            "    - {name: sign switch, at: dash}\n    - {name: lamp switch",
        ),
        more=RUN.replace(*shared) + SIGN,
    )
    _, state = most_a(own, "fuse 1", lasting=True)
    assert own.rows[state].on == {"heater", "sign"}
    _, state = most_a(own, "fuse 1", lasting=False)
    assert own.rows[state].on == {"heater", "sign", "motor"}
