import numpy as np
import pytest

from trimwright.wiring.copper import (
    awg_diameter_mm,
    length_factor,
    resistance_factor,
    wire_resistance,
)


def test_many_wires_at_once() -> None:
    found = wire_resistance([0.010, 0.020], [2.0, 3.0], copper_c=20.0)
    assert found == pytest.approx(np.array([0.02, 0.06]))


@pytest.mark.parametrize("celsius", [-61.0, 1084.0, float("nan")])
def test_no_factor_where_copper_is_not_linear(celsius: float) -> None:
    with pytest.raises(ValueError, match="copper_c must be from -60 to 1083"):
        resistance_factor(celsius)


def test_a_negative_length_is_refused() -> None:
    with pytest.raises(ValueError, match=r"length_m must be 0 or more, got -1\.0"):
        wire_resistance(0.01, -1.0)


def test_a_wire_without_resistance_is_refused() -> None:
    with pytest.raises(ValueError, match=r"ohm_per_m must be above 0, got 0\.0"):
        wire_resistance(0.0, 1.0)


@pytest.mark.parametrize("gauge", [-4, 41])
def test_a_gauge_that_is_not_made_is_refused(gauge: int) -> None:
    with pytest.raises(ValueError, match=r"gauge must be from -3 \(4/0\) to 40"):
        awg_diameter_mm(gauge)


def test_no_length_factor_below_the_cold_that_has_no_resistance() -> None:
    with pytest.raises(ValueError, match=r"metal_c must be above -234\.5"):
        length_factor(-240.0)
