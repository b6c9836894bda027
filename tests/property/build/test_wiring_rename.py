"""A part called otherwise is called so everywhere, and nothing else of the file or its findings moves."""

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.invented_wiring import wiring_text
from tests.unit.app.every_key import LONG
from trimwright.build import NoNameError, Wiring, edited, parse, phrase, renamed, stop
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.findings import Edit

DUNLIN = Path(__file__).parents[3] / "examples" / "dunlin"
TEXTS = (
    *(wiring_text(seed, 4) for seed in range(12)),
    LONG,
    (DUNLIN / "first-wired.yaml").read_text("utf-8"),
)
GROUPS = ("places", "feeds", "grounds", "fuses", "switches", "relays", "units", "plugs", "splices",
          "loads", "paths", "bought cables")  # fmt: skip
NAMES = st.sampled_from(
    [
        "zwölf",
        "7 up",
        "fuse",
        "a: b",
        "x, y",
        "relay 30-87",
        "not so",
        "key",
        "left",
        "#1",
        "battery",
    ]
)


def _wiring(text: str) -> Wiring:
    wiring = parse(text).build.wiring
    assert wiring is not None
    return wiring


def _words(text: str) -> list[tuple[str | int, ...]]:
    """Return the place of every state and terminal of every unit."""
    return [
        ("wiring", "units", n, field, k)
        for n, unit in enumerate(_wiring(text).units)
        for field in ("states", "terminals")
        for k in range(len(getattr(unit, field)))
    ]


def _places(text: str) -> list[tuple[str, str, int]]:
    wiring = _wiring(text)
    return [
        ("wiring", group, n)
        for group in GROUPS
        for n in range(len(getattr(wiring, group.replace(" ", "_"))))
    ]


def _name(text: str, place: tuple[str, str, int]) -> str:
    name: str = getattr(_wiring(text), place[1].replace(" ", "_"))[place[2]].name
    return name


def _meant(text: str, old: str, new: str) -> list[object]:
    """Return what all stops and states mean, with one device called otherwise."""
    wiring = _wiring(text)
    said: list[object] = [stop(one, wiring) for path in wiring.paths for one in path.goes]
    told = [one for rule in wiring.rules for one in (*rule.when, *rule.excepting)]
    told += [one for unit in wiring.units for move in unit.moves for one in move.when]
    said += [phrase(one, wiring) for one in told]
    return [re.sub(rf"(?<=['\"]){re.escape(old)}(?=['\" ])", new, repr(one)) for one in said]


@st.composite
def cases(draw: st.DrawFn) -> tuple[str, tuple[str, str, int], str]:
    text = draw(st.sampled_from(TEXTS))
    return text, draw(st.sampled_from(_places(text))), draw(NAMES)


@settings(max_examples=150, deadline=None)
@given(cases())
def test_all_lines_but_those_that_name_it_stay_to_the_byte(
    case: tuple[str, tuple[str, str, int], str],
) -> None:
    text, place, new = case
    old = _name(text, place)
    try:
        edits = renamed(parse(text).build, place, new)
    except NoNameError:
        return
    after = edited(text, edits)
    _wiring(after)  # raises where the file is none any more
    assert _name(after, place) == new
    lines, now = text.splitlines(), after.splitlines()
    assert len(lines) == len(now)
    for was, line in zip(lines, now, strict=True):
        assert was == line or old in was
    back = edited(after, renamed(parse(after).build, place, old))
    assert parse(back).build == parse(text).build


@settings(max_examples=100, deadline=None)
@given(cases())
def test_every_stop_and_state_means_what_it_did(
    case: tuple[str, tuple[str, str, int], str],
) -> None:
    text, place, new = case
    if place[1] in ("places", "paths", "bought cables"):
        return
    old = _name(text, place)
    try:
        after = edited(text, renamed(parse(text).build, place, new))
    except NoNameError:
        return
    assert _meant(after, new, new) == _meant(text, old, new)


@pytest.mark.parametrize("seed", range(8))
def test_findings_are_the_same_but_for_the_name(seed: int) -> None:
    text = wiring_text(seed, 3)
    places = _places(text)
    before = all_findings(cabin(parse(text).build))
    for place in places[seed % 3 :: 5]:
        old, new = _name(text, place), "quite another thing"
        after = edited(text, renamed(parse(text).build, place, new))
        now = all_findings(cabin(parse(after).build))

        def told(words: str, old: str = old, new: str = new) -> str:
            held = re.sub(rf"(?i)(?<![\w]){re.escape(old)}(?![\w-])", new, words)
            return held.lower()

        assert sorted((told(one.place), one.grade, told(one.says)) for one in before) == sorted(
            (one.place.lower(), one.grade, one.says.lower()) for one in now
        ), (place, old)


def test_a_name_that_is_taken_or_none_is_refused() -> None:
    build = parse(TEXTS[-1]).build
    for new in ("fuse 2", "  ", "battery"):
        with pytest.raises(NoNameError, match="name"):
            renamed(build, ("wiring", "fuses", 1), new)
    with pytest.raises(NoNameError, match="a part"):
        renamed(build, ("wiring", "trunks", 0), "x")
    with pytest.raises(NoNameError, match="a part"):
        renamed(build, ("wiring", "fuses", 99), "x")


def test_a_name_that_swallows_another_devices_terminal_is_refused() -> None:
    build = parse(TEXTS[-1]).build
    with pytest.raises(NoNameError, match="not understood as something else"):
        renamed(build, ("wiring", "loads", 0), "console plug 6")


