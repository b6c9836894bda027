"""Our panels against a boundary-representation kernel building the same ones.

Ours is the whole carcass: scribes, joints, bevels, openings, masses. The kernel (OpenCASCADE) gets
every corner for nothing, and only lofts the pieces between two outlines and measures volumes.
"""

from functools import cache

import numpy as np

from bench.measure import Bench
from trimwright.parts import BulkheadPlan, Carcass, OpeningPlan, Plan, Skin, carcass

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


def kernel(whole: Carcass) -> float:
    """Return the volume of all panels as the kernel builds them [mm3]."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakePolygon  # noqa: PLC0415  lazy: heavy
    from OCP.BRepGProp import BRepGProp  # noqa: PLC0415  lazy: heavy
    from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections  # noqa: PLC0415  lazy: heavy
    from OCP.gp import gp_Pnt  # noqa: PLC0415  lazy: heavy
    from OCP.GProp import GProp_GProps  # noqa: PLC0415  lazy: heavy

    total = 0.0
    for panel in whole.panels:
        for piece in panel.slabs:
            loft = BRepOffsetAPI_ThruSections(True, True, 1e-7)  # noqa: FBT003  solid, ruled
            loft.CheckCompatibility(False)  # noqa: FBT003  corners face each other already
            for k in (0, 1):
                ring = np.concatenate([piece.lower[k], piece.upper[k][::-1]])
                wire = BRepBuilderAPI_MakePolygon()
                for x, y, z in panel.frame.placed(ring, piece.depths[k]):
                    wire.Add(gp_Pnt(x, y, z))
                wire.Close()
                loft.AddWire(wire.Wire())
            loft.Build()
            measured = GProp_GProps()
            BRepGProp.VolumeProperties_s(loft.Shape(), measured)
            total += abs(measured.Mass())
    return total


def ours() -> None:
    """Build the carcass from its plan."""
    carcass(PLAN, round_tunnel())


def peer() -> None:
    """Build the same panels in the kernel."""
    kernel(made())


BENCH = Bench(
    name="panels",
    ours=ours,
    peer=peer,
    peer_says="OpenCASCADE lofting the same pieces from given corners",
)
