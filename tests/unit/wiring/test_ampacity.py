import math

import numpy as np
import pytest

from trimwright.stock import bundle_factors, wire
from trimwright.wiring.copper import Laid, ampacity, bundle_factor, copper_c, derated, surface_loss

ONE = wire("1 mm2")


def test_a_wire_at_its_ampacity_settles_at_the_limit_of_its_insulation() -> None:
    for share in (1.0, 0.5):
        laid = Laid(ONE, 60.0, share)
        assert float(copper_c(laid, ampacity(laid))) == pytest.approx(ONE.class_c, rel=1e-6)


def test_no_current_leaves_a_wire_as_warm_as_the_air() -> None:
    assert copper_c(Laid(ONE, 40.0), [0.0, 0.0]) == pytest.approx(np.array([40.0, 40.0]), abs=1e-6)


def test_a_current_that_melts_a_wire_has_no_temperature() -> None:
    assert copper_c(Laid(ONE, 40.0), 1000.0) == np.inf


def test_heat_in_equals_heat_out_where_it_settles() -> None:
    celsius = float(copper_c(Laid(ONE, 40.0, 0.5), 8.0))  # as alone under 16 A
    joule = 16.0**2 * ONE.conductor.ohm_per_m * (1 + 0.00393 * (celsius - 20))
    copper_mm = 2 * math.sqrt(ONE.conductor.area_mm2 / math.pi)
    wall = ONE.k_m_per_w * math.log(ONE.outside_mm / copper_mm) / (2 * math.pi)
    lost = float(surface_loss(ONE.outside_mm, celsius - wall * joule, 40.0))
    assert lost == pytest.approx(joule, rel=1e-6)


def test_a_bundle_between_two_printed_numbers_counts_as_the_fuller() -> None:
    printed = {one.wires: one.factor for one in bundle_factors()}
    assert bundle_factor(6) == printed[7]
    assert bundle_factor(2) == printed[3]


def test_wires_that_carry_nothing_do_not_warm_their_neighbour() -> None:
    assert bundle_factor(40, load_share=0.0) == 1.0


@pytest.mark.parametrize("wires", [0, 62])
def test_a_bundle_that_nobody_printed_is_refused(wires: int) -> None:
    with pytest.raises(ValueError, match=f"wires must be from 1 to 61, got {wires}"):
        bundle_factor(wires)


def test_a_share_that_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match=r"load_share must be from 0 to 1, got 1\.1"):
        bundle_factor(3, load_share=1.1)
    with pytest.raises(ValueError, match="share must be above 0 and at most 1, got 0"):
        Laid(ONE, 20.0, 0.0)


def test_air_as_warm_as_the_insulation_bears_is_refused() -> None:
    with pytest.raises(ValueError, match="ambient_c must be below the 105 of the insulation"):
        Laid(ONE, 105.0)


def test_a_factor_that_adds_is_refused() -> None:
    with pytest.raises(ValueError, match="factors must be above 0 and at most 1"):
        derated(10.0, 1.2)
