"""The measuring walk: its steps are fields of the schema, and lead to what the file would say."""

import itertools
from pathlib import Path

import pytest

from trimwright.app.answer import fit
from trimwright.app.walk.entry import placed, ready, refuse_wrong
from trimwright.app.walk.known import known, taken_apart
from trimwright.app.walk.need import needs
from trimwright.app.walk.walking import walk
from trimwright.app.walk.words import STOPS, stop_at
from trimwright.build import InputError, Loaded, beginning, edited, first_readings, parse, written
from trimwright.cabin import cabin
from trimwright.car import adjusted
from trimwright.findings import Edit

ROOT = Path(__file__).parents[3]
QUARTER = (ROOT / "examples/fifteen-minutes/build.yaml").read_text("utf-8")
DUNLIN = (ROOT / "examples/dunlin/first-measured.yaml").read_text("utf-8")


def entered(text: str, figures: dict[tuple[str | int, ...], str], order: list[int]) -> Loaded:
    """Return the build after its steps were followed in an order, each reading entered once."""
    loaded = parse(text)
    held: tuple[Edit, ...] = ()
    steps = walk(loaded, "").steps
    for number in order:
        path = steps[number].path
        now = known(loaded)
        split = ready(now, (*held, Edit(path, figures[path])))
        refuse_wrong(loaded, now, split)
        loaded, held = parse(edited(loaded.text, placed(now, split.ready).edits)), split.held
    assert held == ()
    return loaded


def test_following_every_step_gives_the_findings_of_the_file() -> None:
    asked, figures = parse(QUARTER), written(QUARTER)
    text = beginning(asked.build.name, "in", "left")
    order = list(range(len(walk(parse(text), "").steps)))
    done = entered(text, figures, order)
    assert written(done.text) == figures
    assert fit(done.build, "") == fit(asked.build, "")
    turned = entered(text, figures, order[::-1])  # skipped and come back to
    assert written(turned.text) == figures


@pytest.mark.parametrize("text", [QUARTER, DUNLIN], ids=["quarter", "dunlin"])
def test_every_step_is_written_in_the_file_or_can_be(text: str) -> None:
    loaded = parse(text)
    said = written(text)
    for step in walk(loaded, "v").steps:
        if step.written:
            assert said[step.path] == step.written
            sides = f" {step.side}" if step.side else ""
            figure = step.figure or taken_apart(step.written, step.sides)[0]
            assert (step.figure == "") == (step.asked == "again")
            again = edited(text, [Edit(step.path, f"{figure}{sides}{step.tail}")])
            assert parse(again).build == loaded.build


def test_nothing_is_asked_for_that_a_longer_form_says() -> None:
    paths = {
        step.path[:2]
        for step in walk(parse(DUNLIN), "").steps
        if not step.heading.startswith("Again")
    }
    assert ("car", "lever knob") not in paths
    assert ("car", "between seats") not in paths


def test_when_all_is_read_the_walk_asks_for_what_does_not_fit_then_for_what_decides() -> None:
    build = parse(DUNLIN).build
    steps = walk(parse(DUNLIN), "").steps
    again = [step.gives for step in steps if step.heading.startswith("Again")]
    doubted = [one.says for one in adjusted(build).suspects]
    assert again[: len(doubted)] == doubted
    deciding = [f"It decides: {one.gap}." for one in cabin(build).again]
    assert again[len(doubted) :]
    assert [one for one in deciding if one in again] == again[len(doubted) :]


def test_what_a_reading_is_needed_for_is_lost_without_it() -> None:
    seats = needs("mm")["car", "between seats", "at hip"]
    assert seats.lost == ("left wall to seat", "right wall to seat")
    assert needs("mm")["car", "carpet", "loose"].every
    said = edited(QUARTER, [Edit(("car", "between seats"), None)])
    step = next(one for one in walk(parse(said), "").steps if one.path[1] == "between seats")
    assert step.gives == "With this one can be checked: left wall to seat; right wall to seat."


def test_a_held_reading_that_is_no_figure_is_refused_at_once() -> None:
    loaded = parse(beginning("x", "mm", "left"))
    now = known(loaded)
    split = ready(now, (Edit(("car", "lever knob", "across"), "1,250"),))
    assert split.ready == ()
    with pytest.raises(InputError, match="1,250") as refused:
        refuse_wrong(loaded, now, split)
    assert refused.value.faults[0].readings == ("1250", "1.25")
    refuse_wrong(loaded, now, ready(now, (Edit(("car", "lever knob", "across"), "48"),)))


def test_drawings_say_where_to_read_and_stay_inside_their_frame() -> None:
    steps = walk(parse(QUARTER), "").steps
    for step in steps:
        picture = step.picture
        assert picture is not None
        assert (picture.taped is None) == step.words == bool(step.choices)
        assert picture.taped is None or picture.taped.read_says
        left, top, right, bottom = picture.extent
        lines = [one.points for one in picture.strokes] + [one.points for one in picture.areas]
        for x, y in itertools.chain(*lines):
            assert left - 0.01 <= x <= right + 0.01
            assert top - 0.01 <= y <= bottom + 0.01


def test_every_word_of_the_walk_belongs_to_a_first_reading() -> None:
    stops = {id(stop_at(one.path)) for unit in ("mm", "in") for one in first_readings(unit)}
    assert stops == {id(stop) for stop in STOPS.values()}


def test_a_text_is_taken_apart_and_back() -> None:
    sides = ("ahead", "behind")
    assert taken_apart("12 ± 1/16 behind", sides) == ("12 ± 1/16", "behind", "")
    assert taken_apart("at datum", sides) == ("0", "", "")
    assert taken_apart("35 deg", ()) == ("35", "", " deg")
