from collections.abc import Callable

import numpy as np
import pytest
from scipy.spatial import Delaunay
from scipy.spatial.transform import Rotation

from trimwright.build import Build, parse
from trimwright.car import tunnel, worth_a_section
from trimwright.car.bite import joined, turned
from trimwright.car.loft import left_out_errors
from trimwright.car.touched import shared_points
from trimwright.car.triangle import triangles, weights

Writer = Callable[..., Build]
Rows = Callable[..., list[tuple[float, float, float]]]


def test_turn_and_shift_as_a_library_finds_them() -> None:
    rng = np.random.default_rng(4)
    own, onto = rng.normal(0, 50, (7, 2)), rng.normal(0, 50, (7, 2))
    rotation, shift = turned(own, onto)
    flat = [np.pad(part - part.mean(axis=0), ((0, 0), (0, 1))) for part in (onto, own)]
    # about the third axis only: a flat pair leaves no other turn but a flip, which 2 x 2 excludes
    angle = np.arctan2(rotation[1, 0], rotation[0, 0])
    theirs = Rotation.from_euler("z", angle)
    near = [Rotation.from_euler("z", angle + step) for step in (-1e-3, 1e-3)]
    loss = [float(((flat[0] - one.apply(flat[1])) ** 2).sum()) for one in (theirs, *near)]
    assert loss[0] < min(loss[1:])
    assert rotation @ own.mean(axis=0) + shift == pytest.approx(onto.mean(axis=0))


def test_bites_of_one_curve_join_into_it() -> None:
    turn = np.radians(np.linspace(-80, 80, 17))
    whole = np.stack([150 * np.sin(turn), 150 * np.cos(turn) - 150], axis=-1)
    angle = np.radians(25)
    rotation = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    second = (whole[7:] - whole[7]) @ rotation.T + [3.0, 4.0]
    letters = {7: "A", 9: "B"}
    bites = [
        [(letters.get(k, ""), float(y), float(z)) for k, (y, z) in enumerate(whole[:10])],
        [(letters.get(k, ""), float(y), float(z)) for k, (y, z) in enumerate(second, start=7)],
    ]
    found = joined(bites)
    assert found.points[10:] == pytest.approx(whole[7:], abs=1e-9)
    assert found.apart == pytest.approx(0, abs=1e-9)
    assert sum(found.kept) == len(found.kept) - 2


def test_what_two_bites_differ_by_follows_their_readings() -> None:
    text = (
        "build: Larkfield saloon\nunit: mm\ncar:\n  tunnel:\n    - at: 100 behind\n      bites:\n"
        "        - points: ['90 left, 40 down', 'A at 20 left, 0 down', 'B at 20 right, 0 down']\n"
        "        - points: ['A at 0, 30 down', 'B at 43 right, 30 down', '90 right, 70 down']\n"
    )
    apart = shared_points(parse(text).build.car.tunnel[0])
    # 40 mm against 43: each end is 1.5 mm off, either way, and half of what either reading is
    assert [one.value for one in apart] == pytest.approx([-1.5, 0, 1.5, 0], abs=1e-9)
    longer = {key: round(times, 6) for key, _, times in apart[2].parts}
    assert longer["car.tunnel.0.bites.1.points.1.off middle"] == 0.5
    assert longer["car.tunnel.0.bites.0.points.2.off middle"] == -0.5


def test_a_bite_that_shares_one_point_cannot_be_placed() -> None:
    with pytest.raises(ValueError, match="bite 2 must share 2 lettered points or more, got 1"):
        joined([[("A", 0.0, 0.0), ("", 9.0, 0.0)], [("A", 0.0, 0.0), ("", 5.0, 1.0)]])


