from itertools import product
from types import SimpleNamespace

import numpy as np
import pytest
from numpy.typing import NDArray

from tests.invented_circuit import Size, circuit
from trimwright.wiring.network import (
    Battery,
    Circuit,
    ConstantPower,
    Element,
    Resistor,
    solve,
    worst,
    worst_combination,
)

LIFTED = Circuit(
    "0",
    (
        Battery("battery", "b", "0", 12.6, 0.1),
        Resistor("lamp", "b", "g", 10.0),
        Resistor("ground", "g", "0", 0.5),
        Battery("spare", "p", "g", 12.0, 0.1),
        Resistor("pump", "p", "0", 5.0),
        Resistor("heater", "b", "0", 2.0),
    ),
)


def one_feed(*loads: Element) -> Circuit:
    """Return loads on a battery of 12 V behind 1 ohm."""
    return Circuit("0", (Battery("battery", "b", "0", 12.0, 1.0), *loads))


def test_on_one_feed_and_one_ground_everything_on_is_worst() -> None:
    made = one_feed(*(Resistor(f"load {k}", "b", "0", 9.0 + k) for k in range(5)))
    names = [one.name for one in made.elements[1:]]
    found = worst_combination(made, made.states(), names, "load 2")
    assert found.on == ("load 0", "load 1", "load 3", "load 4")
    assert (found.outcome, found.proven, found.tried, found.unsolved) == ("stays on", True, 16, 0)
    assert found.volts == pytest.approx(solve(made, made.states()).across[0, 1])


def test_a_load_that_lowers_its_ground_is_off_in_the_worst() -> None:
    found = worst_combination(LIFTED, LIFTED.states(), ["pump", "heater"], "lamp")
    assert found.on == ("heater",)
    everything = solve(LIFTED, LIFTED.states()).across[0, 1]
    assert found.volts < everything - 0.5


def test_that_a_load_drops_out_is_worse_than_any_voltage() -> None:
    made = one_feed(ConstantPower("radio", "b", "0", 10.0, 9.0), Resistor("heater", "b", "0", 2.0))
    found = worst_combination(made, made.states(), ["heater"], "radio")
    assert (found.on, found.outcome) == (("heater",), "drops out")
    assert found.volts == pytest.approx(8.0)


def test_a_collapse_is_worst_of_all_and_told_with_the_fewest_loads() -> None:
    loads = [ConstantPower(f"driver {k}", "b", "0", 20.0, 0.0) for k in range(3)]
    made = one_feed(*loads, Resistor("lamp", "b", "0", 100.0))
    found = worst_combination(made, made.states(), [one.name for one in loads], "lamp")
    assert (found.outcome, len(found.on)) == ("collapses", 2)
    assert np.isnan(found.volts)


def test_an_element_that_hangs_on_nothing_has_no_feed() -> None:
    made = one_feed(
        Resistor("switch", "b", "s", np.inf), ConstantPower("radio", "s", "0", 5.0, 9.0)
    )
    found = worst_combination(made, made.states(), [], "radio")
    assert (found.outcome, found.on, found.tried) == ("has no feed", (), 1)


@pytest.mark.parametrize("seed", range(6))
def test_no_combination_is_worse(seed: int) -> None:
    made = circuit(np.random.default_rng(seed), Size(electronics=2, batteries=3))
    names = [one.name for one in made.elements if one.name[:6] in ("heater", "driver")]
    found = worst_combination(made, made.states(), names, names[0])
    lowest = min(
        solve(made, made.states().opened(made.among(off))).across[0, made.element(names[0])]
        for switches in product((False, True), repeat=len(names) - 1)
        for off in [[name for name, on in zip(names[1:], switches, strict=True) if not on]]
    )
    assert found.volts == pytest.approx(lowest, abs=1e-8)
    assert found.tried == 2 ** (len(names) - 1)


@pytest.mark.parametrize("seed", range(6))
def test_a_search_says_that_it_proves_nothing(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    made = circuit(np.random.default_rng(seed), Size(heaters=8, batteries=3))
    names = [f"heater {k}" for k in range(8)]
    exact = worst_combination(made, made.states(), names, "heater 0")
    monkeypatch.setattr(worst, "ENUMERATED", 0)
    found = worst_combination(made, made.states(), names, "heater 0")
    assert (found.proven, exact.proven) == (False, True)
    assert found.volts == pytest.approx(exact.volts, abs=1e-8)  # it need not, but does in these


def test_a_search_goes_on_until_no_change_of_two_loads_helps(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # four changes from everything on or off; that any load alone lifts the voltage misleads
    loads = [Resistor(f"load {k}", "b", "0", 50.0) for k in range(8)]
    made = one_feed(*loads, Resistor("lamp", "b", "0", 50.0))
    target = np.arange(8) % 2 == 0

    def told(_: object, on: NDArray[np.bool_]) -> SimpleNamespace:
        away = np.where(on.sum(axis=1) == 1, 99, np.sum(on ^ target, axis=1))
        least = int(np.argmin(away))
        volts = float(away[least])
        return SimpleNamespace(on=on[least], score=volts, volts=volts, tried=len(on), unsolved=0)

    monkeypatch.setattr(worst, "ENUMERATED", 0)
    monkeypatch.setattr(worst, "RESTARTS", 0)
    monkeypatch.setattr("trimwright.wiring.network.worst._Trial.told", told)
    found = worst_combination(made, made.states(), [one.name for one in loads], "lamp")
    assert (found.on, found.volts) == (("load 0", "load 2", "load 4", "load 6"), 0.0)


def test_above_sixteen_loads_a_search_is_made() -> None:
    made = one_feed(*(Resistor(f"load {k}", "b", "0", 50.0 + k) for k in range(18)))
    names = [one.name for one in made.elements[1:]]
    found = worst_combination(made, made.states(), names, "load 0")
    assert (found.proven, len(found.on)) == (False, 17)


def test_a_combination_that_is_not_solved_is_no_proof(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("trimwright.wiring.network.balance.TOLERANCE", -1.0)
    found = worst_combination(LIFTED, LIFTED.states(), ["pump", "heater"], "lamp")
    assert (found.proven, found.unsolved) == (False, 4)
    assert np.isnan(found.volts)


def test_states_of_several_rows_are_refused() -> None:
    with pytest.raises(ValueError, match="state must have one row, got 3"):
        worst_combination(LIFTED, LIFTED.states(3), ["pump"], "lamp")
