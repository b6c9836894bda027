import numpy as np
import pytest

from tests.invented_circuit import Size, circuit
from trimwright.wiring.network import (
    Battery,
    Circuit,
    Resistor,
    opened_singly,
    shorted_singly,
    solve,
)

CIRCUIT = Circuit(
    "0",
    (
        Battery("battery", "b", "0", 12.0, 0.1),
        Resistor("one wire", "b", "l", 0.2),
        Resistor("other wire", "b", "l", 0.2),
        Resistor("lamp", "l", "0", 5.8),
    ),
)


def test_the_other_wire_carries_all_when_one_is_open() -> None:
    solved = solve(CIRCUIT, opened_singly(CIRCUIT, CIRCUIT.states(), ["one wire", "lamp"]))
    assert solved.currents[0, 1] == 0
    assert solved.currents[0, 2] == pytest.approx(12 / 6.1)
    assert solved.currents[1] == pytest.approx(np.zeros(4), abs=1e-9)


def test_a_short_draws_what_battery_wire_and_short_let_through() -> None:
    solved = solve(CIRCUIT, shorted_singly(CIRCUIT, CIRCUIT.states(), ["lamp"], 0.05))
    beside = 1 / (1 / 5.8 + 1 / 0.05)
    assert -solved.currents[0, 0] == pytest.approx(12 / (0.1 + 0.1 + beside))
    assert solved.currents[0, 3] == pytest.approx(-solved.currents[0, 0])


def test_a_circuit_with_an_open_element_is_the_circuit_without_it() -> None:
    made = circuit(np.random.default_rng(8), Size(lamps=2, electronics=2))
    wires = [one.name for one in made.elements if one.name.startswith("wire")]
    solved = solve(made, opened_singly(made, made.states(), wires))
    for row, name in enumerate(wires):
        less = Circuit(made.reference, tuple(e for e in made.elements if e.name != name))
        alone = solve(less, less.states())
        for node in less.nodes:
            ours = solved.voltages[row, made.node(node)]
            np.testing.assert_allclose(ours, alone.voltages[0, less.node(node)], atol=1e-8)


def test_states_of_several_rows_are_refused() -> None:
    with pytest.raises(ValueError, match="state must have one row, got 2"):
        opened_singly(CIRCUIT, CIRCUIT.states(2), ["lamp"])
