"""IEC 60228, class 5, plain copper: the largest resistance at 20 degC, ohm/km, as printed.

The ratio is to pure copper of the nominal area: a metric size is a name, the resistance decides.
"""

import pytest

from trimwright.stock import conductor
from trimwright.wiring.copper import IACS_OHM_MM2_M


@pytest.mark.parametrize(
    ("size", "mm2", "ohm_per_km", "ratio"),
    [
        ("0.5 mm2", 0.5, 39.0, 1.1310),
        ("0.75 mm2", 0.75, 26.0, 1.1310),
        ("1 mm2", 1.0, 19.5, 1.1310),
        ("1.5 mm2", 1.5, 13.3, 1.1571),
        ("2.5 mm2", 2.5, 7.98, 1.1571),
        ("4 mm2", 4.0, 4.95, 1.1484),
        ("6 mm2", 6.0, 3.30, 1.1484),
        ("10 mm2", 10.0, 1.91, 1.1078),
        ("16 mm2", 16.0, 1.21, 1.1229),
        ("25 mm2", 25.0, 0.780, 1.1310),
    ],
)
def test_largest_resistance(size: str, mm2: float, ohm_per_km: float, ratio: float) -> None:
    found = conductor(size)
    assert found.ohm_per_m * 1000 == pytest.approx(ohm_per_km, rel=1e-12)
    assert found.ohm_per_m / (IACS_OHM_MM2_M / mm2) == pytest.approx(ratio, abs=5e-5)
    assert found.confirmed
