import numpy as np
import pytest

from tests.invented_circuit import REFERENCE, Size, circuit, opened
from trimwright.wiring.network import (
    Alternator,
    Battery,
    Circuit,
    ConstantPower,
    Element,
    Lamp,
    Resistor,
    Solved,
    solution,
    solve,
)
from trimwright.wiring.network.cut_out import Settled, settled
from trimwright.wiring.network.descent import Core

BATTERY = Battery("battery", "b", "0", 12.0, 1.0)


def solved(*elements: Element) -> Solved:
    """Return a circuit of a battery of 12 V behind 1 ohm and other elements, solved."""
    made = Circuit("0", (BATTERY, *elements))
    return solve(made, made.states())


def figure(found: Solved, name: str, what: str = "across") -> float:
    """Return a figure of an element."""
    return float(getattr(found, what)[0, found.circuit.element(name)])


def test_a_load_of_one_ohm_halves_the_voltage() -> None:
    found = solved(Resistor("load", "b", "0", 1.0))
    assert figure(found, "load") == pytest.approx(6.0)
    assert figure(found, "load", "currents") == pytest.approx(6.0)
    assert figure(found, "battery", "currents") == pytest.approx(-6.0)
    assert figure(found, "load", "heat") == pytest.approx(36.0)
    assert figure(found, "battery", "heat") == pytest.approx(36.0)


def test_what_hangs_on_nothing_floats_and_carries_nothing() -> None:
    found = solved(
        Resistor("load", "b", "0", 1.0),
        Resistor("switch", "b", "s", np.inf),
        Resistor("bulb", "s", "t", 2.0),
        ConstantPower("radio", "t", "0", 10.0, 9.0),
    )
    nodes = found.circuit.nodes
    assert [nodes[k] for k in np.flatnonzero(found.floating[0])] == ["s", "t"]
    assert np.isnan(found.voltages[0, [nodes.index("s"), nodes.index("t")]]).all()
    assert np.isnan([figure(found, "switch"), figure(found, "radio")]).all()
    assert [figure(found, one, "currents") for one in ("switch", "bulb", "radio")] == [0, 0, 0]
    assert not found.dropped.any()  # it has no way for its current
    assert not found.failed.any()


def test_nothing_flows_where_there_is_no_element() -> None:
    bare = Circuit("foot", ())
    assert solve(bare, bare.states(2)).residual.tolist() == [0.0, 0.0]


def test_a_floating_part_with_a_source_has_currents_though_its_voltages_are_unknown() -> None:
    found = solved(
        Battery("spare", "p", "q", 6.0, 1.0),
        Resistor("bulb", "p", "q", 2.0),
    )
    assert figure(found, "bulb", "currents") == pytest.approx(2.0)
    assert figure(found, "bulb") == pytest.approx(4.0)
    assert np.isnan(found.voltages[0, [2, 3]]).all()


def test_a_charging_battery_takes_current_in() -> None:
    found = solved(Battery("charger", "b", "0", 14.0, 1.0))
    assert figure(found, "battery", "currents") == pytest.approx(1.0)
    assert figure(found, "battery", "heat") == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("most_a", "volts", "amps", "limited"),
    [
        (100.0, 13.0, 14.0, False),  # (14 - 13) / 1 into the battery, 13 through the load
        (9.0, 10.5, 9.0, True),  # 12 - 10.5 from the battery, 9 from it, 10.5 through the load
    ],
)
def test_an_alternator_holds_its_voltage_up_to_its_current(
    most_a: float, volts: float, amps: float, *, limited: bool
) -> None:
    alternator = Alternator("alternator", "b", "0", 14.0, 1 / 14, most_a)
    found = solved(alternator, Resistor("load", "b", "0", 1.0))
    assert figure(found, "load") == pytest.approx(volts)
    assert figure(found, "alternator", "currents") == pytest.approx(-amps)
    assert figure(found, "alternator", "limited") == limited


def test_an_alternator_takes_no_current_in() -> None:
    found = solved(Alternator("alternator", "b", "0", 10.0, 0.01, 50.0))
    assert figure(found, "alternator", "currents") == pytest.approx(0.0, abs=1e-4)
    assert figure(found, "battery") == pytest.approx(12.0, abs=1e-4)


def test_what_hangs_on_an_alternator_alone_stands_at_its_voltage() -> None:
    found = solved(Alternator("alternator", "a", "0", 14.2, 0.01, 50.0))
    assert found.voltages[0, found.circuit.node("a")] == pytest.approx(14.2)


