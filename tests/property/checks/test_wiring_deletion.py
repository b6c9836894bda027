"""Take any key out of a whole wiring: it is refused with its line, or what it leaves is owned up to.

Every key of the schema is taken out once, where it stands first; more of the same kind only where
they wait for something else. Of the 317 keys and entries of the text, 300 and more were tried once:
none broke.
"""

from collections.abc import Iterator
from functools import cache

import pytest
import yaml

from tests.wired_every_key import TEXT, entries, quick, said, sound
from trimwright.build import Entry, InputError, Load, Trunk, assumed, edited, parse
from trimwright.findings import Edit, Finding

Step = str | int
Path = tuple[Step, ...]
MOVED = 0.05  # of its limit by which a figure must have moved to rest on what was taken out

# what becomes missing without a key, in the words of the finding
WAITS = {
    ("battery",): "the battery: its cranking current, or its inner resistance",
    ("battery", "at"): "the place of battery",
    ("battery", "holds"): "what the battery holds",
    ("alternator", "at"): "the place of alternator",
    ("alternator", "at idle"): "what the alternator gives hot and idling",
    ("trunks",): "a trunk from box to boot",
    ("trunks", 0): "a trunk from bay to box",
    ("feeds", 0, "at"): "the place of always",
    ("grounds", 0, "at"): "the place of bay stud",
    ("grounds", 2, "at"): "the place of tail stud",
    ("fuses", 0, "at"): "the place of main fuse",
    ("switches", 0, "at"): "the place of heater switch",
    ("switches", 0, "carries"): "what heater switch may carry",
    ("relays", 0, "at"): "the place of pump relay",
    ("units", 0, "at"): "the place of lock unit",
    ("plugs", 0, "at"): "the place of boot plug",
    ("splices", 0, "at"): "the place of boot splice",
    ("loads", 0, "at"): "the place of heater",
    ("loads", 0, "takes"): "what heater takes",
    ("loads", 1, "takes"): "what pump takes",
    ("loads", 1, "starts with"): "what pump takes at first",
    ("loads", 2, "takes"): "what radio takes",
    ("loads", 2, "asleep"): "what each device takes asleep",
}
# the finding that is no longer made, or is no longer good
LEAVES = {
    ("trunks", 0, "hole"): "hole from bay to box",
    ("trunks", 0, "room"): "room from bay to box",
    ("trunks", 0, "bends"): "bend from bay to box",
    ("feeds", 1, "carries"): "current through ignition",
    ("plugs", 0, "carries"): "current through boot plug 1",
    ("loads", 3, "opens"): "way out by the tailgate",
    ("loads", 3, "by hand"): "way out by the tailgate",
    ("paths", 0, "size"): "wires of main",
    ("bought cables",): "length of aerial lead",
    ("signals",): "noise on audio in",
    ("rules",): "never heater",
    ("readings",): "meter at heater",
    ("paths",): "voltage at heater",
    ("paths", 5): "voltage at heater",
    ("units", 0, "outputs"): "voltage at lock",
}
# nothing waits for these: another key of the file, or the other end of what may be, stands in
FREE = {
    ("battery", "cranks"): "its inside is written",
    ("battery", "inside"): "its cranking current is written",
    ("places", 0, "at"): "the trunks there say how long they are",
    ("places", 0, "off middle"): "the same",
    ("places", 0, "up"): "the same",
    ("trunks", 0, "long"): "both its places are measured",
    ("switches", 2, "worked by"): "worked by hand then",
    ("units",): "refused, or nothing without its path",
    ("units", 0, "moves"): "it never leaves where it wakes",
    ("units", 0, "moves", 1, "waits"): "it then goes at once",
    ("loads", 0, "live"): "its path says it",
    ("loads", 0, "worked by"): "its path says it",
    ("loads", 1, "on for"): "it then counts as on for good",
    ("loads", 2, "cuts out"): "it then lets go at 6 V",
    ("paths", 0, "colour"): "nothing is reckoned with it",
    ("fuses", 1, "breaks"): "what its class breaks is taken",
    ("rules", 0, "except"): "the rule then asks for more",
    ("prices",): "the buying list then has no sum",
    ("prices", 0): "the same",
}


