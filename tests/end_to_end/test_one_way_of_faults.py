"""The diagram and the meter sheet of the example show the same volts, whatever is wrong."""

from pathlib import Path

import numpy as np

from trimwright.build import Wiring, load
from trimwright.wiring import MeterTable, Probing, lit, meter_table
from trimwright.wiring.logic import Fault

FIRST = Path("examples") / "dunlin" / "first-wired.yaml"
PAIRS = 120
SAME_V = 0.02  # what is not solved for the sheet is taken as with nothing wrong: it carries 2 mA


def _demo() -> tuple[Wiring, MeterTable]:
    own = load(FIRST).build.wiring
    assert own is not None
    table = meter_table(own, "mm")
    assert table is not None
    return own, table


def _on_the_diagram(own: Wiring, one: Probing, fault: Fault) -> float:
    """Return the volts across a load as the diagram has them; nothing where it tells none."""
    facts = dict(one.use.state.facts)
    found = lit(own, "mm", one.use.mode, {**facts, **dict(one.use.state.units)}, fault)
    if found is None:
        return float("nan")
    return dict((*found.on, *found.stray)).get(one.of) or 0.0


def test_every_pair_of_a_state_and_a_fault_that_is_drawn_has_the_same_volts_in_both() -> None:
    own, table = _demo()
    loads = {one.name for one in own.loads}
    read = [n for n, one in enumerate(table.probings) if one.kind == "load" and one.of in loads]
    pairs = [(fault, place) for fault in range(len(table.faults)) for place in read]
    moves = np.abs(table.faulted - table.sound) > SAME_V
    telling = [pair for pair in pairs if moves[pair]]
    rng = np.random.default_rng(20261126)
    some = [telling[n] for n in rng.choice(len(telling), PAIRS // 2, replace=False)]
    some += [pairs[n] for n in rng.choice(len(pairs), PAIRS // 2, replace=False)]
    alike = 0
    for fault, place in some:
        one, shown = table.probings[place], float(table.faulted[fault, place])
        drawn = _on_the_diagram(own, one, table.faults[fault])
        if drawn == 0.0:  # off, let go, or less than a tenth of the feed: the diagram tells none
            continue
        assert (np.isnan(drawn) and np.isnan(shown)) or abs(drawn - abs(shown)) <= SAME_V, (
            one.name,
            table.faults[fault],
            drawn,
            shown,
        )
        alike += 1
    assert alike > PAIRS / 4


def test_a_fault_is_told_of_what_flows_beside_an_alternator_at_its_limit() -> None:
    # at hot idle the alternator gives less than is on with the amplifier, and more without it:
    # its broken wire lets the car's voltage rise from the battery's to the alternator's
    own = load(FIRST.with_name("after-wired.yaml")).build.wiring
    assert own is not None
    table = meter_table(own, "mm")
    assert table is not None
    (place,) = (
        n
        for n, one in enumerate(table.probings)
        if (one.kind, one.of, one.use.mode.name) == ("load", "starter solenoid guard", "idling hot")
    )
    broken = table.faults.index(Fault("wire broken", "amplifier 1"))
    assert table.sound[place] < 12.6
    assert table.faulted[broken, place] > 13.5
