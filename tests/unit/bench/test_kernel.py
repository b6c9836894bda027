"""The kernel that our panels are timed against makes the same panels."""

import pytest

from bench import kernel
from bench.panels import PLAN, made, moved, round_tunnel
from trimwright.parts import carcass

BITE = 2e-3  # ours stand clear of the bulging tunnel by a straight bevel's bite, up to 0.5 mm


def test_the_kernel_makes_the_panels_that_we_make() -> None:
    ours, solids = made().panels, kernel.panels(PLAN, round_tunnel())
    assert len(ours) == len(solids)
    for panel, solid in zip(ours, solids, strict=True):
        assert kernel.volume(solid) == pytest.approx(panel.moments()[0], rel=BITE), panel.name


def test_no_turn_builds_a_plan_again() -> None:
    one, other = moved(), moved()
    assert one != other
    edges = [[edge.outer for edge in carcass(p, round_tunnel()).lower_edges] for p in (one, other)]
    assert all((a.shape != b.shape) or (a != b).any() for a, b in zip(*edges, strict=True))
