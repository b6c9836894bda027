import pytest

from trimwright.quantities import (
    QuantityError,
    charge,
    current,
    meter_voltage,
    resistance,
    voltage,
    wire_size,
)


@pytest.mark.parametrize(
    ("text", "area_mm2"),
    [("24 AWG", 0.204730), ("18 awg", 0.823047), ("10 AWG", 5.261155), ("2 AWG", 33.630834)],
)
def test_a_gauge_is_the_area_its_definition_gives(text: str, area_mm2: float) -> None:
    # ASTM B258: d = 0.127 mm x 92^((36 - n)/39); areas worked out from it beside the code
    assert wire_size(text).value == pytest.approx(area_mm2, rel=1e-5)


def test_gauges_beyond_0_are_counted_down() -> None:
    # AC 43.13-1B, table 11-9, prints 0, 00 and 0000 as ever larger; one size doubles in three gauges
    assert wire_size("4/0 AWG").value == wire_size("0000 AWG").value
    assert wire_size("1/0 AWG").value < wire_size("2/0 AWG").value < wire_size("4/0 AWG").value
    assert wire_size("2/0 AWG").value / wire_size("2 AWG").value == pytest.approx(2.0, rel=0.01)


@pytest.mark.parametrize("text", ["2,5 mm²", "2.5 mm2", "2.5 sq mm"])
def test_an_area_is_read_as_people_write_it(text: str) -> None:
    assert wire_size(text).value == 2.5


@pytest.mark.parametrize(
    ("read", "text", "expected"),
    [
        (wire_size, "16", "a wire size with its unit"),
        (wire_size, "40 AWG", "a gauge from 36 to 4/0"),
        (current, "8", "a current with its unit"),
        (current, "8 V", "a current"),
        (voltage, "230 V", "a voltage of at most 60 V"),
        (charge, "60 A", "a capacity"),
        (resistance, "8", "a resistance with its unit"),
    ],
)
def test_another_figure_is_refused(read: object, text: str, expected: str) -> None:
    assert callable(read)
    with pytest.raises(
        QuantityError, match=r"wire size|gauge|current|voltage|capacity|resistance"
    ) as refused:
        read(text)
    assert refused.value.expected.startswith(expected)


def test_a_bare_size_offers_both_units() -> None:
    with pytest.raises(
        QuantityError, match=r"wire size|gauge|current|voltage|capacity|resistance"
    ) as refused:
        wire_size("16")
    assert refused.value.readings == ("16 mm2", "16 AWG")


def test_milli_is_not_mega() -> None:
    assert resistance("8 mΩ").value == pytest.approx(0.008)
    assert resistance("1.2 kohm").value == 1200
    assert current("20 mA").value == pytest.approx(0.02)


@pytest.mark.parametrize(
    ("text", "volts"),
    [
        ("-0.4 V", -0.4),
        ("\u22120,4 V", -0.4),
        ("- 12 V", -12.0),
        ("-35 mV", -0.035),
        ("0.4 V", 0.4),
    ],
)
def test_a_meter_shows_below_nought_with_its_probes_the_other_way(text: str, volts: float) -> None:
    assert meter_voltage(text).value == pytest.approx(volts, abs=1e-12)
    assert meter_voltage(text).text == text


def test_a_bare_reading_keeps_its_sign_in_what_it_may_mean() -> None:
    with pytest.raises(QuantityError, match="a voltage with its unit") as refused:
        meter_voltage("-0.4")
    assert refused.value.readings == ("-0.4 V",)
    assert refused.value.found == "-0.4"


@pytest.mark.parametrize("text", ["--0.4 V", "-230 V", "-", "-V"])
def test_no_reading_is_no_voltage(text: str) -> None:
    with pytest.raises(QuantityError, match="a voltage"):
        meter_voltage(text)


def test_a_voltage_that_is_chosen_has_no_sign() -> None:
    with pytest.raises(QuantityError, match="a voltage"):
        voltage("-12 V")
