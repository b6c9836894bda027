"""Scribes, bevels and masses against closed forms.

Scribes are compared within 0.01 mm (a pencil line is 0.3 mm), on grids 3 mm wide or finer.
"""

import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.parts import Frame, Panel, Plan, Skin, bite, carcass, plane_cut
from trimwright.parts.panel import Run, outlines
from trimwright.parts.slab import polygon_moments, slab

Array = NDArray[np.float64]
UP = np.array((0.0, 0.0, 1.0))


def cylinder(radius: float, across: int = 641) -> Skin:
    """Half a cylinder along the car, its axis at z = 0."""
    x = np.linspace(-200.0, 200.0, 81)
    turn = np.linspace(-np.pi / 2, np.pi / 2, across)
    along, angle = np.meshgrid(x, turn, indexing="ij")
    normals = np.stack([0 * along, np.sin(angle), np.cos(angle)], -1)
    return Skin(normals * radius + along[..., None] * np.array((1.0, 0.0, 0.0)), normals)


@pytest.mark.parametrize(
    ("radius", "thick", "y", "z"),
    [
        # a carpet on a half-cylinder: height is the root of (R + t) squared less y squared
        (150.0, 0.0, 0.0, 150.0),
        (150.0, 0.0, 50.0, 141.421356),
        (150.0, 0.0, 100.0, 111.803399),
        (150.0, 0.0, 140.0, 53.851648),
        (150.0, 12.0, 0.0, 162.0),
        (150.0, 12.0, 50.0, 154.090882),
        (150.0, 12.0, 100.0, 127.451952),
        (150.0, 12.0, 150.0, 61.188234),
        (180.0, 8.0, 60.0, 178.168460),
        (180.0, 8.0, 120.0, 144.720420),
        (180.0, 8.0, 170.0, 80.274529),
    ],
)
def test_wall_on_a_carpeted_half_cylinder(radius: float, thick: float, y: float, z: float) -> None:
    skin = cylinder(radius).raised(np.array(thick))
    cut = plane_cut(skin, np.array((0.0, 1.0, 0.0)), np.array([y]))
    assert cut.found.all()
    assert cut.points[0, :, 2] == pytest.approx(z, abs=0.01)


def test_lifting_the_curve_straight_up_instead_is_short() -> None:
    normal = np.array((0.0, 1.0, 0.0))
    for y, short in ((100.0, 3.648553), (140.0, 15.659087)):
        bare = plane_cut(cylinder(150.0), normal, np.array([y])).points[0, 0, 2]
        raised = cylinder(150.0).raised(np.array(12.0))
        true = plane_cut(raised, normal, np.array([y])).points[0, 0, 2]
        # a carpet square to a half-cylinder lies on a larger half-cylinder
        assert true - (bare + 12.0) == pytest.approx(short, abs=0.02)


def test_bulkhead_leaned_fifteen_degrees_is_a_semi_ellipse() -> None:
    lean = np.radians(15.0)
    normal = np.array((np.cos(lean), 0.0, -np.sin(lean)))
    skin = cylinder(150.0).raised(np.array(12.0)).turned()
    cut = plane_cut(skin, normal, np.array([0.0]))
    height = cut.points[0] @ np.array((np.sin(lean), 0.0, np.cos(lean)))
    y = cut.points[0, :, 1]
    # sqrt(162^2 - y^2)/cos 15
    assert np.interp([0.0, 100.0], y, height) == pytest.approx([167.714741, 131.947970], abs=0.01)


def test_wall_parallel_to_the_axis_of_a_cone_is_a_hyperbola() -> None:
    x = np.linspace(500.0, 900.0, 81)
    turn = np.linspace(-np.pi / 2, np.pi / 2, 641)
    along, angle = np.meshgrid(x, turn, indexing="ij")
    points = np.stack([along, 0.2 * along * np.sin(angle), 0.2 * along * np.cos(angle)], -1)
    normals = np.stack([-0.2 + 0 * along, np.sin(angle), np.cos(angle)], -1) / np.sqrt(1.04)
    cut = plane_cut(Skin(points, normals), np.array((0.0, 1.0, 0.0)), np.array([60.0]))
    # z^2 = (0.2 x)^2 - 60^2
    assert cut.points[0, :, 2] == pytest.approx(np.sqrt((0.2 * x) ** 2 - 3600.0), abs=0.01)
    # N . n with N = (-0.2, y/r, z/r)/sqrt(1.04)
    assert cut.normals[0, :, 1] == pytest.approx(60.0 / (0.2 * x) / np.sqrt(1.04), abs=1e-4)


