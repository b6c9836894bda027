"""What the rules are timed against finds what the solver finds."""

import pytest

from bench.every_state import any_broken
from bench.interlock import door_shut, kept_out, meshed, wired
from trimwright.wiring.logic import (
    Fed,
    Network,
    Pulled,
    Rule,
    fault_breaks,
    loops,
    single_faults,
    verdicts,
)


@pytest.mark.parametrize("seed", range(4))
def test_looking_at_every_state_of_a_mesh_finds_what_the_solver_finds(seed: int) -> None:
    net = meshed(8, seed)
    assert loops(net) == ()
    for rule in (Rule("lamp", "never", Fed("lamp"), Pulled("K0")), door_shut()):
        assert any_broken(net, rule) == (verdicts(net, [rule])[0].answer == "broken")


@pytest.mark.parametrize(("net", "rule"), [(wired(1), kept_out()), (meshed(6, 1), door_shut())])
def test_looking_at_every_state_finds_the_faults_that_the_solver_finds(
    net: Network, rule: Rule
) -> None:
    breaking = {found.fault for found in fault_breaks(net, [rule])}
    assert breaking == {fault for fault in single_faults(net) if any_broken(net, rule, fault)}
    assert breaking


def test_the_wires_are_forty_and_their_relays_six() -> None:
    net = wired(1)
    assert (len(net.joins), len(net.coils), loops(net)) == (40, 6, ())
    assert verdicts(net, [kept_out()])[0].answer == "proven"
