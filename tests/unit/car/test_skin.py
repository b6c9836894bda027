from collections.abc import Callable

import numpy as np
import pytest

from trimwright.build import Build, parse, said
from trimwright.car import Unmeasured, World, ledger, tunnel

Writer = Callable[..., Build]
Rows = Callable[..., list[tuple[float, float, float]]]

STATIONS = (-100.0, 100.0, 300.0, 500.0, 700.0)


def _world(build: Build, **off: float) -> World:
    """Return one world in which the named factors are off by so much."""
    book = ledger(build)
    deviations = np.zeros((1, len(book)))
    for key, size in off.items():
        deviations[0, book.index(key)] = size
    return World(build, book, deviations)


@pytest.fixture(scope="module")
def build(write: Writer, half_round: Rows) -> Build:
    return write([(x, 0.0, half_round(150)) for x in STATIONS], "  floor below string: 560")


def test_string_lower_than_read_lowers_the_whole_skin(build: Build) -> None:
    skin = tunnel(build.car)
    x, y = np.array([0.0, 150, 620]), np.array([-80.0, 0, 60])
    off = _world(build, **{"car.datum.string above tunnel": -2.0})
    assert skin.under(x, y, off).z - skin.under(x, y).z == pytest.approx(-2.0, abs=1e-3)


def test_top_reading_moves_its_own_section_only(build: Build) -> None:
    skin = tunnel(build.car)
    x, y = np.array([300.0, 500.0]), np.array([0.0, 0.0])
    off = _world(build, **{"car.tunnel.2.top": 3.0})  # 3 more below the string
    assert skin.under(x, y, off).z - skin.under(x, y).z == pytest.approx(
        np.array([[-3.0, 0.0]]), abs=1e-6
    )


def test_half_width_lifts_the_side_by_its_slope(build: Build) -> None:
    # both rows either side grow too, so the side moves out by 1: z = sqrt(R^2 - y^2), dz = y / z
    skin = tunnel(build.car)
    point = 150 * np.sin(np.radians(50))
    off = {said(row, "right").key: 1.0 for row in build.car.tunnel[2].rows}
    hit = skin.under(np.array([300.0]), np.array([point]), _world(build, **off)).z
    lift = float(hit[0, 0] - skin.under(np.array([300.0]), np.array([point])).z[0, 0])
    assert lift == pytest.approx(np.tan(np.radians(50)), abs=0.01)


def test_section_held_off_the_middle_moves_sideways(build: Build) -> None:
    skin = tunnel(build.car)
    at = np.array([300.0]), np.array([90.0])
    off = _world(build, **{"set-up:sideways car.tunnel.2": 2.0})
    lift = float((skin.under(*at, off).z - skin.under(*at).z)[0, 0])
    assert lift == pytest.approx(2 * 90 / 120, abs=0.01)


def test_tilted_section_turns_about_its_top(build: Build) -> None:
    skin = tunnel(build.car)
    at = np.array([300.0, 300.0]), np.array([0.0, 90.0])
    off = _world(build, **{"set-up:tilt car.tunnel.2": 1.0})
    lift = (skin.under(*at, off).z - skin.under(*at).z)[0]
    # a turn of 1 in 100 clockwise seen from ahead about (0, 0) of a circle about (0, -150)
    assert lift == pytest.approx([0.0, 1.5 * 90 / 120], abs=0.01)


def test_section_read_at_a_wrong_place(write: Writer, half_round: Rows) -> None:
    sloping = write([(x, -0.1 * x, half_round(150)) for x in STATIONS])
    skin = tunnel(sloping.car)
    at = np.array([300.0]), np.array([0.0])
    off = _world(sloping, **{"car.tunnel.2.at": 5.0})  # really 5 farther back
    assert float((skin.under(*at, off).z - skin.under(*at).z)[0, 0]) == pytest.approx(0.5, abs=0.01)


def test_between_sections_swells_midway_and_not_at_them(write: Writer, half_round: Rows) -> None:
    lumpy = write([(x, h, half_round(150)) for x, h in zip(STATIONS, (0, 4, 0, 5, 0), strict=True)])
    skin = tunnel(lumpy.car)
    x = np.array([100.0, 200, 250, 300])
    off = _world(lumpy, **{"between sections:1": 2.0})
    lift = (skin.under(x, np.zeros(4), off).z - skin.under(x, np.zeros(4)).z)[0]
    assert lift == pytest.approx([0, 2, 1.5, 0], abs=0.02)


def test_beside_the_tunnel_lies_the_floor_and_follows_its_reading(build: Build) -> None:
    skin = tunnel(build.car)
    at = np.array([300.0]), np.array([400.0])
    off = _world(build, **{"car.floor below string": 5.0})
    assert skin.under(*at).z[0, 0] == pytest.approx(-160.0, abs=1e-9)
    assert skin.under(*at, off).z[0, 0] == pytest.approx(-165.0, abs=1e-9)


