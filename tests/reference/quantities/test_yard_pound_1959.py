"""The yard and the pound of 1 July 1959, and units that follow from them.

Federal Register notice of 30 June 1959 (24 FR 5348): 1 yard = 0.9144 metre exactly, 1 pound
avoirdupois = 0.453 592 37 kilogram exactly. The rest as printed in NIST SP 811 (2008), appendix
B.8, to its digits: a factor printed in bold is exact.
"""

import pytest

from trimwright.quantities import density, force, length, mass, pressure, torque


def test_a_yard_and_a_pound_are_exact() -> None:
    assert length("3 ft", "mm").value == 914.4
    assert length("36 in", "mm").value == 914.4
    assert mass("1 lb").value == 0.45359237


@pytest.mark.parametrize(
    ("value", "printed"),
    [
        (force("1 lbf").value, "4.448222"),
        (force("1 kgf").value, "9.80665"),
        (pressure("1 psi").value, "6.894757"),
        (torque("1 lbf ft").value, "1.355818"),
        (torque("1 lbf in").value, "0.1129848"),
        (density("1 lb/ft3").value, "16.01846"),
        (mass("1 oz").value, "0.02834952"),
        (length("1 thou", "mm").value, "0.0254"),
    ],
)
def test_factor(value: float, printed: str) -> None:
    assert value == pytest.approx(float(printed), abs=0.5 * 10 ** -len(printed.split(".")[1]))
