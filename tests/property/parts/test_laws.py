"""Laws of carcasses: mirror, never under the tunnel, thicker carpet, mass."""

from typing import Literal

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.parts import BulkheadPlan, OpeningPlan, Plan, Skin, carcass
from trimwright.parts.plan import DeckJoint
from trimwright.parts.shape import shape
from trimwright.parts.wall import WallPlace
from trimwright.parts.wall_edge import wall_line

JOINTS: tuple[DeckJoint, ...] = ("butt", "rebate", "housing")
QUICK = settings(
    max_examples=8,
    deadline=None,
    derandomize=True,
    phases=(Phase.explicit, Phase.generate),
)
HALF = st.floats(60.0, 105.0)


def tunnel(radius: float, carpet: float, shift: float = 0.0) -> Skin:
    x = np.linspace(-50.0, 650.0, 101)
    turn = np.linspace(-1.8, 1.8, 361)
    along, angle = np.meshgrid(x, turn, indexing="ij")
    normals = np.stack([0 * along, np.sin(angle), np.cos(angle)], -1)
    axis = np.stack([along, 0 * along + shift, 0 * along - radius], -1)
    return Skin(normals * (radius + carpet) + axis, normals)


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    x = (0.0, draw(st.floats(200.0, 300.0)), 600.0)
    joint: DeckJoint = draw(st.sampled_from(JOINTS))
    return Plan(
        deck=tuple((at, draw(st.floats(70.0, 100.0))) for at in x),
        left=tuple((at, draw(HALF)) for at in x),
        right=tuple((at, draw(HALF)) for at in x),
        start=0.0,
        end=600.0,
        thickness=draw(st.sampled_from((9.0, 12.0, 18.0))),
        density=680.0,
        deck_joint=joint,
        through=draw(st.sampled_from(("walls", "deck"))),
        joint_depth=4.0,
        lean_deg=draw(st.floats(-3.0, 10.0)),
        bulkheads=(BulkheadPlan("box", draw(st.floats(400.0, 550.0)), "housing"),),
        openings=(OpeningPlan("lever", 100.0, 0.0, 60.0, 50.0, 10.0),),
        edge=draw(st.sampled_from(("bevelled", "square", "as suits"))),
    )


@QUICK
@given(plans(), st.floats(-10.0, 10.0))
def test_mirrored_design_in_a_mirrored_car_is_the_mirror_image(plan: Plan, shift: float) -> None:
    one = carcass(plan, tunnel(150.0, 12.0, shift))
    mirrored = tunnel(150.0, 12.0, -shift)
    other = carcass(replace(plan, left=plan.right, right=plan.left), mirrored)
    assert one.unbuildable == ()
    assert other.mass_kg == pytest.approx(one.mass_kg, rel=1e-9)
    assert other.centre_mm == pytest.approx(
        (one.centre_mm[0], -one.centre_mm[1], one.centre_mm[2]), abs=1e-6
    )
    for a, b in (("left", "right"), ("right", "left")):
        for k, name in enumerate(p.name for p in one.panels if p.name.startswith(a)):
            here, there = one.panel(name), other.panel(name.replace(a, b))
            assert _sorted(here.outer_points(), -1.0) == pytest.approx(
                _sorted(there.outer_points(), 1.0), abs=1e-6
            ), (name, k)


def _sorted(points: NDArray[np.float64], sign: float) -> NDArray[np.float64]:
    """Points in an order that does not hang on where an outline begins."""
    turned = points * np.array((1.0, sign, 1.0))
    return np.asarray(turned[np.lexsort(np.round(turned, 4).T)])


@QUICK
@given(plans())
def test_lower_edge_never_passes_under_the_surface(plan: Plan) -> None:
    radius, carpet = 150.0, 12.0
    made = carcass(plan, tunnel(radius, carpet))
    for edge in made.lower_edges:
        share = np.linspace(0.0, 1.0, 21)[:, None, None]
        points = edge.outer * (1 - share) + edge.inner * share
        away = np.hypot(points[..., 1], points[..., 2] + radius) - (radius + carpet)
        assert away.min() > -0.01  # the grid's chords: L^2/(8 R) = 0.002 mm


@pytest.mark.parametrize("form", ["bevelled", "square"])
@QUICK
@given(plan=plans(), more=st.floats(0.5, 15.0))
def test_thicker_carpet_never_lowers_an_edge(
    form: Literal["bevelled", "square"], plan: Plan, more: float
) -> None:
    planes = shape(replace(plan, edge=form, tilt_deg=89.0))
    # a saw that tilts as far as asked: else the thinner carpet, being steeper, may have the square
    # edge, which stands higher, where the thicker one has the bevel
    for name in ("left", "right"):
        place = WallPlace(planes, name, 0)
        thin, thick = (wall_line(place, tunnel(150.0, 5.0 + t)) for t in (0.0, more))
        assert (thin.form, thick.form) == (form, form)
        x = np.linspace(10.0, 190.0, 40)
        for depth in (0.0, plan.thickness / 2, plan.thickness):
            assert np.all(thick.height(x, depth) >= thin.height(x, depth))


@QUICK
@given(plans())
def test_masses_add_up_and_openings_take_theirs_out(plan: Plan) -> None:
    skin = tunnel(150.0, 12.0)
    made, whole = carcass(plan, skin), carcass(replace(plan, openings=()), skin)
    assert made.mass_kg == pytest.approx(sum(p.mass_kg for p in made.panels), rel=1e-12)
    moment = sum(p.mass_kg * p.centre for p in made.panels) / made.mass_kg
    assert made.centre_mm == pytest.approx(moment, abs=1e-9)
    (hole,) = (hole for panel in made.panels for hole in panel.holes)
    u, v = np.array(hole.outline).T
    area = abs((u * np.roll(v, -1) - np.roll(u, -1) * v).sum()) / 2
    lost = area * plan.thickness * plan.density / 1e9
    assert whole.mass_kg - made.mass_kg == pytest.approx(lost, rel=1e-6)


@QUICK
@given(plans())
def test_solids_are_closed_and_hold_the_volume(plan: Plan) -> None:
    made = carcass(plan, tunnel(150.0, 12.0))
    for panel in made.panels:
        vertices, faces = panel.solid()
        edges = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
        forth = {tuple(edge) for edge in edges.tolist()}
        assert len(forth) == len(edges)
        assert all((b, a) in forth for a, b in forth)
        a, b, c = (vertices[faces[:, k]] - vertices[0] for k in range(3))
        volume = (np.cross(a, b) * c).sum() / 6
        assert volume == pytest.approx(panel.moments()[0], rel=1e-9)
