"""Onderdonk's, Preece's and the adiabatic form of a short in a copper wire.

Onderdonk: I = A sqrt(log10((Tm - Ta)/(234 + Ta) + 1)/(33 t)), A in circular mils. Preece:
I = 10244 d^1.5, d in inches. Adiabatic: I^2 t = (k A)^2, k = 226 sqrt(ln((Tf + 234.5)/(Ti +
234.5))). Computed from the formulas to seven digits; 123 A for 0.0524 in is printed so.
"""

import pytest

from trimwright.stock import wire
from trimwright.wiring.copper import (
    Laid,
    adiabatic_k,
    adiabatic_seconds,
    onderdonk_current,
    preece_current,
    seconds_to,
)

CIRCULAR_MIL_MM2 = 5.067074790975e-4
INCH_MM = 25.4


def test_onderdonk_of_16_gauge_in_5_s() -> None:
    found = onderdonk_current(2581 * CIRCULAR_MIL_MM2, 5.0)
    assert found == pytest.approx(168.863713, rel=1e-6)  # 234 + Ta; with 234 - Ta it is 177.756


@pytest.mark.parametrize(
    ("mm2", "currents"),
    [(0.5, (456.5055, 144.3597, 64.5596)), (1.0, (913.0110, 288.7194, 129.1193))],
)
def test_onderdonk_to_melting(mm2: float, currents: tuple[float, float, float]) -> None:
    found = [onderdonk_current(mm2, seconds) for seconds in (0.1, 1.0, 5.0)]
    assert found == pytest.approx(list(currents), abs=5e-5)


def test_onderdonk_to_the_limit_of_insulation() -> None:
    assert onderdonk_current(1.0, 1.0, final_c=150.0) == pytest.approx(142.0770, abs=5e-5)


@pytest.mark.parametrize(
    ("start", "final", "k"),
    [
        (70.0, 160.0, 115.004481),
        (25.0, 150.0, 141.712468),
        (30.0, 160.0, 142.895260),
        (85.0, 150.0, 97.255264),
    ],
)
def test_k_of_the_adiabatic_form(start: float, final: float, k: float) -> None:
    assert adiabatic_k(start, final) == pytest.approx(k, abs=5e-7)


def test_time_of_the_adiabatic_form() -> None:
    assert adiabatic_seconds(1.0, 100.0, 25.0, 150.0) == pytest.approx(2.008242, abs=5e-7)


def test_preece_prints_123_a() -> None:
    found = preece_current(0.0524 * INCH_MM)
    assert found == pytest.approx(123, abs=0.5)
    assert found == pytest.approx(122.875840, abs=5e-7)


@pytest.mark.parametrize(
    ("mm2", "amperes"),
    [(0.5, 57.0334), (0.75, 77.3032), (1.0, 95.9183), (1.5, 130.0080), (2.5, 190.7026)],
)
def test_preece_of_solid_wire(mm2: float, amperes: float) -> None:
    diameter_mm = (4 * mm2 / 3.141592653589793) ** 0.5
    assert preece_current(diameter_mm) == pytest.approx(amperes, abs=5e-5)


def test_two_forms_agree_within_half_a_percent() -> None:
    onderdonk = onderdonk_current(1.0, 1.0)
    adiabatic = adiabatic_k(25.0, 1083.0)
    assert onderdonk == pytest.approx(288.7194, abs=5e-5)
    assert adiabatic == pytest.approx(288.0711, abs=5e-5)
    assert onderdonk == pytest.approx(adiabatic, rel=0.005)


@pytest.mark.parametrize("size", ["0.5 mm2", "2.5 mm2", "10 mm2", "16 AWG"])
def test_a_hard_short_is_adiabatic(size: str) -> None:
    found = wire(size)
    copper_mm2 = (1 / 58) / found.conductor.ohm_per_m  # the copper that its resistance speaks of
    amperes = 2000 * copper_mm2  # 0.005 s: hardly any heat leaves
    ours = float(seconds_to(Laid(found, 25.0), amperes, limit_c=100.0)[0])
    assert ours == pytest.approx(adiabatic_seconds(copper_mm2, amperes, 25.0, 100.0), rel=2e-3)