def test_wall_at_an_angle_to_a_cylinder_is_an_ellipse() -> None:
    normal = np.array((-0.1, 1.0, 0.0))
    cut = plane_cut(cylinder(162.0), normal, np.array([100.0]))
    x, _, z = cut.points[0].T
    assert z == pytest.approx(np.sqrt(162.0**2 - (100.0 + 0.1 * x) ** 2), abs=0.01)


def plan(half: float, lean: float = 0.0, edge: str = "bevelled", t: float = 12.0) -> Plan:
    line = ((-150.0, half), (150.0, half))
    deck = ((-150.0, 220.0), (150.0, 220.0))
    return Plan(deck, line, line, -150.0, 150.0, t, 680.0, lean_deg=lean, edge=edge)  # type: ignore[arg-type]  # one of three


@pytest.mark.parametrize(("half", "lean"), [(60.0, 0.0), (90.0, 5.0), (60.0, 8.0), (100.0, -4.0)])
def test_bevelled_edge_touches_the_cylinder_and_never_enters_it(half: float, lean: float) -> None:
    radius = 162.0
    made = carcass(plan(half, lean), cylinder(radius))
    for edge in made.lower_edges:
        assert edge.form == "bevelled"
        share = np.linspace(0.0, 1.0, 41)[:, None, None]
        points = edge.outer * (1 - share) + edge.inner * share
        away = np.hypot(points[..., 1], points[..., 2]) - radius
        assert away.min(axis=0) == pytest.approx(0.0, abs=0.01)


def test_bevel_is_the_arc_sine_of_both_normals() -> None:
    made = carcass(plan(100.0), cylinder(162.0))
    # the middle of a 12 mm wall whose outer face is at y = 100 meets N = (0, 94, z)/162
    expected = np.degrees(np.arcsin(94.0 / 162.0))
    assert made.lower_edges[0].slope_deg == pytest.approx(expected, abs=0.01)


def test_bite_of_a_straight_bevel() -> None:
    radius, t, half = 130.0, 12.0, 71.0
    y = np.array((half, half - t))
    z = np.sqrt(radius**2 - y**2)
    slope = np.arctan2(z[1] - z[0], t)
    chord = np.hypot(t, z[1] - z[0])
    # sagitta of the chord, taken upright: (R - sqrt(R^2 - L^2/4))/cos slope
    exact = (radius - np.sqrt(radius**2 - chord**2 / 4)) / np.cos(slope)
    made = carcass(plan(half), cylinder(radius))
    assert made.panel("right wall").thickness == t
    edge = made.lower_edges[1]
    assert edge.outer[:, 2] - z[0] == pytest.approx(exact, abs=0.01)
    assert edge.inner[:, 2] - z[1] == pytest.approx(exact, abs=0.01)
    assert edge.visible_gap == pytest.approx(exact, abs=0.01)
    # k t^2/(8 cos^3) is its first order: the next is (chord/2R)^2, 0.3 % here
    assert bite(1 / radius, t, float(np.degrees(slope))) == pytest.approx(exact, rel=0.005)


def test_gap_of_a_square_cut_on_a_plane_is_thickness_times_tangent() -> None:
    x, y = np.meshgrid(np.linspace(-200.0, 200.0, 5), np.linspace(-150.0, 150.0, 31), indexing="ij")
    fall = np.tan(np.radians(38.0))
    points = np.stack([x, y, -fall * np.abs(y)], -1)
    normals = np.stack([0 * x, fall * np.sign(y), 1 + 0 * x], -1)
    skin = Skin(points, normals / np.linalg.norm(normals, axis=-1, keepdims=True))
    made = carcass(plan(100.0, edge="square"), skin)
    assert made.lower_edges[0].visible_gap == pytest.approx(12.0 * fall, abs=1e-6)


def test_plain_bevel_long_point_minus_short_point() -> None:
    # 18 mm sheet leaned 15 degrees under a level deck: 18 tan 15
    panel = carcass(plan(60.0, 15.0, t=18.0), cylinder(130.0)).panel("left wall")
    top = max(v for _, v in panel.outer) - max(v for _, v in panel.inner)
    assert abs(top) == pytest.approx(4.823085, abs=1e-6)
    edge = next(e for e in panel.edges if e.kind == "free" and e.bevel_deg > 1.0)
    assert edge.bevel_deg == pytest.approx(15.0, abs=1e-9)


