"""Our panels against a boundary-representation kernel, OpenCASCADE, building the same ones.

Ours is the whole carcass: scribes, joints, bevels, openings, masses, from a plan that was not
built before. The kernel does the same job once: sheets between planes, cut by the tunnel and by
one another, weighed. Once it does far less: it gets every corner for nothing and only lofts the
pieces and measures them. Both are given the covered tunnel, which either makes once.
"""

from functools import cache
from itertools import count

import numpy as np
from msgspec.structs import replace

from bench.kernel import between, panels, volume
from bench.measure import Bench
from trimwright.parts import BulkheadPlan, Carcass, OpeningPlan, Plan, Skin, carcass

NUMBERS = count(1)
PLAN = Plan(
    deck=((-70.0, 110.0), (120.0, 140.0), (690.0, 120.0)),
    left=((-70.0, 105.0), (300.0, 116.0), (690.0, 112.0)),
    right=((-70.0, 105.0), (300.0, 116.0), (690.0, 112.0)),
    start=-70.0,
    end=690.0,
    thickness=12.0,
    density=680.0,
    deck_joint="rebate",
    joint_depth=6.0,
    lean_deg=3.0,
    tilt_deg=60.0,  # the walls stand up to 52 degrees off square to the tunnel
    bulkheads=(BulkheadPlan("box", 430.0, "housing"),),
    openings=(OpeningPlan("lever", 200.0, 0.0, 130.0, 100.0, 25.0),),
)


@cache
def round_tunnel() -> Skin:
    """Return a covered half-cylinder, 10 mm by 3 mm."""
    x = np.linspace(-150.0, 800.0, 96)
    turn = np.linspace(-2.0, 2.0, 161)
    along, angle = np.meshgrid(x, turn, indexing="ij")
    normals = np.stack([0 * along, np.sin(angle), np.cos(angle)], -1)
    axis = np.stack([along, 0 * along, 0 * along - 140.0], -1)
    return Skin(normals * 155.0 + axis, normals)


@cache
def made() -> Carcass:
    """Return the carcass, built once."""
    return carcass(PLAN, round_tunnel())


def moved() -> Plan:
    """Return the plan with every wall and bulkhead where none was before: nothing kept serves."""
    by = next(NUMBERS) / 100
    return replace(
        PLAN,
        left=tuple((x, half + by) for x, half in PLAN.left),
        right=tuple((x, half + by) for x, half in PLAN.right),
        bulkheads=tuple(replace(one, at=one.at + by) for one in PLAN.bulkheads),
    )


def ours() -> None:
    """Build the carcass from a plan that was not built before, and weigh it."""
    if carcass(moved(), round_tunnel()).unbuildable:
        raise ValueError("the plan must be buildable")


def peer() -> None:
    """Make the same panels in the kernel, and measure their volumes."""
    sum(volume(solid) for solid in panels(PLAN, round_tunnel()))


def given() -> None:
    """Loft every piece of the panels in the kernel from corners that ours worked out."""
    for panel in made().panels:
        for piece in panel.slabs:
            rings = [
                panel.frame.placed(np.concatenate([low, high[::-1]]), depth)
                for low, high, depth in zip(piece.lower, piece.upper, piece.depths, strict=True)
            ]
            volume(between(*rings))


BENCH = Bench(
    name="panels",
    ours=ours,
    peer=peer,
    peer_says="OpenCASCADE making the same panels by boolean cuts",
)
GIVEN = Bench(
    name="panels, corners given",
    ours=ours,
    peer=given,
    peer_says="OpenCASCADE only lofting our pieces from given corners",
)
