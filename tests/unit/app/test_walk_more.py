"""Readings beyond the first: a section more in its place, points, carpet under weights."""

import itertools
from pathlib import Path

import pytest

from trimwright.app.walk.entry import moved, placed, ready, refuse_wrong
from trimwright.app.walk.known import known
from trimwright.app.walk.more import carpet_steps, section_steps
from trimwright.app.walk.next import SECTION, settled_by
from trimwright.app.walk.walking import walk
from trimwright.build import InputError, Loaded, edited, parse, written
from trimwright.cabin import cabin
from trimwright.findings import Edit

ROOT = Path(__file__).parents[3]
QUARTER = (ROOT / "examples/fifteen-minutes/build.yaml").read_text("utf-8")
DUNLIN = (ROOT / "examples/dunlin/first-measured.yaml").read_text("utf-8")
NEW = ("car", "tunnel", "new")
FIGURES = {
    "at": "2 3/4 ahead",
    "height above floor": "7 1/4",
    "down 1 left": "4 3/4",
    "down 1 right": "4 7/8",
    "down 6 left": "7 1/4",
    "down 6 right": "7",
}


def name(path: tuple[str | int, ...]) -> str:
    return " ".join(str(step) for step in path[3:])


def quarter() -> tuple[Loaded, tuple[Edit, ...]]:
    """Return the first readings as a build, with nothing that waits."""
    return parse(QUARTER), ()


def entered(loaded: Loaded, held: tuple[Edit, ...], edit: Edit) -> tuple[Loaded, tuple[Edit, ...]]:
    """Return the build after one more reading, and what waits."""
    now = known(loaded)
    split = ready(now, (*held, edit))
    refuse_wrong(loaded, now, split)
    into = placed(now, split.ready)
    return parse(edited(loaded.text, into.edits)), moved(split.held, into)


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("at", ["2 3/4 ahead", "27 behind"])
def test_a_section_more_is_written_whole_and_in_its_place_whatever_the_order(
    at: str, *, turned: bool
) -> None:
    loaded, held = quarter()
    readings = [Edit((*NEW, *_path(one)), v) for one, v in {**FIGURES, "at": at}.items()]
    for edit in reversed(readings) if turned else readings:
        assert loaded.text == QUARTER
        loaded, held = entered(loaded, held, edit)
    assert held == ()
    places = [one.at.text for one in loaded.build.car.tunnel]
    assert places == (["2 3/4 ahead", "12 behind"] if "ahead" in at else ["12 behind", at])
    number = places.index(at)
    said = written(loaded.text)
    assert {name(p): v for p, v in said.items() if p[:3] == ("car", "tunnel", number)} == {
        **FIGURES,
        "at": at,
    }
    old, new = QUARTER.splitlines(), loaded.text.splitlines()
    added = len(new) - len(old)
    start = next(k for k, (a, b) in enumerate(itertools.zip_longest(old, new)) if a != b)
    assert new[:start] + new[start + added :] == old  # nothing else moved


def _path(words: str) -> tuple[str, ...]:
    return tuple(words.rsplit(" ", 1)) if words.startswith("down") else (words,)


def test_a_place_that_is_taken_is_refused_and_nothing_written() -> None:
    loaded, held = quarter()
    *most, last = [Edit((*NEW, *_path(one)), v) for one, v in FIGURES.items() if one != "at"]
    for edit in (*most, last):
        loaded, held = entered(loaded, held, edit)
    with pytest.raises(InputError, match="12 behind"):
        entered(loaded, held, Edit((*NEW, "at"), "12 behind"))


def test_a_row_between_goes_in_by_itself_once_the_section_is_there() -> None:
    loaded, held = quarter()
    asked = [one.path for one in section_steps(known(loaded), 0)]
    depths = {"down 1": "4 1/4", "down 6": "6 1/2"}
    for path in asked:
        if path[3] in depths:
            loaded, held = entered(loaded, held, Edit(path, depths[str(path[3])]))
    assert held == ()
    (middle,) = {path[3] for path in asked if len(path) > 4} - {*depths}
    loaded, held = entered(loaded, held, Edit(("car", "tunnel", 0, middle, "left"), "5 1/2"))
    assert written(loaded.text)["car", "tunnel", 0, middle, "left"] == "5 1/2"


