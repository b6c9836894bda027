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
