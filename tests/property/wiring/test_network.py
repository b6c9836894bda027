"""Laws of networks, on random ones."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from tests.invented_circuit import Size, circuit, opened
from trimwright.wiring.network import Battery, Circuit, Resistor, Solved, States, solve

LINEAR = Size(feeds=8, grounds=3, meshes=3, heaters=4, batteries=3)
ALL = Size(feeds=8, grounds=3, heaters=2, lamps=2, electronics=3, batteries=2, alternators=1)
SEEDS = st.integers(0, 2**32 - 1)
CLOSE = 1e-7  # V, A: what is left of 13 figures behind conductances of 1000 S

quick = settings(max_examples=40, deadline=None)


def driven(made: Circuit, states: States, volts: list[float]) -> Solved:
    """Return a network with its batteries at some voltages, solved."""
    given_ = np.zeros(len(made.elements))
    given_[made.kind(Battery)] = volts
    return solve(made, states.given(made.kind(Battery), volts=given_))


@quick
@given(SEEDS)
def test_a_source_here_drives_there_what_the_same_there_drives_here(seed: int) -> None:
    made = circuit(np.random.default_rng(seed), LINEAR)
    first, second = np.flatnonzero(made.kind(Battery))[:2]
    here = driven(made, made.states(), [12.0, 0, 0]).currents[0, second]
    there = driven(made, made.states(), [0, 12.0, 0]).currents[0, first]
    np.testing.assert_allclose(here, there, atol=CLOSE)


@quick
@given(SEEDS, st.tuples(*[st.floats(-20, 20)] * 3))
def test_what_sources_do_together_is_the_sum_of_what_each_does(
    seed: int, volts: tuple[float, float, float]
) -> None:
    made = circuit(np.random.default_rng(seed), LINEAR)
    alone = [driven(made, made.states(), list(np.diag(volts)[k])) for k in range(3)]
    together = driven(made, made.states(), list(volts))
    for name in ("voltages", "currents"):
        parts = sum(getattr(one, name) for one in alone)
        np.testing.assert_allclose(getattr(together, name), parts, atol=CLOSE)


@quick
@given(SEEDS)
def test_voltages_of_one_state_and_currents_of_another_make_no_power(seed: int) -> None:
    # Tellegen's theorem; with one state twice, all power that is given is taken
    rng = np.random.default_rng(seed)
    made = circuit(rng, ALL)
    solved = solve(made, opened(rng, made, 4))
    assert not solved.failed.any()
    whole = ~(solved.floating.any(axis=1) | solved.collapsed.any(axis=1))
    powers = solved.across[whole] @ solved.currents[whole].T
    np.testing.assert_allclose(powers, 0.0, atol=1e-6)


@quick
@given(SEEDS)
def test_what_sources_give_becomes_heat(seed: int) -> None:
    made = circuit(np.random.default_rng(seed), ALL)
    solved = solve(made, made.states())
    battery = made.kind(Battery)
    amps, volts = solved.currents[0], made.states().volts[0]
    alternator = ~battery & (made.states().most_a[0] > 0)
    inner = np.where(alternator, solved.heat[0], 0.0)  # beyond it, its limit is no resistance
    outer = np.where(alternator, solved.across[0] * amps, 0.0)
    given_w = -np.sum(np.where(battery, volts * amps, outer))
    np.testing.assert_allclose(given_w, np.sum(solved.heat[0] - inner), rtol=1e-7)


@quick
@given(SEEDS, st.floats(0.01, 100.0))
def test_the_same_circuit_of_thicker_copper_and_stronger_loads_has_the_same_voltages(
    seed: int, times: float
) -> None:
    made = circuit(np.random.default_rng(seed), ALL)
    one = made.states()
    other = States(
        one.siemens * times,
        one.volts,
        one.watts * times,
        one.most_a * times,
        one.cold_siemens * times,
        one.bypass,
    )
    ours, theirs = solve(made, one), solve(made, other)
    np.testing.assert_allclose(theirs.voltages, ours.voltages, rtol=1e-7, atol=1e-7)
    np.testing.assert_allclose(theirs.currents, times * ours.currents, rtol=1e-6, atol=CLOSE)


@quick
@given(SEEDS)
def test_turning_a_resistor_round_turns_its_current_only(seed: int) -> None:
    rng = np.random.default_rng(seed)
    made = circuit(rng, ALL)
    turn = int(rng.choice(np.flatnonzero(made.kind(Resistor))))
    one = made.elements[turn]
    assert isinstance(one, Resistor)
    back = Resistor(one.name, one.minus, one.plus, one.ohms)
    turned = Circuit(made.reference, (*made.elements[:turn], back, *made.elements[turn + 1 :]))
    ours, theirs = solve(made, made.states()), solve(turned, turned.states())
    same = np.where(np.arange(len(made.elements)) == turn, -1, 1)
    np.testing.assert_allclose(theirs.currents * same, ours.currents, atol=CLOSE)


def sides(rng: np.random.Generator) -> tuple[Circuit, NDArray[np.intp]]:
    """Return one load between a feed and a ground side, any meshes, and which elements are wires."""
    made = circuit(rng, Size(feeds=8, grounds=5, meshes=6, heaters=1))
    wires = [k for k, one in enumerate(made.elements) if one.name.startswith("wire")]
    return made, np.array(wires)


@quick
@given(SEEDS, st.floats(0.001, 10.0))
def test_a_wire_more_never_lowers_the_voltage_of_a_lone_load(seed: int, ohms: float) -> None:
    # Rayleigh's law: with other loads it does not hold, they then take more from a shared feed
    made, wires = sides(np.random.default_rng(seed))
    wider = np.zeros((len(wires) + 1, len(made.elements)), np.bool_)
    wider[np.arange(len(wires)) + 1, wires] = True
    solved = solve(made, made.states(len(wires) + 1).shorted(wider, ohms))
    load = solved.across[:, made.element("heater 0")]
    assert (load >= load[0] - 1e-9).all()


@quick
@given(SEEDS)
def test_with_one_ground_no_load_that_goes_off_lowers_a_voltage(seed: int) -> None:
    rng = np.random.default_rng(seed)
    made = circuit(rng, Size(feeds=8, grounds=1, lamps=2, electronics=2))
    loads = np.array([one.name[:4] in ("heat", "lamp", "driv") for one in made.elements])
    off = np.zeros((2, len(loads)), np.bool_)
    off[1] = loads & (rng.random(len(loads)) < 1 / 2)
    solved = solve(made, made.states(2).opened(off))
    if not (solved.dropped.any() or solved.collapsed.any()):
        assert (solved.voltages[1] >= solved.voltages[0] - 1e-9).all()


@quick
@given(SEEDS)
def test_every_state_adds_up_or_says_that_it_does_not(seed: int) -> None:
    rng = np.random.default_rng(seed)
    made = circuit(rng, Size(lamps=3, electronics=6, alternators=2, batteries=2))
    states = opened(rng, made, 4, share=0.25)
    states = states.given(made.kind(Battery), volts=rng.uniform(6, 15, (4, 1)))
    solved = solve(made, states)
    assert not solved.failed.any()
    fed = ~solved.collapsed.any(axis=1)
    sums = np.zeros((4, len(made.nodes)))
    for k, (plus, minus) in enumerate(made.ends.tolist()):
        sums[:, plus] += solved.currents[:, k]
        sums[:, minus] -= solved.currents[:, k]
    np.testing.assert_allclose(sums[fed], 0.0, atol=1e-7)