def test_points_that_wait_move_on_with_their_section() -> None:
    loaded, held = quarter()
    loaded, held = entered(loaded, held, Edit(("car", "tunnel", 0, "down 1", "left"), "4 1/4"))
    for one, value in FIGURES.items():
        loaded, held = entered(loaded, held, Edit((*NEW, *_path(one)), value))
    assert [edit.path for edit in held] == [("car", "tunnel", 1, "down 1", "left")]
    assert loaded.build.car.tunnel[1].at.text == "12 behind"


def test_the_first_readings_stay_those_of_their_section() -> None:
    loaded, held = quarter()
    before = {
        step.heading: step.written for step in walk(loaded, "").steps if step.asked == "first"
    }
    for one, value in FIGURES.items():
        loaded, held = entered(loaded, held, Edit((*NEW, *_path(one)), value))
    after = {step.heading: step.written for step in walk(loaded, "").steps if step.asked == "first"}
    assert after == before


def test_the_carpet_is_written_with_the_weight_and_the_lath_in_any_order() -> None:
    loaded = parse(QUARTER)
    light, middle, heavy = (one.path for one in carpet_steps(known(loaded)))
    for path, value in ((middle, "3/8"), (heavy, "1/4"), (light, "1/2")):
        loaded, _ = entered(loaded, (), Edit(path, value))
    carpet = loaded.build.car.carpet
    assert carpet is not None
    assert [(one.weight.text, one.thick.text) for one in carpet.pressed] == [
        ("5 kg", "3/8"),
        ("20 kg", "1/4"),
        ("1 kg", "1/2"),
    ]
    assert carpet_steps(known(loaded)) == ()


@pytest.mark.parametrize("text", [QUARTER, DUNLIN], ids=["quarter", "dunlin"])
def test_what_decides_comes_in_its_order(text: str) -> None:
    told = [step.gives for step in walk(parse(text), "").steps if step.gives.startswith("It dec")]
    groups = [settled_by(one.factor.key) for one in cabin(parse(text).build).again]
    gaps = [f"It decides: {one.gap}." for one in cabin(parse(text).build).again]
    assert [one for one, _ in itertools.groupby(told)] == [
        one for one, _ in itertools.groupby(gaps)
    ]
    assert SECTION in groups or text == DUNLIN


def test_a_top_is_read_as_the_datum_lets_it_be() -> None:
    tops = {
        text: next(s for s in section_steps(known(parse(text)), None) if s.path[3] != "at")
        for text in (QUARTER, DUNLIN)
    }
    assert (tops[QUARTER].path[3], tops[QUARTER].tail) == ("height above floor", "")
    assert (tops[DUNLIN].path[3], tops[DUNLIN].tail) == ("top", " below string")


def test_what_it_was_taken_over_goes_in_with_the_first_reading_of_its_group() -> None:
    dash = ("car", "dash above tunnel")
    loaded = parse(edited(QUARTER, [Edit(dash, None)]))
    steps = [step for step in walk(loaded, "").steps if step.path[:2] == dash]
    assert [step.over and step.over.alone for step in steps] == [False, False]
    over = Edit((*dash, "over"), "carpet")
    loaded, held = entered(loaded, (over,), Edit((*dash, "at datum"), "8 3/4"))
    assert held == ()
    assert written(loaded.text)[*dash, "over"] == "carpet"
    held = (Edit((*NEW, "over"), "carpet"),)
    for one, value in FIGURES.items():
        loaded, held = entered(loaded, held, Edit((*NEW, *_path(one)), value))
    assert [one.over for one in loaded.build.car.tunnel] == ["carpet", "bare metal"]
