"""Readings and defaults: each once, under its own key, with its way and its line."""

from pathlib import Path

import pytest

from trimwright.build import assumed, load, parse, readings, said, value

HERE = Path(__file__).parent
LINES = (HERE / "every_key.yaml").read_text("utf-8").splitlines()
FULL, SHORT = load(HERE / "every_key.yaml"), load(HERE / "quarter_hour.yaml")


def by_key() -> dict[str, tuple[float, str, str, int]]:
    found = readings(FULL.build, FULL.document)
    assert len({one.key for one in found}) == len(found)
    return {one.key: (one.quantity.value, one.way, one.over, one.line) for one in found}


@pytest.mark.parametrize(
    ("key", "figure", "way", "words"),
    [
        ("car.carpet.loose", 15.0, "tape", "loose: 15"),
        ("car.layers.0.thick", 2.0, "caliper", "deadener"),
        ("car.dash above tunnel.60 ahead", 236.0, "tape", "60 ahead"),
        ("car.dash above tunnel.60 ahead.along", -60.0, "tape", "60 ahead"),
        ("car.tunnel.1.at", 300.0, "contour gauge", "at: 300 behind"),
        ("car.tunnel.1.down 100.left", 131.0, "contour gauge", "down 100: {left: 131"),
        ("car.tunnel.3.points.0.off middle", -88.0, "tape", "88 left"),
        ("car.tunnel.4.nails.points.0.right", 312.0, "tape", "from left 162.5"),
        ("car.seats.left.inner edge low", 131.0, "tape", "inner edge low: 131"),
        ("car.seats.left.inner edge low.up", 40.0, "tape", "inner edge low: 131"),
        ("car.bodies.0.box.left", -90.0, "tape", "heater box"),
        ("car.handbrake.down", 5.0, "tape", "down: 5 deg"),
        ("console.sheet", 12.0, "caliper", "birch"),
        ("console.held by.0.torque", 4.0, "tape", "bolt: M6"),
        ("test fit.1.reads", 3.0, "folded card", "at least 3"),
        ("test fit.3.reads", 4.0, "folded card", "at most 4"),
    ],
)
def test_a_reading_is_where_it_was_written(key: str, figure: float, way: str, words: str) -> None:
    found, by, _, line = by_key()[key]
    assert (found, by) == (figure, way)
    assert words in LINES[line - 1]
    assert value(FULL.build, key).value == figure


def test_a_reading_carries_the_doubt_of_its_way_unless_one_is_written() -> None:
    doubts = {one.key: one.quantity.doubt for one in readings(FULL.build)}
    written, by_gauge = doubts["car.tunnel.1.at"], doubts["car.tunnel.1.down 100.left"]
    assert written is not None
    assert by_gauge is not None
    assert (written.plus, by_gauge.plus) == (2.0, 1.0)
    assert doubts["car.handbrake.down"] is None  # no way of measuring says how far an angle is off
    assert value(FULL.build, "car.tunnel.1.down 100.left").doubt is None


def test_a_chosen_figure_is_no_reading_but_has_a_key() -> None:
    assert "console.deck.1.height" not in by_key()
    assert value(FULL.build, "console.deck.1.height").value == 214.0
    with pytest.raises(KeyError, match=r"no figure under 'console\.deck\.9\.height'"):
        value(FULL.build, "console.deck.9.height")


def test_words_name_a_reading_as_a_builder_would() -> None:
    words = {one.key: one.says for one in readings(FULL.build)}
    assert words["car.tunnel.1.down 30.left"] == "tunnel at 300 behind, down 30, left"
    assert words["car.lever.moves.1.off middle"] == "lever, moves first, off middle"
    assert words["test fit.0.reads"] == "test fit nose left, reads"


def test_every_default_is_listed_with_where_to_write_it() -> None:
    found = {one.key: one.text for one in assumed(SHORT.build)}
    assert found["wanted.nose to dash"] == "6 mm"
    assert found["car.lever knob.shaft"] == "14 mm ± 2"
    assert found["car.engine moves.along"] == "8 mm ± 3"
    assert found["car.seats.left.to"] == "600 mm behind"
    assert found["car.tunnel.0.by"] == "tape"
    assert found["console.sheet"] == "12 mm ± 0.3"
    assert found["covers.walls.foam"] == "3 mm ± 0.5"
    assert found["car.carpet.squeezed by hand"] == "± 2 mm"
    full = {one.key for one in assumed(FULL.build)}
    assert not any(key.startswith(("wanted", "covers", "console")) for key in full)
    assert "car.seats.right.slides" in full
    assert "car.seats.left.slides" not in full


def test_what_was_assumed_is_no_longer_once_it_is_written() -> None:
    text = SHORT.text + "  sheet: birch plywood 9\ncovers: {walls: {foam: 2}}\n"
    found = {one.key for one in assumed(parse(text).build)}
    assert {"console.sheet", "covers.walls.foam"}.isdisjoint(found - {"console.sheet"})
    sheet = [one for one in assumed(parse(text).build) if one.key == "console.sheet"]
    assert [one.says for one in sheet] == ["doubt of a reading by caliper"]
    assert "covers.deck.foam" in found


def test_equal_builds_spelled_otherwise_keep_their_own_spelling() -> None:
    first = parse("build: a\nunit: mm\ncar: {carpet: {loose: 15}}\n").build
    second = parse("build: a\nunit: mm\ncar: {carpet: {loose: 15 mm}}\n").build
    assert first == second
    spelled = [value(build, "car.carpet.loose").text for build in (first, second)]
    assert spelled == ["15", "15 mm"]


def test_said_refuses_a_field_that_is_not_there() -> None:
    with pytest.raises(ValueError, match="field must be one of Car, got 'thick'"):
        said(FULL.build.car, "thick")
