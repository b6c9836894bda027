"""Masses, forces and the rest, each in its own units."""

from collections.abc import Callable

import pytest

from trimwright.quantities import (
    Doubt,
    Quantity,
    QuantityError,
    angle,
    count,
    density,
    force,
    mass,
    pressure,
    share,
    torque,
)

Parser = Callable[[str], Quantity]


@pytest.mark.parametrize(
    ("parser", "written", "value"),
    [
        (mass, "5 kg", 5.0),
        (mass, "250 g", 0.25),
        (mass, "16 oz", 0.45359237),
        (force, "2 kN", 2000.0),
        (force, "20 kgf", 196.133),
        (angle, "3 deg", 3.0),
        (angle, "3°", 3.0),
        (angle, "1/2 degree", 0.5),
        (pressure, "200 kPa", 200.0),
        (pressure, "2 bar", 200.0),
        (pressure, "0.2 MPa", 200.0),
        (pressure, "20 N/cm2", 200.0),
        (torque, "4 N m", 4.0),
        (torque, "4 N·m", 4.0),
        (torque, "4 Nm", 4.0),
        (density, "680 kg/m³", 680.0),
        (density, "0,68 g/cm3", 680.0),
        (share, "95 %", 0.95),
        (share, "95%", 0.95),
        (count, "4", 4.0),
    ],
)
def test_an_amount_is_read_in_the_inner_unit(parser: Parser, written: str, value: float) -> None:
    assert parser(written).value == pytest.approx(value, rel=1e-15)


@pytest.mark.parametrize(
    ("parser", "written", "doubt"),
    [
        (mass, "5 kg ± 1", Doubt("normal", 1.0, 1.0)),
        (mass, "5 kg ± 200 g", Doubt("normal", 0.2, 0.2)),
        (torque, "4 N m ± 2", Doubt("normal", 2.0, 2.0)),
        (angle, "3 ± 1 deg", Doubt("normal", 1.0, 1.0)),
        (pressure, "200 kPa at most 50 off", Doubt("uniform", 50.0, 50.0)),
        (share, "90 % +5/-10", Doubt("split", 0.1, 0.05)),
        (count, "4 ± 1", Doubt("normal", 1.0, 1.0)),
    ],
)
def test_any_amount_may_carry_its_doubt(parser: Parser, written: str, doubt: Doubt) -> None:
    assert parser(written).doubt == doubt


@pytest.mark.parametrize(
    ("parser", "readings"),
    [
        (mass, ("5 kg", "5 lb")),
        (force, ("5 N", "5 lbf")),
        (pressure, ("5 kPa", "5 psi")),
        (torque, ("5 N m", "5 lb ft")),
        (density, ("5 kg/m3", "5 lb/ft3")),
        (angle, ("5 deg",)),
    ],
)
def test_a_bare_amount_is_refused_with_its_readings(
    parser: Parser, readings: tuple[str, str]
) -> None:
    with pytest.raises(QuantityError, match="with its unit") as refused:
        parser("5")
    assert refused.value.readings == readings
    assert all(parser(one).value > 0 for one in readings)


@pytest.mark.parametrize(("written", "readings"), [("95", ("95 %",)), ("0.95", ("0.95 %", "95 %"))])
def test_a_bare_share_is_refused_with_its_readings(written: str, readings: tuple[str, ...]) -> None:
    with pytest.raises(QuantityError, match="expected a share in per cent") as refused:
        share(written)
    assert refused.value.readings == readings


def test_the_likelier_mass_comes_first() -> None:
    with pytest.raises(QuantityError, match=r"it could mean 5 lb or 5 kg"):
        mass("5", "in")


@pytest.mark.parametrize(
    ("parser", "written", "expected"),
    [
        (mass, "5 mm", "a mass"),
        (mass, "20 000 kg", "a mass"),
        (force, "5 kg", "a force"),
        (pressure, "2 mPa", "a pressure in kPa or MPa"),
        (share, "105 %", "a share of at most 100 %"),
        (angle, "361 deg", "an angle of at most 360 deg"),
        (count, "4.5", "a whole number"),
        (count, "-4", "a whole number"),
    ],
)
def test_a_wrong_amount_is_refused(parser: Parser, written: str, expected: str) -> None:
    with pytest.raises(QuantityError, match=f"expected {expected}"):
        parser(written)
