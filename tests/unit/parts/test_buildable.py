"""Whether a console can be made is said without making it; what is kept changes nothing."""

import numpy as np
import pytest
from msgspec.structs import replace

from trimwright.parts import OpeningPlan, Plan, Skin, carcass
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


def test_what_is_kept_of_one_tunnel_does_not_serve_another() -> None:
    low, high = (carcass(_plan(), _skin(top)).panel("left wall").mass_kg for top in (20.0, 30.0))
    wood = np.hypot(500, 10) * 12 * 10 * 680 / 1e9  # ten millimetres less, 12 mm thick
    assert low - high == pytest.approx(wood, rel=1e-9)


def test_an_opening_takes_wood_from_the_deck_alone() -> None:
    skin, hole = _skin(20.0), OpeningPlan("lever", 250.0, 0.0, 100.0, 80.0, 0.0)
    closed, opened = carcass(_plan(), skin), carcass(replace(_plan(), openings=(hole,)), skin)
    assert [p.name for p in opened.panels if p not in closed.panels] == ["deck"]
    assert closed.mass_kg - opened.mass_kg == pytest.approx(100 * 80 * 12 * 680 / 1e9, rel=1e-9)
    assert opened.shape.plan.openings == (hole,)


def test_a_lower_edge_that_is_kept_cannot_be_changed() -> None:
    edge = carcass(_plan(), _skin(20.0)).lower_edges[0]
    with pytest.raises(ValueError, match="read-only"):
        edge.outer[0] = 0.0
