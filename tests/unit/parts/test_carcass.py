"""What a carcass is made of, on figures one can check by hand."""

import numpy as np
import pytest
from msgspec.structs import replace

from trimwright.parts import (
    BuiltHeight,
    BulkheadPlan,
    Carcass,
    OpeningPlan,
    Plan,
    Skin,
    carcass,
    plane_cut,
    saw_line,
    waste,
)

LEVEL = ((0.0, 100.0), (600.0, 100.0))


def flat_skin(height: float = 0.0, half: float = 300.0) -> Skin:
    """Return a level plate at a height, as wide as asked."""
    x, y = np.meshgrid(np.linspace(-50.0, 650.0, 15), np.linspace(-half, half, 31), indexing="ij")
    normals = np.broadcast_to((0.0, 0.0, 1.0), (*x.shape, 3))
    return Skin(np.stack([x, y, 0 * x + height], -1), normals)


def plan(**changes: object) -> Plan:
    line = ((0.0, 110.0), (600.0, 110.0))
    plain = Plan(LEVEL, line, line, 0.0, 600.0, 10.0, 1000.0)
    return replace(plain, **changes)


def spread(made: Carcass, name: str, axis: int) -> float:
    vertices, _ = made.panel(name).solid()
    return float(np.ptp(vertices[:, axis]))


@pytest.mark.parametrize(
    ("joint", "through", "deck_wide", "wall_high"),
    [
        # outside 220, sheet 10, joint 4 deep, deck top 100 above a level plate
        ("butt", "walls", 200.0, 100.0),
        ("butt", "deck", 220.0, 90.0),
        ("rebate", "walls", 208.0, 100.0),
        ("rebate", "deck", 220.0, 94.0),
        ("housing", "walls", 208.0, 110.0),
        ("housing", "deck", 240.0, 94.0),
    ],
)
def test_joint_sizes(joint: str, through: str, deck_wide: float, wall_high: float) -> None:
    made = carcass(plan(deck_joint=joint, through=through, joint_depth=4.0), flat_skin())
    assert spread(made, "deck", 1) == pytest.approx(deck_wide, abs=1e-9)
    assert spread(made, "left wall", 2) == pytest.approx(wall_high, abs=1e-9)
    assert spread(made, "deck", 0) == pytest.approx(600.0, abs=1e-9)


def test_butt_box_weighs_what_its_sheets_weigh() -> None:
    made = carcass(plan(), flat_skin())
    # deck 600 x 200 x 10, two walls 600 x 100 x 10, 1000 kg/m3
    assert made.mass_kg == pytest.approx(1.2 + 0.6 + 0.6, rel=1e-12)
    # heights of the parts: 95 and 50
    assert made.centre_mm == pytest.approx((300.0, 0.0, (1.2 * 95 + 1.2 * 50) / 2.4), abs=1e-9)


def test_opening_takes_its_wood_out() -> None:
    opening = OpeningPlan("lever", 150.0, 0.0, 100.0, 80.0, 0.0)
    made = carcass(plan(openings=(opening,)), flat_skin())
    whole = carcass(plan(), flat_skin())
    assert whole.mass_kg - made.mass_kg == pytest.approx(0.08, rel=1e-9)
    assert made.centre_mm[0] > whole.centre_mm[0]
    (hole,) = made.panel("deck").holes
    assert hole.centre == (150.0, 0.0)


def test_bulkhead_butted_and_housed() -> None:
    butted = carcass(plan(bulkheads=(BulkheadPlan("box", 300.0),)), flat_skin())
    housed = carcass(
        plan(bulkheads=(BulkheadPlan("box", 300.0, "housing"),), joint_depth=4.0), flat_skin()
    )
    assert spread(butted, "box", 1) == pytest.approx(200.0, abs=1e-9)
    assert spread(housed, "box", 1) == pytest.approx(208.0, abs=1e-9)
    (groove,) = housed.panel("left wall").recesses
    assert (groove.kind, groove.depth, groove.meets) == ("housing", 4.0, "box")
    u = [point[0] for point in groove.surface]
    assert (min(u), max(u)) == pytest.approx((295.0, 305.0))


def test_outlines_are_seen_from_outside() -> None:
    made = carcass(plan(), flat_skin())
    for panel in made.panels:
        frame = panel.frame
        assert np.cross(frame.u, frame.v) == pytest.approx(frame.n, abs=1e-12)
        u, v = np.array(panel.outer).T
        assert (u * np.roll(v, -1) - np.roll(u, -1) * v).sum() > 0
    assert made.panel("left wall").frame.u[0] == 1.0
    assert made.panel("right wall").frame.u[0] == -1.0


def test_edges_say_what_they_meet() -> None:
    made = carcass(plan(bulkheads=(BulkheadPlan("box", 300.0),)), flat_skin())
    kinds = [(edge.kind, edge.meets) for edge in made.panel("box").edges]
    assert kinds == [
        ("scribe", "tunnel"),
        ("joint", "right wall"),
        ("joint", "deck"),
        ("joint", "left wall"),
    ]


def test_as_built_height_overrules_the_scribe() -> None:
    made = carcass(
        plan(built_heights=(BuiltHeight("left wall", 200.0, 97.0),)),
        flat_skin(),
    )
    assert spread(made, "left wall", 2) == pytest.approx(97.0, abs=1e-9)
    assert spread(made, "right wall", 2) == pytest.approx(100.0, abs=1e-9)


