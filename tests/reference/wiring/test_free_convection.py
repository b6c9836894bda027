"""Free convection from a horizontal cylinder, by Churchill and Chu (1975), and air.

A worked example in Cengel and Ghajar, Heat and mass transfer (Ra = 1.867e6, Pr = 0.7241, so 17.40;
air at 60 degC: 1.896e-5 m2/s, 0.7202), and the open library ht (Pr = 0.69, Gr = 2.63e9).
"""

import pytest

from trimwright.wiring.copper import air, nusselt


def test_hot_water_pipe() -> None:
    assert float(nusselt(1.867e6, 0.7241)) == pytest.approx(17.40, abs=0.02)  # 17.39 from Ra so cut


def test_an_open_library_agrees() -> None:
    assert float(nusselt(0.69 * 2.63e9, 0.69)) == pytest.approx(139.13493970073597, rel=1e-9)


def test_air_at_60_degrees() -> None:
    viscosity, _, prandtl = (float(one) for one in air(60.0))
    assert viscosity == pytest.approx(1.896e-5, rel=0.01)
    # books differ by 3 % on the conductivity of air, and so on this
    assert prandtl == pytest.approx(0.7202, rel=0.04)
