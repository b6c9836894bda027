from collections.abc import Callable

import numpy as np
import pytest

from trimwright.build import Build, assumed, parse
from trimwright.car import World, carpet, ledger, tunnel

Writer = Callable[..., Build]
Rows = Callable[..., list[tuple[float, float, float]]]

ONE = (
    "build: Larkfield saloon\nunit: mm\ncar:\n  tunnel:\n    - at: 300 behind\n"
    "      height above floor: 180\n      width at shoulder: 190\n      width at floor: 330\n"
)


def _says(build: Build) -> dict[str, str]:
    return {one.key: one.says for one in ledger(build).factors}


def _lift(build: Build, key: str, x: float, y: float) -> float:
    """Return how much the metal at a place rises for one unit of a factor."""
    book, skin = ledger(build), tunnel(build.car)
    deviations = np.zeros((1, len(book)))
    deviations[0, book.index(key)] = 1.0
    at = np.array([x]), np.array([y])
    return float((skin.under(*at, World(build, book, deviations)).z - skin.under(*at).z)[0, 0])


def test_readings_are_named_as_a_builder_would(write: Writer) -> None:
    says = _says(write([(300.0, 0.0, [(100.0, 131.0, 128.0)])]))
    assert says["car.tunnel.0.down 100.000000.left"] == (
        "left half width 100.000000 down at section 300 behind"
    )
    assert says["car.tunnel.0.top"] == "top of the tunnel at section 300 behind"
    assert says["set-up:sideways car.tunnel.0"] == "sideways place of the whole section 300 behind"


def test_written_doubt_goes_before_that_of_the_way() -> None:
    text = ONE.replace("190", "190 ± 7")
    found = {one.key: one for one in ledger(parse(text).build).factors}
    assert found["car.tunnel.0.width at shoulder"].doubt.plus == 7
    assert found["car.tunnel.0.width at shoulder"].again == 2  # a tape, read again
    assert found["car.tunnel.0.width at floor"].doubt.plus == 2


def test_same_build_has_the_same_ledger_in_the_same_order(write: Writer, half_round: Rows) -> None:
    rows = half_round(150)
    one, other = (write([(0.0, 0.0, rows), (300.0, 0.0, rows)]) for _ in range(2))
    assert [f.key for f in ledger(one).factors] == [f.key for f in ledger(other).factors]


def test_single_section_may_slope_about_the_datum() -> None:
    build = parse(ONE).build
    slopes = [_lift(build, "assumed:tunnel level", x, 0.0) for x in (0.0, 300.0, 700.0)]
    assert slopes == pytest.approx([0.0, 0.3, 0.7], abs=1e-6)


def test_single_section_may_taper_about_itself() -> None:
    build = parse(ONE).build
    right, left = (_lift(build, "assumed:tunnel taper", 800.0, y) for y in (120.0, -120.0))
    # the straight side falls 144 mm in 70: 0.5 mm out lifts it by 0.5 * 144 / 70
    assert right == pytest.approx(0.5 * 144 / 70, abs=0.1)
    assert left == pytest.approx(right, abs=1e-6)
    assert _lift(build, "assumed:tunnel taper", 300.0, 120.0) == pytest.approx(0, abs=1e-9)


def test_lower_shoulder_takes_the_side_down_with_it() -> None:
    assert _lift(parse(ONE).build, "assumed:shoulder car.tunnel.0", 300.0, 95.0) == pytest.approx(
        -1, abs=0.05
    )


def test_depths_of_a_section_are_off_alike_and_its_top_is_not(
    write: Writer, half_round: Rows
) -> None:
    build = write([(x, 0.0, half_round(150)) for x in (0.0, 300.0)], each="by: contour gauge")
    key = "set-up:depth car.tunnel.0"
    book = ledger(build)
    assert book.factors[book.index(key)].doubt.plus == 1  # as one reading by a contour gauge
    sides = [_lift(build, key, 0.0, y) for y in (-120.0, 90.0)]
    assert sides == pytest.approx([-1, -1], abs=0.02)
    assert _lift(build, key, 0.0, 0.0) == pytest.approx(0, abs=0.02)
    assert _lift(build, key, 300.0, 90.0) == pytest.approx(0, abs=1e-9)


def test_depths_may_be_said_to_be_better_than_their_way(write: Writer) -> None:
    rows = [(0.0, 0.0, [(30.0, 88.0, 90.0), (90.0, 130.0, 128.0)])]
    build = write(rows, each="by: contour gauge\ndepths within: 0.4")
    book = ledger(build)
    assert book.factors[book.index("set-up:depth car.tunnel.0")].doubt.plus == 0.4
    said = {one.says for one in assumed(build)}
    assert "doubt of all depths of a section by contour gauge" not in said
    build = write(rows, each="by: contour gauge")
    told = {one.says: one.text for one in assumed(build)}
    assert told["doubt of all depths of a section by contour gauge"] == "± 1 mm"


def test_one_lath_is_off_alike_under_all_its_weights() -> None:
    text = ONE + (
        "  carpet:\n    loose: 15\n    pressed:\n"
        "      - {weight: 5 kg, lath: 12 x 200, thick: 9}\n"
        "      - {weight: 20 kg, lath: 12 x 200, thick: 7}\n"
    )
    build = parse(text).build
    book = ledger(build)
    deviations = np.zeros((2, len(book)))
    deviations[1, book.index("assumed:lath width")] = 3.0
    as_read, wider = carpet(World(build, book, deviations)).pressure(np.array([[6.0], [6.0]]))[:, 0]
    assert wider == pytest.approx(as_read * 12 / 15, rel=1e-9)
    assert "how wide the lath on the carpet is" in _says(build).values()


def test_model_figures_are_in_the_middle_of_their_range() -> None:
    build = parse(ONE + "  carpet: {loose: 15, squeezed by hand: 6}\n").build
    world = World.nominal(build, ledger(build))
    assert world.of("model:friction")[0] == 0.25
    assert world.of("model:hand squeeze pressure")[0] == 300
    assert world.of("model:clamp 0")[0] == pytest.approx(0.26)
    assert world.of("car.carpet.loose")[0] == 15


def test_figure_nobody_has_is_refused() -> None:
    build = parse(ONE).build
    with pytest.raises(KeyError, match="no figure under"):
        World.nominal(build, ledger(build)).of("car.carpet.loose")


def test_deviations_must_be_those_of_the_ledger() -> None:
    build = parse(ONE).build
    with pytest.raises(ValueError, match="deviations must have"):
        World(build, ledger(build), np.zeros((1, 2)))
