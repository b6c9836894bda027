"""Small networks whose voltages follow by hand from Ohm's and Kirchhoff's laws, as fractions."""

from fractions import Fraction

import pytest

from trimwright.wiring.network import Battery, Circuit, ConstantPower, Lamp, Resistor, solve

STIFF = 1e-8  # ohm inside a source that is told without any


def test_a_bridge() -> None:
    # 12 V to a; a-b 1, a-c 2, b-0 3, c-0 4, b-c 5 ohm
    wires = (("a", "b", 1), ("a", "c", 2), ("b", "0", 3), ("c", "0", 4), ("b", "c", 5))
    circuit = Circuit(
        "0",
        (
            Battery("source", "a", "0", 12.0, STIFF),
            *(Resistor(one + other, one, other, ohms) for one, other, ohms in wires),
        ),
    )
    solved = solve(circuit, circuit.states())
    volts = dict(zip(circuit.nodes, solved.voltages[0], strict=True))
    assert volts["b"] == pytest.approx(float(Fraction(756, 85)), rel=1e-6)
    assert volts["c"] == pytest.approx(float(Fraction(696, 85)), rel=1e-6)
    assert -solved.currents[0, 0] == pytest.approx(float(Fraction(426, 85)), rel=1e-6)


def test_loads_that_share_a_ground() -> None:
    # 12.6 V behind 0.010 to b; b-c 0.050; 2.4 and 6.0 from c to g; g-0 0.030; 12 ohm from c to 0
    circuit = Circuit(
        "0",
        (
            Battery("battery", "b", "0", 12.6, 0.010),
            Resistor("feed", "b", "c", 0.050),
            Resistor("heater", "c", "g", 2.4),
            Resistor("lamp", "c", "g", 6.0),
            Resistor("ground", "g", "0", 0.030),
            Resistor("horn", "c", "0", 12.0),
        ),
    )
    solved = solve(circuit, circuit.states())
    volts = dict(zip(circuit.nodes, solved.voltages[0], strict=True))
    assert volts["b"] == pytest.approx(12.520400, abs=5e-7)
    assert volts["c"] == pytest.approx(12.122401, abs=5e-7)
    assert volts["g"] == pytest.approx(0.208493, abs=5e-7)
    assert -solved.currents[0, 0] == pytest.approx(7.959980, abs=5e-7)


def test_a_lamp_at_the_end_of_its_wire() -> None:
    # 60 W at 13.5 V as a resistor, 7 m of 12.7 mohm/m, 12.6 V
    circuit = Circuit(
        "0",
        (
            Battery("battery", "b", "0", 12.6, STIFF),
            Resistor("wire", "b", "l", 7 * 0.0127),
            Resistor("lamp", "l", "0", 13.5**2 / 60),
        ),
    )
    solved = solve(circuit, circuit.states())
    assert solved.currents[0, 2] == pytest.approx(4.030194, abs=5e-7)
    assert solved.across[0, 2] == pytest.approx(12.241716, abs=5e-7)
    assert 100 * solved.across[0, 1] / 12.6 == pytest.approx(2.843526, abs=5e-7)


def test_fifteen_amperes_lift_a_ground_of_twenty_milliohms() -> None:
    # 15 A at 12 V with 0.3 V in the ground: a load of 11.7 V / 15 A
    circuit = Circuit(
        "0",
        (
            Battery("battery", "b", "0", 12.0, STIFF),
            Resistor("load", "b", "g", 11.7 / 15),
            Resistor("ground", "g", "0", 0.020),
        ),
    )
    solved = solve(circuit, circuit.states())
    assert solved.voltages[0, circuit.node("g")] == pytest.approx(0.3, abs=1e-7)
    assert solved.heat[0, 2] == pytest.approx(15**2 * 0.020, rel=1e-6)


@pytest.mark.parametrize("watts", [0.5, 10.0, 35.0, 35.999, 36 * (1 - 1e-9)])
def test_a_constant_power_load_has_the_upper_root(watts: float) -> None:
    # V = (E + sqrt(E^2 - 4 R P)) / 2, E = 12 V, R = 1 ohm
    solved = solve(one_load := loaded(watts), one_load.states())
    upper = (12 + (144 - 4 * watts) ** 0.5) / 2
    assert solved.across[0, 1] == pytest.approx(upper, abs=1e-8)
    assert solved.heat[0, 1] == pytest.approx(watts, rel=1e-9)


@pytest.mark.parametrize(("watts", "falls"), [(36 * (1 - 1e-9), False), (36 * (1 + 1e-9), True)])
def test_a_feed_gives_at_most_a_quarter_of_its_voltage_squared_over_ohms(
    watts: float, *, falls: bool
) -> None:
    # maximum power transfer: E^2 / 4R = 36 W
    solved = solve(one_load := loaded(watts), one_load.states())
    assert solved.collapsed.tolist() == [[False, falls]]
    assert not solved.failed.any()


def loaded(watts: float) -> Circuit:
    """Return a load of constant power on 12 V behind 1 ohm."""
    battery = Battery("battery", "b", "0", 12.0, 1.0)
    return Circuit("0", (battery, ConstantPower("driver", "b", "0", watts, 0.0)))


def test_a_lamp_at_half_its_voltage_takes_68_parts_in_100_of_its_current() -> None:
    # current goes with the 0.55th power of voltage: 0.5 ** 0.55 = 0.683 [Fink and Beaty 1978, 22-8]
    lamp = Lamp("lamp", "b", "0", 12.0, 24.0, 0.5)
    circuit = Circuit("0", (Battery("battery", "b", "0", 6.0, STIFF), lamp))
    solved = solve(circuit, circuit.states())
    assert solved.currents[0, 1] / 2.0 == pytest.approx(0.683, abs=5e-4)
