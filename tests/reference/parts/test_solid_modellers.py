"""Carcasses against two solid modellers: manifold3d (meshes) and OpenCASCADE (boundary faces).

One hundred seeded consoles with taper, lean, kinks, each joint and each panel that runs through.
The modellers build the console's shell from nothing but its planes; the panels must fill it, and
must not overlap. Limits: 0.01 mm3 of overlap, 0.05 mm3 of hollow in all joints together (one of
100 mm2 that gapes 0.05 mm would leave 5 mm3), volumes within 1e-6. Hollows are found by accounts:
a union of many touching bodies is where mesh modellers themselves err.
"""

from dataclasses import dataclass
from itertools import combinations, pairwise

import manifold3d as m3
import numpy as np
import pytest
from numpy.typing import NDArray
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakePolygon
from OCP.BRepGProp import BRepGProp
from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections
from OCP.gp import gp_Pnt
from OCP.GProp import GProp_GProps
from shapely import Polygon

from trimwright.parts import BulkheadPlan, Carcass, OpeningPlan, Panel, Plan, Skin, carcass

Array = NDArray[np.float64]
RADIUS = 130.0
CARPET = 14.0
CUT = 20.0  # mm; above every scribe, below every deck
JOINTS = ("butt", "rebate", "housing")


def round_tunnel() -> Skin:
    x = np.linspace(-150.0, 800.0, 39)
    turn = np.linspace(-2.0, 2.0, 121)
    along, angle = np.meshgrid(x, turn, indexing="ij")
    normals = np.stack([0 * along, np.sin(angle), np.cos(angle)], -1)
    return Skin(normals * RADIUS + np.stack([along, 0 * along, 0 * along - RADIUS], -1), normals)


def random_plan(seed: int) -> Plan:
    rng = np.random.default_rng(seed)
    deck_x = [-70.0, *np.sort(rng.uniform(0, 600, 2)).round(), 690.0]
    deck_x[2] = max(deck_x[2], deck_x[1] + 60)
    # every third console changes its width right under a kink of the deck
    middle = deck_x[1] if seed % 3 == 0 else float(rng.uniform(50, 550))
    widths = [(x, float(rng.uniform(95, 125))) for x in (-70.0, middle, 690.0)]
    other = [(x, float(rng.uniform(95, 125))) for x in (-70.0, middle + 20, 690.0)]
    centre = (deck_x[1] + deck_x[2]) / 2
    long = min(0.4 * (deck_x[2] - deck_x[1]), 120.0)
    joint = JOINTS[seed % 3]
    housed = seed % 2 == 1
    at = middle + 60.0 if housed else float(rng.choice((deck_x[1], middle + 5)))
    return Plan(
        deck=tuple((float(x), float(rng.uniform(110, 150))) for x in deck_x),
        left=tuple(widths),
        right=tuple(other),
        start=-70.0,
        end=690.0,
        thickness=float(rng.choice((9.0, 12.0, 18.0))),
        density=680.0,
        deck_joint=joint,  # type: ignore[arg-type]  # one of the three
        through="walls" if seed % 4 < 2 else "deck",
        joint_depth=float(rng.uniform(3, 6)),
        lean_deg=float(rng.uniform(-4, 8)),
        bulkheads=(
            BulkheadPlan("box", float(np.clip(at, -40, 660)), "housing" if housed else "butt"),
        ),
        openings=(OpeningPlan("lever", centre, 3.0, long, 60.0, 12.0),),
        edge="as suits",
    )


def solid(panel: Panel) -> m3.Manifold:
    whole = m3.Manifold()
    for piece in panel.slabs:
        vertices, faces = piece.mesh(panel.frame)
        mesh = m3.Mesh64(np.ascontiguousarray(vertices), np.ascontiguousarray(faces, np.uint64))
        mesh.merge()
        made = m3.Manifold(mesh)
        assert made.status() == m3.Error.NoError
        whole += made
    return whole


def meeting(lines: list[tuple[float, float]], ends: tuple[float, float]) -> list[list[float]]:
    """Corners of a row of lines y = p + q x, cut at both ends."""
    x = [ends[0]]
    x += [(p2 - p1) / (q1 - q2) for (p1, q1), (p2, q2) in pairwise(lines)]
    x.append(ends[1])
    corners = [[x[i], p + q * x[i]] for i, (p, q) in enumerate(lines)]
    return [*corners, [x[-1], lines[-1][0] + lines[-1][1] * x[-1]]]