def test_as_built_thickness_counts_for_its_panel_only() -> None:
    made = carcass(plan(built_thickness=(("left wall", 9.0),)), flat_skin())
    assert spread(made, "left wall", 1) == pytest.approx(9.0)
    assert spread(made, "right wall", 1) == pytest.approx(10.0)
    assert spread(made, "deck", 1) == pytest.approx(201.0)


def test_deeper_scribe_takes_wood_off_below() -> None:
    before, after = carcass(plan(), flat_skin()), carcass(plan(deeper=3.0), flat_skin())
    found = {(cut.panel, cut.face): cut for cut in waste(before, after)}
    cut = found["left wall", "outer"]
    assert cut.area_mm2 == pytest.approx(3.0 * 600.0)
    assert ("deck", "outer") not in found
    assert waste(before, before) == ()


def test_saw_runs_half_a_kerf_outside() -> None:
    outline = carcass(plan(), flat_skin()).panel("deck").outer
    line = np.array(saw_line(outline, 3.0))
    assert np.ptp(line, axis=0) == pytest.approx((603.0, 203.0))


def test_wall_beside_a_narrow_tunnel_ends_on_the_floor_or_says_so() -> None:
    narrow = flat_skin(half=60.0)
    known = carcass(plan(floor_z=-80.0), narrow)
    assert spread(known, "left wall", 2) == pytest.approx(180.0)
    assert known.notes == ()
    assert known.lower_edges[0].missed.all()
    unknown = carcass(plan(), narrow)
    assert [note.split(":")[0] for note in unknown.notes] == ["left wall", "right wall"]


def test_bulkhead_reaches_the_floor_beside_a_narrow_tunnel() -> None:
    cross = (BulkheadPlan("box", 300.0),)
    made = carcass(plan(bulkheads=cross, floor_z=-80.0), flat_skin(half=60.0))
    panel = made.panel("box")
    # 200 wide and 90 high over all, with 80 more on 40 mm either side of the tunnel
    area = 200.0 * 90.0 + 2 * 40.0 * 80.0
    assert panel.moments()[0] == pytest.approx(10.0 * area, rel=1e-5)


def test_console_past_the_measured_tunnel_says_so() -> None:
    x, y = np.meshgrid(np.linspace(100.0, 400.0, 4), np.linspace(-300.0, 300.0, 5), indexing="ij")
    normals = np.broadcast_to((0.0, 0.0, 1.0), (*x.shape, 3))
    made = carcass(plan(), Skin(np.stack([x, y, 0 * x], -1), normals))
    assert made.notes[0].startswith("the console reaches past the measured tunnel")


def test_fit_reads_deck_and_walls() -> None:
    made = carcass(plan(lean_deg=np.degrees(np.arctan(0.1))), flat_skin())
    assert made.deck_top(np.array([0.0, 300.0])) == pytest.approx([100.0, 100.0])
    # 110 at deck level, 10 mm wider 100 mm lower
    reach = made.outer_half_width(np.array([300.0]), np.array([0.0]), "left")
    assert reach == pytest.approx([120.0])
    assert made.wall_outer("right")[:, 1].max() == pytest.approx(120.0)
    names = [name for name, _ in made.convex_pieces()]
    assert names == ["deck", "left wall", "right wall"]


def test_square_edge_is_explained() -> None:
    made = carcass(plan(edge="as suits"), flat_skin())
    assert made.lower_edges[0].form == "square"
    assert "square" in made.lower_edges[0].why


def test_edge_steeper_than_the_saw_tilts_is_square() -> None:
    x, y = np.meshgrid(np.linspace(-50.0, 650.0, 5), np.linspace(-300.0, 300.0, 61), indexing="ij")
    normals = np.stack([0 * x, np.sign(y) * np.sqrt(3), 1 + 0 * x], -1) / 2
    skin = Skin(np.stack([x, y, 100.0 - np.sqrt(3) * np.abs(y)], -1), normals)
    made = carcass(plan(deck=((0.0, 150.0), (600.0, 150.0))), skin)
    edge = made.lower_edges[0]
    assert (edge.form, edge.why) == ("square", "60 degrees is beyond the saw's tilt of 45")
    # 10 mm sheet: 10 tan 60
    assert edge.visible_gap == pytest.approx(17.320508, abs=1e-6)


def test_row_that_tucks_in_is_met_at_its_highest_place() -> None:
    row = np.array([[[0.0, 0.0, 9.0], [0.0, 4.0, 8.0], [0.0, 4.0, 3.0], [0.0, 1.0, 0.0]]])
    cut = plane_cut(Skin(row, row), np.array((0.0, 1.0, 0.0)), np.array([2.0]))
    assert cut.points[0, 0] == pytest.approx((0.0, 2.0, 8.5))


def test_foot_of_a_bulkhead_lies_on_the_walls_inner_face() -> None:
    x, y = np.meshgrid(np.linspace(-50.0, 650.0, 15), np.linspace(-300.0, 300.0, 31), indexing="ij")
    normals = np.broadcast_to((0.0, 0.0, 1.0), (*x.shape, 3))
    skin = Skin(np.stack([x, y, -0.3 * np.abs(y)], -1), normals)
    made = carcass(plan(lean_deg=7.0, bulkheads=(BulkheadPlan("box", 300.0),)), skin)
    edge = next(edge for edge in made.lower_edges if edge.panel == "box")
    for points in (edge.outer, edge.inner):
        for end, side in ((points[0], made.shape.left), (points[-1], made.shape.right)):
            assert abs(end[1]) == pytest.approx(side.reach(end[0], end[2], 10.0), abs=1e-9)
