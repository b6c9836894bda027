"""USB Type-C specification 4.4.1, 'IR drop', as quoted by a test engineer (2016).

At 3 A the return conductor may lose 250 mV. The lengths are where a solid conductor of the gauge
alone takes all of it, contacts left out.
"""

import pytest

from trimwright.wiring.copper import IACS_OHM_MM2_M, awg_area_mm2, wire_resistance


@pytest.mark.parametrize(("gauge", "metres"), [(28, 0.3914), (24, 0.9895), (20, 2.5018)])
def test_length_at_which_the_return_is_spent(gauge: int, metres: float) -> None:
    per_m = IACS_OHM_MM2_M / awg_area_mm2(gauge)
    assert 3.0 * float(wire_resistance(per_m, metres)) == pytest.approx(0.250, abs=3 * per_m * 5e-5)
