"""Trunks in plan: places where they are in the car, trunks as thick as their bundles, words apart."""

from itertools import combinations
from math import dist

import pytest

from tests.small_wiring import SMALL, build, changed
from trimwright.build import parse
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import Circle, Element, Fill, Group, Line, Text, flat, text_corners
from trimwright.papers.wiring.trunk_plan import LEAST_MM, plan_leaves, plan_page, thick_on_page
from trimwright.papers.wiring.trunk_sheet import leaves
from trimwright.wiring import bundlings

AT = {
    "bay": (-1300.0, -300.0),
    "box": (-500.0, 400.0),
    "dash": (-200.0, 0.0),
    "boot": (1900.0, 500.0),
}
WRITTEN = (
    ("{name: bay}", "{name: bay, at: 1300 ahead, off middle: 300 left, up: 100 up}"),
    ("{name: box}", "{name: box, at: 500 ahead, off middle: 400 right, up: 100 up}"),
    ("{name: dash}", "{name: dash, at: 200 ahead, off middle: 0, up: 100 up}"),
    ("{name: boot}", "{name: boot, at: 1900 behind, off middle: 500 right, up: 100 up}"),
)


def _cabin(*more: tuple[str, str]) -> Cabin:
    return cabin(build(*WRITTEN, *more))


def _groups(one: Cabin, prefix: str) -> dict[str, list[Element]]:
    (leaf,) = plan_leaves(one, "A4")
    told: dict[str, list[Element]] = {}
    for part in leaf.elements:
        if isinstance(part, Group) and part.name.startswith(prefix):
            told.setdefault(part.name, []).extend(part.elements)
    return told


def _spots(one: Cabin) -> dict[str, tuple[float, float]]:
    return {
        name.removeprefix("place "): part.centre
        for name, some in _groups(one, "place ").items()
        for part in some
        if isinstance(part, Circle)
    }


def test_places_are_as_far_apart_as_in_the_car() -> None:
    one = _cabin()
    (leaf,) = plan_leaves(one, "A4")
    scale = float(leaf.scale.removeprefix("1:"))
    spots = _spots(one)
    assert spots.keys() == AT.keys()
    for a, b in combinations(AT, 2):
        assert dist(spots[a], spots[b]) * scale == pytest.approx(dist(AT[a], AT[b]))
    assert spots["bay"][0] < spots["dash"][0] < spots["boot"][0]  # front to the left
    assert spots["box"][1] < spots["dash"][1] < spots["bay"][1]  # right of the car upwards


def test_a_trunk_is_as_thick_as_its_bundle_and_never_too_thin_to_see() -> None:
    one = _cabin(("size: 4 mm2", "size: 25 mm2"))
    assert one.wiring is not None
    scale = float(plan_leaves(one, "A4")[0].scale.removeprefix("1:"))
    groups = _groups(one, "trunk ")
    for own in bundlings(one.wiring):
        (band,) = (part for part in groups[f"trunk {own.number}"] if isinstance(part, Fill))
        assert own.bundle is not None
        thick = dist(band.points[0], band.points[3])
        assert thick == pytest.approx(max(own.bundle.diameter_mm / scale, LEAST_MM))
        assert thick == pytest.approx(thick_on_page(own, scale))
        assert thick_on_page(own, 1000.0) == LEAST_MM
    assert len({round(thick_on_page(own, scale), 3) for own in bundlings(one.wiring)}) > 1


def test_a_trunk_without_wires_is_dashed_and_a_hole_is_ringed() -> None:
    one = _cabin(
        ("{from: box, to: dash, long: 500}", "{from: box, to: dash, long: 500, hole: 20}"),
        ("{from: box, to: boot,", "{from: bay, to: dash, long: 4000}\n    - {from: box, to: boot,"),
    )
    groups = _groups(one, "trunk ")
    (line,) = (part for part in groups["trunk 2"] if isinstance(part, Line))
    assert line.pen == "hidden"
    assert sum(isinstance(part, Circle) for part in groups["trunk 1"]) == 2


def test_loads_stand_by_name_at_their_places() -> None:
    (leaf,) = plan_leaves(_cabin(), "A4")
    words = " ".join(part.words for part in flat(leaf.elements) if isinstance(part, Text))
    assert "boot: heater" in words
    assert "dash: lamp" in words


def test_what_has_no_place_in_the_car_is_named_and_left_out() -> None:
    one = cabin(build(*WRITTEN[1:3]))
    (leaf,) = plan_leaves(one, "A4")
    words = " ".join(part.words for part in flat(leaf.elements) if isinstance(part, Text))
    assert "nobody has said where along and across the car: bay, boot." in words
    assert _spots(one).keys() == {"box", "dash"}
    assert plan_page(cabin(build()), "A4") is None


@pytest.mark.parametrize("count", [1, 40])
def test_words_keep_apart_however_many_places_there_are(count: int) -> None:
    long = "a place whose name takes up room here"
    places = "".join(
        f"    - {{name: {long} {n}, at: {50 * n} ahead, off middle: {30 * n % 400} right}}\n"
        for n in range(count)
    )
    one = cabin(parse(changed(("  trunks:\n", f"{places}  trunks:\n"))).build)
    (leaf,) = plan_leaves(one, "A4")
    boxes = [
        (min(x for x, _ in c), min(y for _, y in c), max(x for x, _ in c), max(y for _, y in c))
        for part in flat(leaf.elements)
        if isinstance(part, Text)
        for c in [text_corners(part)]
    ]
    for a, b in combinations(boxes, 2):
        assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] + 0.2 or b[3] <= a[1] + 0.2


def test_the_plan_is_printed_before_the_sections() -> None:
    first, *others = (one.paper for one in leaves(_cabin(), "A4"))
    assert first == "trunks in plan"
    assert others
    assert "trunks in plan" not in {one.paper for one in leaves(cabin(parse(SMALL).build), "A4")}