def _walk(told: object, path: Path = ()) -> Iterator[Path]:
    """Yield the path of every key and entry."""
    inside = list(told.items() if isinstance(told, dict) else enumerate(told) if isinstance(told, list) else ())  # fmt: skip
    for step, below in inside:
        yield (*path, step)
        yield from _walk(below, (*path, step))


ALL = tuple(_walk(yaml.safe_load(TEXT)["wiring"]))


def _kind(path: Path) -> Path:
    """Return a path without the numbers of its entries."""
    return tuple(step for step in path if isinstance(step, str))


FIRST = tuple({_kind(path): path for path in reversed(ALL)}.values())[::-1]
ASKED = tuple(dict.fromkeys([*FIRST, *WAITS, *LEAVES, *FREE]))


@cache
def without(path: Path) -> tuple[dict[tuple[str, str], Finding], frozenset[str]] | str:
    """Return what is said without a key and what is assumed then, or the message that refuses it."""
    try:
        build = parse(edited(quick(path[0]), [Edit(("wiring", *path), None)])).build
    except InputError as refused:
        return str(refused)
    return said(build), frozenset(one.key for one in assumed(build))


def dotted(path: Path) -> str:
    """Return a path as a dotted key."""
    return ".".join(map(str, path))


READ = tuple(path for path in ASKED if not isinstance(without(path), str))


def test_the_wiring_is_sound_and_has_every_key_of_the_schema() -> None:
    found, _ = sound()
    assert {one.grade for one in found.values()} == {"good", "look"}
    wiring = parse(TEXT).build.wiring
    assert wiring is not None
    told: dict[type[Entry], set[str]] = {}
    for entry in entries(wiring):
        told.setdefault(type(entry), {*Entry.model_fields}).update(entry.model_fields_set)
    lacks = {
        (kind, name)
        for kind, names in told.items()
        for name in kind.model_fields
        if name not in names
    }
    # takes: 6 A is a load's current; carpet and hinges ask for more of a car
    assert lacks == {(Load, "power"), (Trunk, "under_carpet"), (Trunk, "hinge")}


def test_what_must_be_there_is_refused_with_its_line() -> None:
    refused = [said for path in ASKED if isinstance(said := without(path), str)]
    for words in refused:
        assert "\n  line " in words
        assert "; expected " in words
    assert len(refused) > 30


@pytest.mark.parametrize("path", READ, ids=dotted)
def test_what_waits_for_a_key_says_so_and_no_good_rests_on_it(path: Path) -> None:
    whole, known = sound()
    now = without(path)
    assert not isinstance(now, str)
    found, taken = now
    missing = {words for one in found.values() for words in one.missing}
    if path in WAITS:
        assert WAITS[path] in missing
        assert all(one.grade == "look" for one in found.values() if one.missing)
    elif path in LEAVES:
        place = LEAVES[path]
        assert "good" not in {one.grade for (_, at), one in found.items() if at == place}
    elif path not in FREE:
        assert taken - known, "neither missing nor taken for now"
    if path in WAITS:
        assert _moved(whole, found) == {}


def _moved(
    whole: dict[tuple[str, str], Finding], found: dict[tuple[str, str], Finding]
) -> dict[str, tuple[float, float]]:
    """Return the good findings whose figure moved though they do not say what they wait for.

    What a wire may carry moves with its company, which is told as far as it is known to lie there.
    """
    told = {}
    for key, one in found.items():
        old = whole.get(key)
        if old is None or old.figure is None or one.figure is None or one.grade != "good":
            continue
        figure = "may carry" not in one.says
        if figure and abs(one.figure - old.figure) > MOVED * abs(one.limit or 1.0):
            told[one.place] = (old.figure, one.figure)
    return told
