"""The sampled law against the carpet's own."""

import numpy as np
import pytest

from trimwright.car import CarpetBed
from trimwright.fit.sampled import SampledLaw


def bed(c_kpa: float) -> CarpetBed:
    """Return a carpet of 14 mm that a hand squeezes to 6 mm at 300 kPa."""
    one = np.ones(1)
    return CarpetBed.through(14 * one, 300 * one[None], 6 * one[None], c_kpa * one)


@pytest.mark.parametrize("c_kpa", [1.0, 4.0, 20.0])
def test_sampled_law_is_within_four_microns_of_squeeze(c_kpa: float) -> None:
    soft = bed(c_kpa)
    squeeze = np.linspace(0.05, float(soft.full[0]) * 0.999, 400)[None]
    pressure, _ = SampledLaw.of(soft).at(squeeze)
    off_mm = (pressure - soft.pressure(squeeze)) / soft.stiffness(squeeze)
    assert np.abs(off_mm).max() < 0.004


def test_energy_is_the_integral_of_pressure() -> None:
    law = SampledLaw.of(bed(4.0))
    squeeze = np.linspace(0.0, 9.5, 20001)[None]
    (pressure, stiffness), energy = law.at(squeeze), law.energy(squeeze)
    step = squeeze[0, 1]
    area = np.concatenate([[0.0], np.cumsum(0.5 * step * (pressure[0, 1:] + pressure[0, :-1]))])
    assert energy[0] == pytest.approx(area, rel=1e-4, abs=1e-5)
    rise = np.diff(pressure[0]) / step
    assert np.median(np.abs(rise - stiffness[0, 1:]) / rise) < 1e-6


def test_nothing_pushes_where_nothing_touches() -> None:
    law, above = SampledLaw.of(bed(4.0)), np.array([[-3.0, -0.001]])
    assert all((part == 0).all() for part in (*law.at(above), law.energy(above)))


def test_beyond_full_squeeze_it_runs_on_straight() -> None:
    soft = bed(4.0)
    full = float(soft.full[0])
    pressure, _ = SampledLaw.of(soft).at(np.array([[full + 0.5, full + 1.0, full + 1.5]]))
    assert pressure[0, 1] - pressure[0, 0] == pytest.approx(pressure[0, 2] - pressure[0, 1])
    assert pressure == pytest.approx(soft.pressure(np.array([[full + 0.5, full + 1, full + 1.5]])))
