"""What is dragged is written where it belongs, on a mark of the rule, and nothing else is."""

from pathlib import Path

import pytest

from trimwright.app.handle import Handle, NoHandleError, dragged, handles
from trimwright.build import Loaded, edited, load, parse
from trimwright.cabin import cabin
from trimwright.papers import FieldPath, rest_of

EXAMPLES = Path(__file__).parents[3] / "examples"
FILES = ("dunlin/first-measured.yaml", "fifteen-minutes/build.yaml")
MARK_MM = {"mm": 0.5, "in": 25.4 / 32}


@pytest.fixture(params=FILES)
def loaded(request: pytest.FixtureRequest) -> Loaded:
    """Return an example as loaded, one in millimetres and one in inches."""
    return load(EXAMPLES / request.param)


def held(loaded: Loaded) -> dict[str, Handle]:
    """Return the handles of a build by name and view."""
    one = cabin(loaded.build)
    return {f"{h.name}|{h.view}": h for h in handles(loaded, one, rest_of(one))}


def test_a_console_has_handles_on_both_views(loaded: Loaded) -> None:
    found = held(loaded)
    assert {one.view for one in found.values()} >= {"side"}
    assert any(name.startswith("front end") for name in found)
    assert any(name.startswith("deck") for name in found)


def test_every_drag_moves_its_figure_by_as_much(loaded: Loaded) -> None:
    """Each figure read back from the file is the old one and the way, to half a mark."""
    unit, before = loaded.build.unit, held(loaded)
    for name, handle in before.items():
        pull = handle.pulls[0]
        level = {one.path: 7.3 for one in handle.pulls if one.way[0] == pull.way[0]}
        edits = dragged(before.values(), level, unit)
        after = parse(edited(loaded.text, edits))
        now = next(
            one for other in held(after).values() for one in other.pulls if one.path == pull.path
        )
        went = now.now_mm - pull.now_mm
        assert went == pytest.approx(7.3, abs=MARK_MM[unit] * 0.5 + 1e-9), name
        steps = now.now_mm / MARK_MM[unit]
        assert steps == pytest.approx(round(steps), abs=1e-6), name


def test_only_the_lines_of_what_is_dragged_change(loaded: Loaded) -> None:
    before = held(loaded)
    for handle in before.values():
        moves = {pull.path: -6.0 for pull in handle.pulls}
        after = edited(loaded.text, dragged(before.values(), moves, loaded.build.unit))
        pairs = zip(loaded.text.splitlines(), after.splitlines(), strict=True)
        assert sum(a != b for a, b in pairs) <= len(handle.pulls)


def test_an_end_takes_the_deck_and_the_widths_there_with_it() -> None:
    """Else the deck would end before the console does."""
    loaded = load(EXAMPLES / FILES[0])
    before = held(loaded)
    moves = {pull.path: -10.0 for pull in before["rear end|side"].pulls}
    after = parse(edited(loaded.text, dragged(before.values(), moves, "mm"))).build.console
    assert after is not None
    assert (after.end.value, after.deck[-1].at.value, after.widths[-1].at.value) == (680,) * 3


def test_whole_steps_where_they_are_asked_for() -> None:
    loaded = load(EXAMPLES / FILES[0])
    path = ("console", "deck", 1, "height")  # 208
    edits = dragged(held(loaded).values(), {path: 5.9}, "mm", whole=True)
    assert [one.value for one in edits] == ["215 mm"]


def test_what_hardly_moves_keeps_what_is_written() -> None:
    loaded = load(EXAMPLES / FILES[0])
    moves: dict[FieldPath, float] = {
        ("console", "deck", 1, "height"): 4.0,
        ("console", "deck", 1, "at"): 0.2,
    }
    edits = dragged(held(loaded).values(), moves, "mm")
    assert [(one.path[-1], one.value) for one in edits] == [("height", "212 mm")]


def test_through_the_datum_the_way_turns_in_words() -> None:
    loaded = load(EXAMPLES / FILES[0])
    path = ("console", "deck", 1, "at")  # 60 behind
    for by_mm, words in ((-60.0, "at datum"), (-72.5, "12.5 mm ahead"), (10.0, "70 mm behind")):
        assert dragged(held(loaded).values(), {path: by_mm}, "mm")[0].value == words


def test_what_no_handle_moves_is_refused(loaded: Loaded) -> None:
    with pytest.raises(NoHandleError, match="can be dragged there"):
        dragged(held(loaded).values(), {("car", "carpet", "loose"): 3.0}, loaded.build.unit)
