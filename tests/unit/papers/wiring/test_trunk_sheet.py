"""Trunks in section: circles in their true size, none in another, all in the wrap."""

from itertools import combinations
from math import hypot

import pytest

from tests.invented_loom import loom_cabin
from trimwright.drawing import Circle, Line, Text, text_width
from trimwright.papers.wiring.trunk_sheet import leaves, scale_of, section
from trimwright.wiring import Bundling, bundlings, made_of


def _trunks() -> tuple[Bundling, ...]:
    found = loom_cabin().wiring
    assert found is not None
    return bundlings(found)


def _circles(one: Bundling, scale: float, layer: str) -> list[Circle]:
    drawn, _ = section(one, scale)
    return [part for part in drawn if isinstance(part, Circle) and part.layer == layer]


@pytest.mark.parametrize("scale", [1.0, 3.0])
def test_wires_are_drawn_in_their_true_outside(scale: float) -> None:
    found = loom_cabin().wiring
    assert found is not None
    made = made_of(found)
    for one in _trunks():
        drawn = _circles(one, scale, "wire")
        outside = [own.outside_mm for wire in one.wires if (own := made[wire.name].stock)]
        assert [2 * circle.radius / scale for circle in drawn] == pytest.approx(outside)


def test_no_wire_is_in_another_or_in_the_wrap() -> None:
    for one in _trunks():
        wires = _circles(one, 4.0, "wire")
        for a, b in combinations(wires, 2):
            apart = hypot(a.centre[0] - b.centre[0], a.centre[1] - b.centre[1])
            assert apart >= a.radius + b.radius - 1e-6
        wrap = _circles(one, 4.0, "wrap")
        if not wrap:
            assert len(wires) == 1
            continue
        inner = min(wrap, key=lambda circle: circle.radius)
        for circle in wires:
            out = hypot(circle.centre[0] - inner.centre[0], circle.centre[1] - inner.centre[1])
            assert out + circle.radius <= inner.radius + 1e-6


def test_hole_and_room_are_drawn_as_written() -> None:
    first, second, *_ = _trunks()
    (hole,) = _circles(first, 4.0, "hole")
    assert 2 * hole.radius / 4.0 == pytest.approx(9.0)
    drawn, side = section(second, 4.0)
    heights = [part.points[0][1] for part in drawn if isinstance(part, Line)]
    assert (max(heights) - min(heights)) / 4.0 == pytest.approx(4.0)
    assert max(heights) <= side


def test_every_number_fits_its_circle() -> None:
    for one in _trunks():
        scale = scale_of(one)
        drawn, _ = section(one, scale)
        numbers = [part for part in drawn if isinstance(part, Text)]
        assert len(numbers) == len(one.wires)
        for text, circle in zip(numbers, _circles(one, scale, "wire"), strict=True):
            assert text_width(text.words, text.size_mm) < 2 * circle.radius


def test_a_wire_of_unknown_outside_is_told_and_not_drawn() -> None:
    said = " ".join(
        part.words
        for leaf in leaves(loom_cabin(), "A4")
        for part in leaf.elements
        if isinstance(part, Text)
    )
    assert said.count("as their outside is not known: clock 1") == 2  # it lies in two trunks
    second = _trunks()[1]
    assert [wire.name for wire in second.unknown] == ["clock 1"]
    assert len(_circles(second, 4.0, "wire")) == len(second.wires)
