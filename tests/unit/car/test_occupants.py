import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import least_squares

from trimwright.build import Build, parse
from trimwright.car import World, bodies, dash, handbrake, ledger, lever, seats
from trimwright.car.shift_lever import KNOB_SIGMA, PIVOT_SIGMA, pivot_of

Floats = NDArray[np.float64]

CAR = "build: Larkfield saloon\nunit: mm\ncar:\n"


def _world(text: str, **off: float) -> World:
    build: Build = parse(CAR + text).build
    book = ledger(build)
    deviations = np.zeros((1, len(book)))
    for key, size in off.items():
        deviations[0, book.index(key)] = size
    return World(build, book, deviations)


SEAT = (
    "  seats:\n    right:\n      inner edge low: 130 at 40 up\n"
    "      inner edge high: 124 at 240 up\n      from: 150 behind\n      to: 560 behind\n"
    "      slides: 180\n"
)


def test_seat_edge_leans_between_its_two_heights_and_covers_its_travel() -> None:
    (seat,) = seats(_world(SEAT))
    assert seat.inner(np.array([40.0, 140, 240]))[0] == pytest.approx([130, 127, 124])
    assert (seat.start[0], seat.end[0]) == (-30, 560)


def test_seat_read_foremost_slides_back() -> None:
    (seat,) = seats(_world(SEAT + "      reading at: foremost\n"))
    assert (seat.start[0], seat.end[0]) == (150, 740)


def test_seat_edge_is_known_only_a_little_beyond_where_it_was_read() -> None:
    (seat,) = seats(_world(SEAT))
    low, high = seat.heights
    assert 0 < 40 - low < 100
    assert 0 < high - 240 < 100


def test_seat_edge_follows_its_reading() -> None:
    (seat,) = seats(_world(SEAT, **{"car.seats.right.inner edge low": 4.0}))
    assert seat.inner(np.array([140.0]))[0, 0] == pytest.approx(129)


def test_handbrake_swings_its_tip_up_ahead_of_the_pivot() -> None:
    text = (
        "  handbrake: {pivot: {behind datum: 520, up: 60 up, off middle: 40 right},"
        " long: 260, thick: 32, down: 0 deg, up: 30 deg}\n"
    )
    swing = handbrake(_world(text))
    assert swing is not None
    reach = 260 - 16  # to the middle of its round end
    assert swing.ends[0, 0] == pytest.approx([520 - reach, 40, 60])
    assert swing.ends[0, -1] == pytest.approx([520 - reach * np.sqrt(3) / 2, 40, 60 + reach / 2])
    assert swing.radius[0] == 16


LEVER = (
    "  lever:\n    knob: 48\n    shaft: 14\n    moves:\n"
    "      - {gear: neutral, behind datum: 150, above tunnel: 250, off middle: 0}\n"
)


def test_lever_over_its_pivot_stays_where_it_was_guessed() -> None:
    found = lever(_world(LEVER))
    assert found is not None
    assert found.pivot[0] == pytest.approx([150, 0, -50], abs=1e-6)
    assert not found.bent
    assert found.shaft_at(np.array([100.0]))[0, 0, 0] == pytest.approx([150, 0], abs=1e-6)


def test_knobs_on_a_ball_give_back_its_middle() -> None:
    pivot, reach = np.array([165.0, 4, -70]), 330.0
    tilt = np.radians([[0, 0], [18, 0], [-18, 0], [0, 14], [18, 14], [-18, 14], [0, -14]])
    way = np.stack([np.tan(tilt[:, 0]), np.tan(tilt[:, 1]), np.ones(7)], axis=-1)
    knobs = pivot + reach * way / np.linalg.norm(way, axis=-1, keepdims=True)
    prior = np.array([knobs[0, 0], knobs[0, 1], -50.0])
    found, length = pivot_of(knobs[None], prior[None])

    def miss(unknown: Floats) -> Floats:
        ball = (np.linalg.norm(knobs - unknown[:3], axis=1) - unknown[3]) / KNOB_SIGMA
        return np.concatenate([ball, (unknown[:3] - prior) / PIVOT_SIGMA])

    theirs = least_squares(miss, np.array([*prior, 300.0]), xtol=1e-14, ftol=1e-14).x
    assert found[0] == pytest.approx(theirs[:3], abs=1e-4)
    assert length[0] == pytest.approx(theirs[3], abs=1e-4)
    # the height is weighed against the guess of -50; along and across the gate itself decides
    assert found[0, :2] == pytest.approx(pivot[:2], abs=1)
    assert -70 < found[0, 2] < -60


def test_shaft_runs_straight_from_pivot_to_knob() -> None:
    found = lever(_world(LEVER.replace("off middle: 0", "off middle: 60 left")))
    assert found is not None
    low, high = found.pivot[0], found.knobs[0, 0]
    half = (low[2] + high[2]) / 2
    assert found.shaft_at(np.array([half]))[0, 0, 0] == pytest.approx((low + high)[:2] / 2)


