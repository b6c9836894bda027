"""DIN VDE 0298-4: what single PVC cores carry in free air, and how the air's warmth counts.

Table 11, column 2: copper at 70 degC in air of 30 degC. Table 17: factors for other air. Printed
for cores of building wire, whose insulation is thicker than a car's, so with more surface; ours
must not be above the printed rating, and not below it by more than the surface and the scatter of
free convection explain, a fifth. Table 26 gives the bundle factors.
"""

import pytest

from trimwright.stock import wire
from trimwright.wiring.copper import Laid, ampacity, bundle_factor


@pytest.mark.parametrize(
    ("size", "printed_a"),
    [
        ("0.75 mm2", 15),
        ("1 mm2", 19),
        ("1.5 mm2", 24),
        ("2.5 mm2", 32),
        ("4 mm2", 42),
        ("6 mm2", 54),
        ("10 mm2", 73),
    ],
)
def test_a_core_alone_in_free_air(size: str, printed_a: float) -> None:
    ours = ampacity(Laid(wire(size), 30.0), limit_c=70.0)
    assert 0.8 * printed_a <= ours <= printed_a


@pytest.mark.parametrize(
    ("celsius", "printed"),
    [
        (10.0, 1.22),
        (15.0, 1.17),
        (20.0, 1.12),
        (25.0, 1.06),
        (35.0, 0.94),
        (40.0, 0.87),
        (45.0, 0.79),
        (50.0, 0.71),
        (55.0, 0.61),
        (60.0, 0.50),
        (65.0, 0.35),
    ],
)
def test_factors_for_the_air(celsius: float, printed: float) -> None:
    found = wire("1.5 mm2")
    ours = ampacity(Laid(found, celsius), limit_c=70.0) / ampacity(Laid(found, 30.0), limit_c=70.0)
    # the printed ones hold the film the same at every rise; free convection weakens with the rise
    assert ours == pytest.approx(printed, abs=0.02)


@pytest.mark.parametrize(
    ("wires", "printed"),
    [(5, 0.75), (7, 0.65), (10, 0.55), (14, 0.50), (19, 0.45), (24, 0.40), (40, 0.35), (61, 0.30)],
)
def test_factors_for_cores_together(wires: int, printed: float) -> None:
    assert bundle_factor(wires) / bundle_factor(3) == pytest.approx(printed, rel=1e-12)
    assert bundle_factor(3) == 18 / 24  # 1.5 mm2: three together, and one alone