def test_bites_in_a_build_make_the_same_skin_as_points() -> None:
    datum = "  datum: {marks: x, top of tunnel here: bare metal, string above tunnel: 400}\n"
    head = f"build: Larkfield saloon\nunit: mm\ncar:\n{datum}  tunnel:\n    - at: 100 behind\n"
    top = "      top: 400 below string\n"
    points = "      points:\n" + "".join(
        f"        - {line}\n"
        for line in ("120 left, 100 down", "90 left, 40 down", "0 right, 0 down",
                     "90 right, 40 down", "120 right, 100 down")
    )  # fmt: skip
    bites = (
        "      bites:\n"
        "        - points: ['120 left, 100 down', 'A at 90 left, 40 down', 'B at 0 right, 0 down']\n"
        "        - points: ['A at 40 left, 40 down', 'B at 50 right, 0 down',"
        " '140 right, 40 down', '170 right, 100 down']\n"
    )
    one, other = (tunnel(parse(head + top + form).build.car) for form in (points, bites))
    assert other.section(100.0) == pytest.approx(one.section(100.0), abs=1e-6)


def test_same_triangles_as_a_library() -> None:
    places = np.random.default_rng(11).uniform(-100, 100, (12, 2))
    ours = {tuple(sorted(face)) for face in triangles(places).tolist()}
    assert ours == {tuple(sorted(face)) for face in Delaunay(places).simplices.tolist()}


def test_a_plane_stays_a_plane_and_outside_is_measured() -> None:
    places = np.array([[0.0, 0], [100, 0], [0, 100], [100, 100], [40, 55]])
    faces = triangles(places)
    x = np.array([[20.0, 30], [90, 95], [130, 50]])
    share, past = weights(places, faces, x)
    assert share @ (places @ [0.3, -0.2]) == pytest.approx(x @ [0.3, -0.2])
    assert past == pytest.approx([0, 0, 30], abs=1e-9)


def test_new_section_is_asked_for_where_the_skin_is_least_known(
    write: Writer, half_round: Rows
) -> None:
    tops = (0.0, 0.0, 0.0, 40.0, 42.0, 42.0)
    build = write([(200.0 * k, z, half_round(150)) for k, z in enumerate(tops)])
    skin = tunnel(build.car)
    best = worth_a_section(skin, (0.0, 1000.0))[0]
    assert best.at_mm in (300.0, 500.0)
    assert best.doubt_mm == pytest.approx(float(skin.doubts.max()))
    assert left_out_errors(skin.rails)[0] == 0


def test_new_section_outside_the_console_is_not_asked_for(write: Writer, half_round: Rows) -> None:
    tops = (0.0, 0.0, 0.0, 40.0, 42.0, 42.0)
    skin = tunnel(write([(200.0 * k, z, half_round(150)) for k, z in enumerate(tops)]).car)
    assert all(one.at_mm < 300 for one in worth_a_section(skin, (0.0, 190.0)))


def test_with_one_section_the_end_nearer_to_the_datum_comes_first(
    write: Writer, half_round: Rows
) -> None:
    skin = tunnel(write([(300.0, 0.0, half_round(150))]).car)
    assert [one.at_mm for one in worth_a_section(skin, (-70.0, 690.0))] == [-70.0, 690.0]


def test_quarter_of_the_error_left_out_is_about_the_error_between(
    write: Writer, half_round: Rows
) -> None:
    # a known tunnel that widens by 30 mm over 300 mm; its true half round is asked for midway
    stations = np.linspace(0, 900, 6)

    def radius(x: float) -> float:
        return float(150 - 15 * np.tanh((x - 450) / 120))

    skin = tunnel(write([(x, 0.0, half_round(radius(x))) for x in stations]).car)
    x = np.linspace(0, 900, 181)
    rows = skin.loft.rows(x)[0]
    truth = np.array([radius(one) for one in x])
    apart = np.abs(np.hypot(rows[..., 0], rows[..., 1] + truth[:, None]) - truth[:, None]).max()
    assert apart < 2 * skin.doubts.max()
    assert skin.doubts.max() < 4 * apart