def splayed_panel(neighbour: Array) -> tuple[float, float]:
    """Bevel of a 10 degree splayed panel's end, and the lean of that end on its face [degrees]."""
    s, t, run = np.radians(10.0), 12.0, 300.0
    normal = np.array((np.cos(s), 0.0, -np.sin(s)))
    frame = Frame(
        (run, 0.0, 0.0), (0.0, 1.0, 0.0), (float(np.sin(s)), 0.0, float(np.cos(s))), tuple(normal)
    )

    def corner(y_side: float, z: float, depth: float) -> Array:
        x = run + z * np.tan(s) - depth / np.cos(s)
        a, b, c, d = neighbour  # a x + b |y| + c z = d
        return np.array((x, y_side * (d - a * x - c * z) / b, z))

    faces = [
        [np.array((corner(p, zp, w), corner(q, zq, w))) for w in (0.0, t)]
        for (p, zp), (q, zq) in (
            ((-1, 0.0), (1, 0.0)),
            ((1, 0.0), (1, 200.0)),
            ((1, 200.0), (-1, 200.0)),
            ((-1, 200.0), (-1, 0.0)),
        )
    ]
    runs = tuple(Run("mitre", "", outer, inner) for outer, inner in faces)
    outer, _, edges = outlines(runs, frame, t)
    (u0, v0), (u1, v1) = outer[edges[1].start], outer[edges[1].end]
    return edges[1].bevel_deg, float(np.degrees(np.arctan2(u1 - u0, v1 - v0)))


def test_four_splayed_walls_mitred() -> None:
    # tan m = sin s tan(180/n), sin b = cos s sin(180/n), s = 10 degrees, n = 4; plane |y| = x
    bevel, mitre = splayed_panel(np.array((-1.0, 1.0, 0.0, 0.0)))
    assert bevel == pytest.approx(44.136029, abs=1e-6)
    assert mitre == pytest.approx(9.851076, abs=1e-6)


def test_four_splayed_walls_butted() -> None:
    # faces meet at acos(-sin^2 s) = 91.727941 degrees; plane |y| = 300 + z tan s
    bevel, _ = splayed_panel(np.array((0.0, 1.0, -np.tan(np.radians(10.0)), 300.0)))
    assert bevel == pytest.approx(1.727941, abs=1e-6)


def flat_panel(thickness: float, *boxes: tuple[float, float, float, float]) -> Panel:
    frame = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    slabs = []
    for u0, u1, v0, v1 in boxes:
        low, high = np.array(((u0, v0), (u1, v0))), np.array(((u0, v1), (u1, v1)))
        slabs.append(slab((0.0, thickness), (low, low), (high, high)))
    return Panel("p", "x", thickness, 680.0, frame, (), (), (), (), (), "along", (), tuple(slabs))


def test_panel_less_a_corner() -> None:
    # 600 x 250 less 200 x 150: area and centroid by parts
    corners = [(0, 0), (600, 0), (600, 100), (400, 100), (400, 250), (0, 250)]
    ((area, mu, mv),) = polygon_moments(
        np.array(corners, dtype=np.float64), np.array([len(corners)])
    )
    assert area == pytest.approx(120_000.0, rel=1e-12)
    assert (mu / area, mv / area) == pytest.approx((250.0, 112.5), rel=1e-12)
    panel = flat_panel(15.0, (0.0, 400.0, 0.0, 250.0), (400.0, 600.0, 0.0, 100.0))
    assert panel.mass_kg == pytest.approx(1.224, rel=1e-12)
    assert panel.centre == pytest.approx((250.0, 112.5, -7.5), rel=1e-12)


def test_box_of_sheet() -> None:
    assert flat_panel(18.0, (0.0, 900.0, 0.0, 250.0)).mass_kg == pytest.approx(2.754, rel=1e-12)


def test_mitres_halve_the_angle_between_their_panels() -> None:
    wide = ((-150.0, 100.0), (0.0, 90.0), (150.0, 110.0))
    deck = ((-150.0, 200.0), (20.0, 230.0), (150.0, 210.0))
    made = carcass(
        Plan(deck, wide, wide, -150.0, 150.0, 12.0, 680.0, lean_deg=4.0), cylinder(150.0)
    )
    for one, other in (("deck 1", "deck 2"), ("left wall 1", "left wall 2")):
        n1, n2 = (np.array(made.panel(name).frame.n) for name in (one, other))
        half = np.degrees(np.arccos(n1 @ n2)) / 2
        for name in (one, other):
            mitre = next(e for e in made.panel(name).edges if e.kind == "mitre")
            assert mitre.bevel_deg == pytest.approx(half, abs=1e-6)


def test_radius_from_chord_and_rise() -> None:
    # R = c^2/(8 h) + h/2 = 181.666667 for a chord of 200 and a rise of 30
    cut = plane_cut(cylinder(181.666667), np.array((0.0, 1.0, 0.0)), np.array([0.0, 100.0]))
    assert cut.points[0, 0, 2] - cut.points[1, 0, 2] == pytest.approx(30.0, abs=0.01)