@dataclass
class Envelope:
    """The region under the deck and between the walls, some way inside its faces."""

    plan: Plan

    def under(self, depth: float) -> m3.Manifold:
        """Return what lies under the deck."""
        lines = []
        for (x0, z0), (x1, z1) in pairwise(self.plan.deck):
            slope = (z1 - z0) / (x1 - x0)
            lines.append((z0 - slope * x0 - depth * np.sqrt(1 + slope**2), slope))
        corners = meeting(lines, (self.plan.start, self.plan.end))
        foot = [[self.plan.end, CUT], [self.plan.start, CUT]]
        section = m3.CrossSection([[*corners, *foot]], m3.FillRule.NonZero)
        turned = section.extrude(1000.0).translate((0, 0, -500.0))
        return turned.rotate((90.0, 0, 0))

    def beside(
        self, points: tuple[tuple[float, float], ...], sign: float, depth: float
    ) -> m3.Manifold:
        """Return what lies inside one side."""
        lean = np.tan(np.radians(self.plan.lean_deg))
        deck = np.array(self.plan.deck)
        lines = []
        for (x0, w0), (x1, w1) in pairwise(points):
            foot0, foot1 = (w + lean * np.interp(x, *deck.T) for x, w in ((x0, w0), (x1, w1)))
            slope = (foot1 - foot0) / (x1 - x0)
            lines.append((foot0 - slope * x0 - depth * np.sqrt(1 + slope**2 + lean**2), slope))
        corners = [[x, sign * y] for x, y in meeting(lines, (self.plan.start, self.plan.end))]
        far = [[self.plan.end, -sign * 900.0], [self.plan.start, -sign * 900.0]]
        section = m3.CrossSection([[*corners, *far]], m3.FillRule.NonZero)
        block = section.extrude(400.0)
        return block.transform([[1, 0, 0, 0], [0, 1, -sign * lean, 0], [0, 0, 1, 0]])

    def at(self, depth: float) -> m3.Manifold:
        """Return the region bounded by all faces."""
        left = self.beside(self.plan.left, -1.0, depth)
        return self.under(depth) ^ left ^ self.beside(self.plan.right, 1.0, depth)


@pytest.mark.parametrize("first", range(0, 100, 10))
def test_panels_fill_the_shell_and_do_not_overlap(first: int) -> None:
    skin = round_tunnel().raised(np.array(CARPET))
    for seed in range(first, first + 10):
        plan = random_plan(seed)
        made = carcass(plan, skin)
        assert made.unbuildable == (), seed
        solids = {panel.name: solid(panel) for panel in made.panels}
        for one, other in combinations(solids, 2):
            assert (solids[one] ^ solids[other]).volume() < 0.01, (seed, one, other)
        envelope = Envelope(plan)
        outer, inner = envelope.at(0.0), envelope.at(plan.thickness)
        high = {name: body.trim_by_plane((0.0, 0.0, 1.0), CUT) for name, body in solids.items()}
        box = high.pop("box")
        for name, body in high.items():
            assert (body ^ inner).volume() < 0.01, (seed, name)
            if plan.deck_joint != "housing":  # a housing leaves a lip beyond the shell
                assert (body - outer).volume() < 0.01, (seed, name)
        shell = outer.volume() - inner.volume()
        filled = sum((body ^ outer).volume() for body in high.values())
        filled += box.volume() - (box ^ inner).volume() + hole_volume(made)
        assert filled == pytest.approx(shell, abs=0.05), seed
        place = plan.bulkheads[0].at
        across = m3.Manifold.cube((plan.thickness, 900.0, 900.0), center=True)
        across = across.translate((place, 0.0, CUT + 450.0)) ^ inner
        assert (box ^ inner).volume() == pytest.approx(across.volume(), abs=0.05), seed


def hole_volume(made: Carcass) -> float:
    """Volume of the openings, by the area of their corners (shapely)."""
    return float(sum(Polygon(h.outline).area * p.thickness for p in made.panels for h in p.holes))


def cascade_volume(panel: Panel) -> float:
    """Volume of a panel with each side a ruled face, by OpenCASCADE."""
    total = 0.0
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


@pytest.mark.parametrize("seed", [1, 5])
def test_volumes_agree_with_opencascade(seed: int) -> None:
    made = carcass(random_plan(seed), round_tunnel().raised(np.array(CARPET)))
    for panel in made.panels:
        if panel.name == "deck 2" or "wall" in panel.name:
            volume = panel.moments()[0]
            assert cascade_volume(panel) == pytest.approx(volume, rel=1e-6), panel.name
