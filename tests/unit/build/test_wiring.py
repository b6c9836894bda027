"""The wiring of a build file: its short ways of writing, and every fault with its line."""

import re
from pathlib import Path

import pytest

from trimwright.build import InputError, StateSaid, Stop, parse, phrase, stop

EVERY_KEY = (Path(__file__).parent / "every_key.yaml").read_text("utf-8")
WIRING = parse(EVERY_KEY).build.wiring


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("always", Stop("always", "in", "out")),
        ("fuse 7", Stop("fuse 7", "in", "out")),
        ("fog relay 30-87", Stop("fog relay", "30", "87")),
        ("fog relay 86", Stop("fog relay", "86", "86")),
        ("boot plug 3", Stop("boot plug", "3", "3")),
        ("tail stud", Stop("tail stud", "stud", "stud")),
        ("fog lamps", Stop("fog lamps", "+", "-")),
        ("battery +", Stop("battery", "+", "+")),
        ("alternator D+", Stop("alternator", "D+", "D+")),
    ],
)
def test_a_stop_is_a_device_and_its_terminals(text: str, found: Stop) -> None:
    assert WIRING is not None
    assert stop(text, WIRING) == found


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ("- fuse 7\n        - fog relay", "- fuse 8\n        - fog relay", 'found "fuse 8"; expected a device of this wiring, such as: fuse 7'),
        ("- fog relay 30-87", "- fog relay", "expected which terminal: 30, 87, 87a, 85, 86"),
        ("- fog relay 30-87", "- fog relay 30-88", "expected its terminals are 30, 87, 87a, 85, 86"),
        ("- boot plug 1", "- boot plug 5", "expected its terminals are 1, 2, 3, 4"),
        ("colour: BKRD", "colour: black", "expected one or two IEC 60757 codes, such as: BKRD"),
        ("{name: lamp splice, at: boot}", "{name: lamp splice, at: bot}", 'found "bot"; expected a place listed under places, such as: boot'),
        ("{name: door switch", "{name: fog switch", 'found "fog switch" a second time; expected a name of its own'),
        ("{from: fuse box, to: boot}", "{from: fuse box, to: nose}", 'found "nose"; expected a place listed under places'),
        ("at: 1900 behind, off middle: 520 right, up", "at: 1900 behind, up", "expected how long it is, or where both its places are"),
        ("never: tailgate release", "never: tail gate", "expected a load of this wiring, such as: tailgate release"),
        ("- engine running", "- engine warm", "expected a state, such as engine running"),
        ("- key at ignition", "- not engine stalled", "expected what is the case instead, such as: engine running"),
        ("from: fog lamps, to", "from: fog lamp, to", "expected a load of this wiring, such as: fog lamps"),
        ("takes: 42 W", "takes: 42", "expected a power or a current, such as: 8 A"),
        ("takes: 42 W", "takes: 0 W", 'loads > 1st > takes: found "0 W"; expected a figure above 0'),
        ("inside: 8 mohm", "inside: 0 mohm", 'found "0 mohm"; expected a figure above 0'),
        ("volts: 12.6 V", "volts: 1.26 V", "expected the volts of a car's battery, at least 5 V, such as: 12.6 V"),
        ("at idle: 22 A", "at idle: 65 A", 'found "65 A"; expected no more than the 55 A that it gives at speed'),
        ("starts with: 20 A", "starts with: 2 A", 'found "2 A"; expected no less than it takes for good, 3.11 A'),
        ("asleep: 1 mA", "asleep: 14 A", 'found "14 A"; expected no more than it takes awake, 12 A'),
        ("cuts out: 9 V", "cuts out: 14 V, measured at: 13 V", 'found "14 V"; expected less than the 13 V at which it takes 12 A'),
        ("- fuse 7\n        - fog switch", "- fuse 7\n        - fuse 7 out\n        - fog switch", 'found "fuse 7 out"; expected another terminal: a wire has two ends'),
        ("- always\n        - fuse 7", "- always\n        - always\n        - fuse 7", 'found "always"; expected another terminal: a wire has two ends'),
    ],
)  # fmt: skip
def test_a_fault_of_the_wiring_is_named(right: str, wrong: str, says: str) -> None:
    assert right in EVERY_KEY
    with pytest.raises(InputError, match=re.escape(says)) as refused:
        parse(EVERY_KEY.replace(right, wrong))
    assert str(refused.value).count("line ") == 1


BOXED = """
    - name: bridge
      goes:
        - always
        - fuse 8
    - name: odd
      goes:
        - fuse 8 in
        - fuse 7 in
"""


def test_a_wire_between_terminals_that_the_fuse_box_joins_is_refused() -> None:
    text = EVERY_KEY.replace(
        "rated: 15 A, type: blade, breaks: 1000 A}",
        "rated: 15 A, type: blade, breaks: 1000 A}\n    - {name: fuse 8, at: fuse box, rated: 5 A}",
    )
    text = text.replace("  bought cables:", f"{BOXED[1:]}  bought cables:")
    with pytest.raises(InputError, match='found "fuse 7 in"; expected another terminal'):
        parse(text)
    assert parse(text.replace("- fuse 7 in", "- fuse 7 out")).build.wiring is not None


def test_stalled_is_ignition_without_a_turning_engine() -> None:
    assert WIRING is not None
    assert phrase("engine stalled", WIRING) == (
        StateSaid("engine", "engine", "stopped"),
        StateSaid("key", "key", "ignition"),
    )


def test_a_phrase_may_say_two_things_and_deny_one() -> None:
    assert WIRING is not None
    assert phrase("left door open and not fog switch worked", WIRING) == (
        StateSaid("fact", "left door open", "true"),
        StateSaid("switch", "fog switch", "worked", truth=False),
    )