def test_a_lamp_is_never_of_less_resistance_than_cold() -> None:
    found = solved(Resistor("thin", "b", "l", 500.0), Lamp("lamp", "l", "0", 12.0, 24.0, 0.6))
    assert figure(found, "lamp") / figure(found, "lamp", "currents") == pytest.approx(0.6)


def test_a_lamp_at_its_design_voltage_takes_its_watts() -> None:
    made = Circuit("0", (Battery("b", "b", "0", 13.5, 1e-9), Lamp("l", "b", "0", 13.5, 21.0, 0.8)))
    found = solve(made, made.states())
    assert figure(found, "l", "heat") == pytest.approx(21.0)


def test_a_lamp_the_wrong_way_round_takes_the_same() -> None:
    found = [solved(Lamp("lamp", *ends, 12.0, 24.0, 0.5)) for ends in (("b", "0"), ("0", "b"))]
    assert figure(found[0], "lamp", "currents") == -figure(found[1], "lamp", "currents")


def test_many_states_are_as_each_alone() -> None:
    rng = np.random.default_rng(3)
    made = circuit(rng, Size(lamps=3, electronics=4, alternators=1, batteries=2))
    states = opened(rng, made, 12)
    together = solve(made, states)
    for row in range(12):
        alone = solve(made, states.rows_of(slice(row, row + 1)))
        for name in ("voltages", "currents", "heat"):
            ours, theirs = getattr(together, name)[row], getattr(alone, name)[0]
            np.testing.assert_allclose(ours, theirs, rtol=1e-7, atol=1e-8)
        for name in ("floating", "dropped", "limited", "collapsed"):
            assert (getattr(together, name)[row] == getattr(alone, name)[0]).all()


def test_states_are_solved_in_blocks_as_together(monkeypatch: pytest.MonkeyPatch) -> None:
    rng = np.random.default_rng(4)
    made = circuit(rng, Size(electronics=3))
    states = opened(rng, made, 7)
    together = solve(made, states)
    monkeypatch.setattr(solution, "FIGURES", 3 * len(made.nodes) ** 2)
    np.testing.assert_allclose(solve(made, states).currents, together.currents, atol=1e-9)


def test_currents_that_do_not_add_up_are_reported(monkeypatch: pytest.MonkeyPatch) -> None:
    made = circuit(np.random.default_rng(5), Size(lamps=2))

    def wrong(core: Core, wanted: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]) -> Settled:
        found = settled(core, wanted)
        found.drawn[:, 1] += 1e-4
        return found

    assert not solve(made, made.states()).failed.any()
    monkeypatch.setattr(solution, "settled", wrong)
    found = solve(made, made.states())
    assert found.failed.all()
    assert (found.residual > 1e-9).all()
    assert np.isnan(found.voltages).all()
    assert np.isnan(found.currents).all()


def test_a_search_that_does_not_end_is_reported(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("trimwright.wiring.network.descent.ROUNDS", 1)
    made = circuit(np.random.default_rng(5), Size(lamps=2))
    assert solve(made, made.states()).failed.all()


def test_a_search_that_has_not_come_close_is_reported(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("trimwright.wiring.network.descent.ROUNDS", 8)
    monkeypatch.setattr("trimwright.wiring.network.descent.LINGERS", 99)
    monkeypatch.setattr("trimwright.wiring.network.descent.STEP", -1.0)
    made = circuit(np.random.default_rng(5), Size(lamps=2))
    found = solve(made, made.states())
    assert found.residual[0] <= 1e-9  # its currents balance, but nothing says how far it still is
    assert found.failed.all()


def test_sources_may_differ_from_state_to_state() -> None:
    made = Circuit("0", (BATTERY, Resistor("load", "b", "0", 1.0)))
    volts = np.array([[12.0], [14.0], [-6.0]])
    found = solve(made, made.states(3).given(made.kind(Battery), volts=volts))
    assert found.across[:, 1] == pytest.approx([6.0, 7.0, -3.0])


def test_states_of_another_circuit_are_refused() -> None:
    made = Circuit("0", (BATTERY,))
    with pytest.raises(
        ValueError, match=r"states must have a row and 1 elements, got shape \(1, 2"
    ):
        solve(made, Circuit("0", (BATTERY, Resistor("r", "b", "0", 1.0))).states())
    with pytest.raises(ValueError, match=r"got shape \(0, 1\)"):
        solve(made, made.states(0))


def test_results_cannot_be_changed() -> None:
    with pytest.raises(ValueError, match="read-only"):
        solved(Resistor("load", REFERENCE, "b", 1.0)).voltages[0, 0] = 1.0
