import numpy as np
import pytest

from trimwright.wiring.network import Battery, Circuit, ConstantPower, Lamp, Resistor

WIRE, BULB = Resistor("wire", "b", "l", 0.5), Lamp("bulb", "l", "0", 12.0, 24.0, 0.5)
RADIO = ConstantPower("radio", "l", "0", 10.0, 9.0)
CIRCUIT = Circuit("0", (Battery("battery", "b", "0", 12.0, 0.01), WIRE, BULB, RADIO))


def test_the_reference_is_the_first_node() -> None:
    assert CIRCUIT.nodes == ("0", "b", "l")
    assert CIRCUIT.ends.tolist() == [[1, 0], [1, 2], [2, 0], [2, 0]]
    assert (CIRCUIT.node("l"), CIRCUIT.element("bulb")) == (2, 2)


def test_circuits_of_equal_elements_are_equal() -> None:
    assert Circuit("0", (WIRE, BULB)) == Circuit("0", (WIRE, BULB))
    assert hash(Circuit("0", (WIRE, BULB))) == hash(Circuit("0", (WIRE, BULB)))
    assert Circuit("0", (WIRE, BULB)) != Circuit("l", (WIRE, BULB))


def test_an_open_element_neither_conducts_nor_takes_power() -> None:
    open_ = CIRCUIT.states(2).opened(np.array([[False] * 4, [False, True, True, True]]))
    assert open_.siemens[0].tolist() == [100.0, 2.0, 24 / 144, 0.0]
    assert open_.siemens[1].tolist() == [100.0, 0.0, 0.0, 0.0]
    assert open_.cold_siemens[1].tolist() == [0.0] * 4
    assert open_.watts.tolist() == [[0.0, 0.0, 0.0, 10.0], [0.0] * 4]


def test_a_short_stands_beside_its_element() -> None:
    short = CIRCUIT.states().shorted(CIRCUIT.among(["bulb"]), 0.001)
    assert short.bypass.tolist() == [[0.0, 0.0, 1000.0, 0.0]]
    assert short.siemens.tolist() == CIRCUIT.states().siemens.tolist()


def test_figures_differ_from_state_to_state() -> None:
    ohms, where = np.array([[0.5], [0.25]]), CIRCUIT.among(["wire"])
    given = CIRCUIT.states(2).given(where, ohms=ohms)
    assert given.siemens[:, 1].tolist() == [2.0, 4.0]
    assert given.siemens[:, 0].tolist() == [100.0, 100.0]
    volts = CIRCUIT.states(2).given(CIRCUIT.kind(Battery), volts=np.array([[12.0], [14.0]]))
    assert volts.volts[:, 0].tolist() == [12.0, 14.0]
    assert volts.volts[:, 3].tolist() == [9.0, 9.0]


@pytest.mark.parametrize(
    ("elements", "says"),
    [
        ((WIRE, WIRE), "got 'wire' twice"),
        ((Resistor("loop", "a", "a", 1.0),), "'loop' must join two nodes, got 'a' at both ends"),
    ],
)
def test_circuits_that_say_two_things_are_refused(
    elements: tuple[Resistor, ...], says: str
) -> None:
    with pytest.raises(ValueError, match=says):
        Circuit("0", elements)


def test_names_that_are_not_there_are_refused() -> None:
    with pytest.raises(ValueError, match="node of the circuit, got 'x'"):
        CIRCUIT.node("x")
    with pytest.raises(ValueError, match="element of the circuit, got 'x'"):
        CIRCUIT.among(["wire", "x"])


def test_elements_without_resistance_are_refused() -> None:
    with pytest.raises(ValueError, match="ohms of 'w' must be above 0, got 0"):
        Resistor("w", "a", "b", 0.0)
    with pytest.raises(ValueError, match="ohms of 'b' must be above 0, got -1"):
        Battery("b", "a", "b", 12.0, -1.0)
    with pytest.raises(
        ValueError, match=r"cold_ohms of 'l' must be at most its 6 ohm at 12 V, got 7"
    ):
        Lamp("l", "a", "b", 12.0, 24.0, 7.0)
    with pytest.raises(ValueError, match="watts of 'r' must not be below 0, got -1"):
        ConstantPower("r", "a", "b", -1.0, 9.0)


def test_states_without_resistance_are_refused() -> None:
    states, every = CIRCUIT.states(), np.ones(4, np.bool_)
    with pytest.raises(ValueError, match="ohms must be above 0, got 0"):
        states.given(every, ohms=0.0)
    with pytest.raises(ValueError, match="ohms must be above 0, got 0"):
        states.shorted(every, 0.0)
    with pytest.raises(ValueError, match="watts must not be below 0, got -2"):
        states.given(every, watts=-2.0)
