"""Which constant-power loads run, against trying every set of them."""

from itertools import product

import numpy as np
import pytest

from tests.invented_circuit import Size, circuit, opened
from trimwright.wiring.network import Battery, Circuit, ConstantPower, Resistor, Solved, solve

BATTERY = Battery("battery", "b", "0", 12.0, 1.0)


def solved(*loads: ConstantPower) -> Solved:
    """Return loads on 12 V behind 1 ohm, solved."""
    made = Circuit("0", (BATTERY, *loads))
    return solve(made, made.states())


def test_a_load_exactly_at_its_cut_out_stays_on() -> None:
    # 20 W at 10 V: 2 A through 1 ohm
    assert not solved(ConstantPower("radio", "b", "0", 20.0, 10.0 - 1e-9)).dropped.any()


def test_a_load_below_its_cut_out_drops_out_and_hunts() -> None:
    found = solved(ConstantPower("radio", "b", "0", 20.0, 10.0 + 1e-6))
    assert found.dropped.tolist() == [[False, True]]
    assert found.hunting.tolist() == [[False, True]]
    assert found.currents[0, 1] == 0
    assert found.across[0, 1] == pytest.approx(12.0)


def test_a_load_that_never_has_enough_does_not_hunt() -> None:
    found = solved(ConstantPower("radio", "b", "0", 1.0, 12.5))
    assert (found.dropped[0, 1], found.hunting[0, 1]) == (True, False)


def test_the_load_lowest_in_share_of_its_cut_out_goes_and_the_other_stays() -> None:
    # together 30 W: 8.4 V; the one at 9 V goes, the other at 8 V then has 20 W at 10 V
    heavy, light = (
        ConstantPower("heavy", "b", "0", 20.0, 8.0),
        ConstantPower("light", "b", "0", 10.0, 9.0),
    )
    found = solved(heavy, light)
    assert found.dropped.tolist() == [[False, False, True]]
    assert found.across[0, 1] == pytest.approx(10.0)


def test_of_two_below_their_cut_outs_the_lowest_in_share_goes_first() -> None:
    # together 30 W: 8.4 V, below both; either could run alone, at 11.1 or at 10 V
    light, heavy = (
        ConstantPower("light", "b", "0", 10.0, 8.6),
        ConstantPower("heavy", "b", "0", 20.0, 9.9),
    )
    assert solved(light, heavy).dropped.tolist() == [[False, False, True]]
    assert solved(heavy, light).dropped.tolist() == [[False, True, False]]


def test_a_load_is_tried_again_once_the_heavy_one_is_gone() -> None:
    # 40 W is more than the feed gives; the light one, lower in share, went first
    found = solved(
        ConstantPower("heavy", "b", "0", 40.0, 6.0), ConstantPower("light", "b", "0", 10.0, 10.5)
    )
    assert found.dropped.tolist() == [[False, True, False]]


def test_a_load_on_a_dead_feed_is_off() -> None:
    made = Circuit(
        "0",
        (
            BATTERY,
            Resistor("switch", "b", "s", np.inf),
            Resistor("lamp", "s", "0", 5.0),
            ConstantPower("radio", "s", "0", 5.0, 0.0),
        ),
    )
    found = solve(made, made.states())
    assert found.dropped.tolist() == [[False, False, False, True]]
    assert not found.hunting.any()
    assert not found.floating.any()


def test_rounding_on_a_dead_feed_switches_nothing_on() -> None:
    dead = 0
    for seed in range(40):
        rng = np.random.default_rng(seed)
        made = circuit(rng, Size(feeds=20, meshes=2, lamps=4, electronics=14))
        load = made.kind(ConstantPower)
        states = opened(rng, made, 5, share=0.1).given(load, volts=0.0)
        unloaded = solve(made, states.given(load, watts=0.0)).across
        found = solve(made, states)
        nothing = (np.abs(unloaded) < 1e-6) & ~(np.abs(found.across) > 1e-6)
        row, element = np.nonzero(nothing & (states.watts > 0))
        assert not found.collapsed[row, element].any()
        assert not found.hunting[row, element].any()
        dead += len(row)
    assert dead > 10


def test_a_load_the_wrong_way_round_is_off() -> None:
    assert solved(ConstantPower("radio", "0", "b", 5.0, 0.0)).dropped.tolist() == [[False, True]]


def test_a_collapse_names_the_load_that_asks_most_of_its_feed() -> None:
    made = Circuit(
        "0",
        (
            Battery("battery", "b", "0", 12.0, 0.01),
            Resistor("thin", "b", "t", 2.0),
            ConstantPower("light", "b", "0", 100.0, 0.0),
            ConstantPower("heavy", "t", "0", 19.0, 0.0),
        ),
    )
    found = solve(made, made.states())
    assert [made.elements[k].name for k in np.flatnonzero(found.collapsed[0])] == ["heavy"]
    assert np.isnan(found.voltages).all()
    assert np.isnan(found.across).all()
    assert not found.failed.any()


def test_a_collapse_beside_electronics_that_hang_on_a_dead_end() -> None:
    # nothing stands across what is off, and nothing is divided by it
    made = Circuit(
        "0",
        (
            BATTERY,
            Resistor("switch", "b", "s", np.inf),
            ConstantPower("radio", "s", "c", 5.0, 0.0),
            Resistor("coil", "c", "0", 90.0),
            ConstantPower("driver", "b", "0", 40.0, 0.0),
        ),
    )
    found = solve(made, made.states())
    assert found.collapsed.tolist() == [[False, False, False, False, True]]


def test_one_state_falls_and_the_next_does_not() -> None:
    made = Circuit("0", (BATTERY, ConstantPower("driver", "b", "0", 1.0, 0.0)))
    watts = np.array([[40.0], [20.0]])
    found = solve(made, made.states(2).given(made.among(["driver"]), watts=watts))
    assert found.collapsed.any(axis=1).tolist() == [True, False]
    assert found.across[1, 1] == pytest.approx(10.0)


@pytest.mark.parametrize("seed", range(12))
def test_the_loads_that_run_can_and_no_further_one_could(seed: int) -> None:
    rng = np.random.default_rng(seed)
    made, least = circuit(rng, Size(feeds=8, grounds=1, electronics=6, heaters=2)), 10.8
    load = made.kind(ConstantPower)
    states = made.states().given(made.among(["battery 0"]), ohms=0.06)
    states = states.given(load, volts=least, watts=rng.uniform(5, 90, (1, len(load))))
    on = tuple((~solve(made, states).dropped[0, load]).tolist())

    def run(which: tuple[bool, ...]) -> bool:
        """Return whether a set of loads has a solution with each at its cut-out or above."""
        watts = np.zeros_like(states.watts)
        watts[0, load] = states.watts[0, load] * which
        told = solve(made, states.given(load, volts=0.0, watts=watts))
        enough = told.across[0, load][list(which)] >= least
        return not told.collapsed.any() and bool(enough.all())

    sets = [one for one in product((False, True), repeat=6) if run(one)]
    assert [one for one in sets if all(a >= b for a, b in zip(one, on, strict=True))] == [on]