def test_outside_what_was_read_there_is_no_height(build: Build) -> None:
    skin = tunnel(build.car)
    assert np.isnan(skin.under(np.array([900.0]), np.array([0.0])).z).all()


@pytest.mark.parametrize("over", ["carpet", "deadener"])
def test_section_over_layers_is_brought_down_to_the_metal(
    write: Writer, half_round: Rows, over: str
) -> None:
    thick = 3 if over == "deadener" else 18
    more = (
        "  layers:\n    - {name: deadener, thick: 3, from: 200 ahead, to: 900 behind}\n"
        "  carpet: {loose: 15}"
    )
    laid = write([(x, thick, half_round(150 + thick)) for x in STATIONS], more, f"over: {over}")
    y = np.linspace(-120, 120, 13)
    z = tunnel(laid.car).under(np.full(13, 200.0), y).z[0]
    assert z + 150 == pytest.approx(np.sqrt(150**2 - y**2), abs=0.02)


def test_thicker_carpet_than_read_lowers_the_metal_found_through_it(
    write: Writer, half_round: Rows
) -> None:
    laid = write(
        [(x, 15, half_round(165)) for x in STATIONS], "  carpet: {loose: 15}", "over: carpet"
    )
    skin, at = tunnel(laid.car), (np.array([300.0]), np.array([0.0]))
    off = _world(laid, **{"car.carpet.loose": 2.0})
    assert float((skin.under(*at, off).z - skin.under(*at).z)[0, 0]) == pytest.approx(-2, abs=0.01)


def test_unknown_layer_is_refused_and_named(write: Writer, half_round: Rows) -> None:
    laid = write([(300.0, 0.0, half_round(150))], each="over: carpet")
    with pytest.raises(Unmeasured, match="thickness of 'carpet' is not known") as caught:
        tunnel(laid.car)
    assert "car.carpet.loose" in caught.value.missing


def test_no_section_is_no_tunnel(write: Writer) -> None:
    with pytest.raises(Unmeasured, match="no section of the tunnel was read"):
        tunnel(write([], "  carpet: {loose: 15}").car)


def test_layers_lie_where_they_were_laid(write: Writer, half_round: Rows) -> None:
    more = (
        "  layers:\n    - {name: deadener, thick: 2, from: 50 ahead, to: 400 behind}\n"
        "    - {name: felt, thick: 6, from: 100 behind, to: 400 behind}"
    )
    skin = tunnel(write([(300.0, 0.0, half_round(150))], more).car)
    assert skin.layered(np.array([-60.0, 0, 100, 410])).tolist() == [0, 2, 8, 0]


def test_three_widths_make_a_tunnel_that_keeps_them() -> None:
    text = (
        "build: Larkfield saloon\nunit: mm\ncar:\n  tunnel:\n    - at: 300 behind\n"
        "      height above floor: 180\n      width at shoulder: 190\n      width at floor: 330\n"
    )
    skin = tunnel(parse(text).build.car)
    points = skin.section(300.0)
    assert skin.top(0.0)[0] == pytest.approx(0, abs=1e-6)
    assert points[[0, -1]] == pytest.approx(np.array([[-165, -180], [165, -180]]), abs=1e-6)
    assert np.all(np.diff(points[:, 1][: len(points) // 2]) > 0)
    shoulder = np.interp(-36.0, points[:80, 1], points[:80, 0])
    assert shoulder == pytest.approx(-95, abs=0.1)
    assert skin.assumption == "constant along the car: one section only"


def test_marked_corners_run_along_the_car_as_an_edge() -> None:
    # a box that narrows: flat top, corners at 100 - x / 20, sides straight down
    def section(x: int) -> str:
        half = 100 - x / 20
        rows = "".join(
            f"      down {d}: {{left: {half}, right: {half}}}\n" for d in (0.5, 40, 80, 120)
        )
        inner = "".join(
            f"      down 0.{k}: {{left: {half * k / 5}, right: {half * k / 5}}}\n" for k in (2, 4)
        )
        return (
            f"    - at: {x} behind\n      top: 400 below string\n{inner}{rows}"
            "      corners: [down 0.5 left, down 0.5 right]\n"
        )

    text = (
        "build: Larkfield saloon\nunit: mm\ncar:\n"
        "  datum: {marks: x, top of tunnel here: bare metal, string above tunnel: 400}\n  tunnel:\n"
        + "".join(section(x) for x in (0, 200, 400, 600))
    )
    points = tunnel(parse(text).build.car).section(300.0)
    edge = np.linalg.norm(points - np.array([85.0, -0.5]), axis=1)
    assert edge.min() < 0.1
    sides = points[points[:, 1] < -1]
    assert np.abs(sides[:, 0]) == pytest.approx(85, abs=0.1)
