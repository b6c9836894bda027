"""Whether a console can be made is said without making it, and says the same."""

from dataclasses import replace

import numpy as np

from trimwright.parts import Plan, Skin, carcass
from trimwright.parts.carcass import faults


def _plan() -> Plan:
    widths = ((0.0, 120.0), (500.0, 110.0))
    return Plan(
        deck=((0.0, 160.0), (500.0, 150.0)),
        left=widths,
        right=widths,
        start=0.0,
        end=500.0,
        thickness=12.0,
        density=680.0,
    )


def _skin(top_mm: float) -> Skin:
    along, across = np.meshgrid(
        np.linspace(-50, 550, 61), np.linspace(-150, 150, 61), indexing="ij"
    )
    points = np.stack([along, across, np.full_like(along, top_mm)], axis=-1)
    return Skin(points, np.broadcast_to(np.array([0.0, 0.0, 1.0]), points.shape))


def test_a_console_is_refused_for_the_reasons_its_carcass_gives() -> None:
    good, thick = _plan(), replace(_plan(), thickness=-1.0)
    for plan, top in ((good, 20.0), (good, 155.0), (thick, 20.0)):
        assert faults(plan, _skin(top)) == carcass(plan, _skin(top)).unbuildable
    assert not faults(good, _skin(20.0))
    assert faults(good, _skin(155.0))
    assert faults(thick, _skin(20.0))