def test_a_finding_left_as_is_and_a_reading_follow_unless_two_parts_share_the_name() -> None:
    text = TEXTS[-1] + (
        "left as is:\n"
        "  - {finding: contacts of fog relay, because: it was measured}\n"
        "  - {finding: voltage at fog lamps, because: bright enough}\n"
    )
    text = edited(text, [Edit(("wiring", "readings", 0, "reading"), "feed side of fog relay")])
    text = edited(text, [Edit(("wiring", "readings", 0, "reads"), "12 V")])
    build = parse(text).build
    relay = next(n for n, one in enumerate(_wiring(text).relays) if one.name == "fog relay")
    after = parse(edited(text, renamed(build, ("wiring", "relays", relay), "K1"))).build
    assert after.left_as_is[0].finding == "contacts of K1"
    assert after.wiring is not None
    assert after.wiring.readings[0].reading == "feed side of K1"
    load = next(n for n, one in enumerate(_wiring(text).loads) if one.name == "fog lamps")
    shared = parse(edited(text, renamed(build, ("wiring", "loads", load), "E1"))).build
    assert shared.left_as_is[1].finding == "voltage at fog lamps"  # its path is called so too


WITH_UNIT = (TEXTS[-1], LONG)
WORD_NAMES = st.sampled_from(
    [
        "zwölf",
        "7 up",
        "a: b",
        "31",
        "50-15",
        "15-pump",
        "on",
        "live",
        "x and y",
        "#1",
        "awake",
        "is",
    ]
)


def _word(text: str, place: tuple[str | int, ...]) -> str:
    _, _, unit, field, item = place
    found: str = getattr(_wiring(text).units[int(unit)], str(field))[item]
    return found


def _told(text: str) -> list[object]:
    """Return what all stops and states mean, and every unit's table."""
    wiring = _wiring(text)
    table = [
        (unit.states, unit.terminals, [(m.leaves, m.enters) for m in unit.moves])
        for unit in wiring.units
    ]
    outputs = [(one.joins, one.closed) for unit in wiring.units for one in unit.outputs]
    return [*_meant(text, "", ""), table, outputs]


@st.composite
def words(draw: st.DrawFn) -> tuple[str, tuple[str | int, ...], str]:
    text = draw(st.sampled_from(WITH_UNIT))
    return text, draw(st.sampled_from(_words(text))), draw(WORD_NAMES)


@settings(max_examples=30, deadline=None)
@given(words())
def test_a_state_or_terminal_is_called_otherwise_and_all_else_stays_to_the_byte(
    case: tuple[str, tuple[str | int, ...], str],
) -> None:
    text, place, new = case
    old = _word(text, place)
    try:
        edits = renamed(parse(text).build, place, new)
    except NoNameError:
        return
    after = edited(text, edits)
    _wiring(after)  # raises where the file is none any more
    assert _word(after, place) == new
    lines, now = text.splitlines(), after.splitlines()
    assert len(lines) == len(now)
    for was, line in zip(lines, now, strict=True):
        assert was == line or old in was
    back = edited(after, renamed(parse(after).build, place, old))
    assert parse(back).build == parse(text).build


def test_every_mention_of_a_units_state_and_terminal_follows() -> None:
    text = TEXTS[-1]
    (unit,) = _wiring(text).units
    after = text
    for field, old, new in (("states", "cranking", "turning it"), ("terminals", "15", "key line")):
        place = ("wiring", "units", 0, field, getattr(unit, field).index(old))
        after = edited(after, renamed(parse(after).build, place, new))
    assert after == (
        text.replace("cranking]", "turning it]")
        .replace(": cranking,", ": turning it,")
        .replace("unit is cranking", "unit is turning it")
        .replace(" 15, 50, pump", " key line, 50, pump")
        .replace("start unit 15", "start unit key line")
        .replace("[15, pump]", "[key line, pump]")
    )


@pytest.mark.parametrize(
    ("field", "old", "new", "says"),
    [
        ("states", "cranking", "awake", "a name that no other state of start unit has"),
        ("terminals", "clutch", "button", "a name that no other terminal of start unit has"),
        ("terminals", "clutch", "  ", "a name"),
        ("states", "cranking", "on and off", "is not understood as something else"),
    ],
)
def test_a_word_of_a_unit_that_is_taken_or_misread_is_refused(
    field: str, old: str, new: str, says: str
) -> None:
    text = TEXTS[-1]
    (unit,) = _wiring(text).units
    place = ("wiring", "units", 0, field, getattr(unit, field).index(old))
    with pytest.raises(NoNameError, match=says):
        renamed(parse(text).build, place, new)


def test_a_state_or_terminal_that_is_not_there_is_none() -> None:
    build = parse(TEXTS[-1]).build
    for place in (("units", 0, "states", 9), ("units", 0, "moves", 0), ("units", 7, "states", 0)):
        with pytest.raises(NoNameError, match="a part that is there"):
            renamed(build, ("wiring", *place), "x")


def test_a_finding_left_as_is_follows_a_terminal() -> None:
    text = TEXTS[-1] + "left as is:\n  - {finding: wires at start unit 15, because: short}\n"
    place = ("wiring", "units", 0, "terminals", 2)
    after = parse(edited(text, renamed(parse(text).build, place, "key"))).build
    assert after.left_as_is[0].finding == "wires at start unit key"