def test_dash_points_make_a_flat_piece_between_three() -> None:
    rows = [(110, "ahead", 90, "left", 190), (110, "ahead", 90, "right", 199),
            (10, "ahead", 90, "left", 210), (10, "ahead", 90, "right", 219)]  # fmt: skip
    text = "  dash:\n" + "".join(
        f"    - {{at: {x} {w}, across: {y} {s}, up: {z} up}}\n" for x, w, y, s, z in rows
    )
    found = dash(_world(text))
    assert found is not None
    # the plane through all four: z = 216.5 + x / 5 + y / 20
    x, y = np.array([-60.0, -110, -30, -120]), np.array([0.0, 45, -100, 0])
    assert found.height(x, y)[0] == pytest.approx(216.5 + 0.2 * x + 0.05 * y, abs=1e-6)
    far = found.height(np.array([0.0, -140, -60]), np.array([0.0, 0, 140]))
    assert np.isnan(far).all()


def test_dash_point_really_farther_back_tilts_with_its_slope() -> None:
    text = (
        "  dash:\n    - {at: 100 ahead, across: 90 left, up: 200 up}\n"
        "    - {at: 100 ahead, across: 90 right, up: 200 up}\n"
        "    - {at: 0 behind, across: 90 left, up: 220 up}\n"
        "    - {at: 0 behind, across: 90 right, up: 220 up}\n"
    )
    at = np.array([-100.0]), np.array([-90.0])
    off = dash(_world(text, **{"car.dash.0.at": 5.0}))
    assert off is not None
    assert off.height(*at)[0, 0] == pytest.approx(199, abs=1e-6)


def test_dash_along_the_middle_stands_on_the_tunnel_and_its_layers() -> None:
    text = (
        "  datum: {marks: x, top of tunnel here: bare metal, string above tunnel: 300}\n"
        "  layers:\n    - {name: deadener, thick: 2, from: 200 ahead, to: 800 behind}\n"
        "  dash above tunnel: {over: deadener, 60 ahead: 236, at datum: 221}\n"
        "  tunnel:\n"
        "    - {at: 200 ahead, top: 280 below string, down 40: {left: 90, right: 90}}\n"
        "    - {at: 200 behind, top: 320 below string, down 40: {left: 90, right: 90}}\n"
    )
    found = dash(_world(text))
    assert found is not None
    # the tunnel falls 1 in 10 through 0 at the datum
    got = found.height(np.array([-60.0, -30, 0]), np.zeros(3))[0]
    assert got == pytest.approx([6 + 2 + 236, (244 + 223) / 2, 2 + 221], abs=0.01)
    assert found.assumption == "the dash is level across: it was read along the middle only"
    assert np.isnan(found.height(np.array([20.0, -90]), np.zeros(2))).all()


def test_a_box_has_its_corners_and_follows_a_reading() -> None:
    text = (
        "  bodies:\n    - name: heater\n      box: {from: 140 ahead, to: 20 behind, left: 90 left,"
        " right: 110 right, bottom: 120 up, top: 260 up}\n"
    )
    (body,) = bodies(_world(text, **{"car.bodies.0.box.top": 3.0}))
    (piece,) = body.pieces
    assert piece[0].min(axis=0).tolist() == [-140, -90, 120]
    assert piece[0].max(axis=0).tolist() == [20, 110, 263]


def test_a_cylinder_lies_inside_its_prism() -> None:
    text = (
        "  bodies:\n    - name: duct\n      cylinder: {from: {at: 140 ahead, across: 0, up: 120 up},"
        " to: {at: 20 behind, across: 0, up: 120 up}, thick: 60}\n"
    )
    (piece,) = bodies(_world(text))[0].pieces
    out = np.hypot(piece[0, :, 1], piece[0, :, 2] - 120)
    assert out == pytest.approx(30 / np.cos(np.pi / 24))
    assert sorted(set(piece[0, :, 0].round(6))) == [-140, 20]


def test_a_hollow_outline_is_cut_into_pieces_of_the_same_area() -> None:
    points = "[0 right;0 up, 100 right;0 up, 100 right;80 up, 50 right;30 up, 0 right;80 up]"
    text = (
        "  bodies:\n    - name: bracket\n      outline:\n        from: 140 ahead\n"
        "        to: 20 behind\n        points:\n"
        + "".join(f"          - {one.replace(';', ', ')}\n" for one in points[1:-1].split(", "))
    )
    (body,) = bodies(_world(text))
    area = 0.0
    for piece in body.pieces:
        y, z = piece[0, :3, 1], piece[0, :3, 2]
        area += abs(float((y[1] - y[0]) * (z[2] - z[0]) - (y[2] - y[0]) * (z[1] - z[0]))) / 2
    assert area == pytest.approx(100 * 80 - 100 * 50 / 2)
