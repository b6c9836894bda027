"""Entries that are each right on their own, and do not agree."""

import re
from pathlib import Path

import pytest

from trimwright.build import InputError, parse

HERE = Path(__file__).parent
EVERY_KEY = (HERE / "every_key.yaml").read_text("utf-8")
QUARTER = (HERE / "quarter_hour.yaml").read_text("utf-8")
SEATS = "  seats:\n    left:\n"


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        (
            "at: 600 behind",
            "at: 300 behind",
            (
                'line 57, car > tunnel > 4th > at: found "300 behind"; expected a section behind the '
                'one at "450 behind"'
            ),
        ),
        (
            "from: 150 behind",
            "from: 560 behind",
            'line 80, car > seats > left > to: found "560 behind"; expected a place behind',
        ),
        ("left: 90, right", "left: 120 right, right", 'found "110"; expected a place right of'),
        ("bottom: 120", "bottom: 260", 'found "260"; expected a height above the bottom'),
        ("at: 120 behind, h", "at: 80 ahead, h", 'found "80 ahead"; expected a deck point behind'),
        (
            "    - {at: 690 behind, left: 118, right: 118}\n",
            "",
            "console > widths > 1st > at: found one place; expected two at least",
        ),
        (
            "{at: 690 behind, height: 214}",
            "{at: 600 behind, height: 214}",
            'console > deck > 3rd > at: found "600 behind"; expected the rear end or behind it',
        ),
        (
            "at: 190 behind",
            "at: 660 behind",
            'openings > 1st > at: found "660 behind"; expected an opening wholly between from and',
        ),
        ("corner: 25", "corner: 60", 'found "60"; expected at most half the opening'),
        ("at: 250 behind", "at: 750 behind", 'found "750 behind"; expected a place between from'),
        (
            "name: gear lever",
            "name: gear",
            'found "gear" a second time; expected a name of its own',
        ),
        ("[down 30 left]", "[down 31 left]", 'found "down 31 left"; expected a reading of this'),
        ("left at 0 behind", "left at 1 behind", 'found "down 30 left at 1 behind"; expected a'),
        ("  deck:\n    - {at: 70", "  deck height: 205\n  deck:\n    - {at: 70", "found both deck"),
        (
            "seats:\n    left",
            "between seats: {at hip: 262}\n  seats:\n    left",
            "both between seats",
        ),
        ("by: contour gauge", "by: conture gauge", "expected a way of measuring, such as: contour"),
        ("over: carpet,", "over: lino,", 'found "lino"; expected bare metal | carpet | deadener'),
        ("birch plywood", "brich plywood", "a sheet that the tables know, such as: birch plywood"),
        ("bolt: M6", "bolt: M66", "expected a thread that the tables know, such as: M6"),
        (
            ", box: {from: 140 ahead, to: 20 behind, left: 90, right: 110, bottom: 120, top: 260}",
            "",
            "car > bodies > 1st > name: found no shape; expected one of box, cylinder, outline",
        ),
        (
            "thick: 2 ± 0.5",
            "thick: 0",
            'layers > 1st > thick: found "0"; expected more than nothing',
        ),
        (
            "by hand: 6 ± 1",
            "by hand: 16",
            'found "16"; expected at most the loose carpet, "15 ± 1"',
        ),
        ("thick: 7 ±", "thick: 17 ±", 'pressed > 2nd > thick: found "17 ± 0.5"; expected at most'),
        ("certainty: 95 %", "certainty: 100 %", 'found "100 %"; expected from 50 % to 99.9 %'),
        ("plywood 12 ± 0.3", "plywood 0", 'console > sheet: found "0"; expected more than nothing'),
        ("long: 130", "long: 0", 'found "0"; expected more than nothing'),
        (', "60 left, 80 up"]', "]", "found 2 corners; expected three corners at least"),
        (
            "daylight at 610 behind",
            "daylight at 610",
            (
                'test fit > 4th > probe: found "610"; expected a place along the car that says'
                " which way, such as: 80 behind (it could mean 610 behind or 610 ahead)"
            ),
        ),
        (
            "daylight at 610 behind",
            "daylight at 710 behind",
            'expected a place on the console, from "70 ahead" to "690 behind"',
        ),
        ("daylight at 610", "daylight at 610 ± 5", "expected a place without a doubt, which goes"),
        (
            "daylight at 610 behind",
            "daylight at 610 behind and 60 behind",
            'found "60 behind"; expected each way once',
        ),
        (
            "left wall daylight at 610 behind",
            '"card at 610 behind"',
            "expected a place along and one across, such as: card at 220 behind and 90 left",
        ),
        (
            ", touches: the dash",
            "",
            "found no reads and no touches; expected one of the two, such as: reads: 2 ± 0.5",
        ),
        (
            "reads: at least 3",
            "reads: at least 3, touches: the dash",
            "test fit > 2nd > touches: found both reads and touches; expected one of the two",
        ),
        (
            "      nails:",
            "      down 30: {left: 88, right: 90}\n      nails:",
            "found both down ... and nails; expected one of the two in one section",
        ),
        (
            "A at 62 left, 40 down",
            "60 left, 40 down",
            "2nd > points: found 1 lettered points that an earlier bite has too; expected two at",
        ),
        (
            '"88 left, 30 down"',
            '"88 right, 30 down"',
            (
                'car > tunnel > 4th > points > 1st: found "88 right, 30 down", a point on the right '
                "among those on the left; expected points from left to right, here on the left"
            ),
        ),
        (
            '["88 left, 30 down", "on middle, 0 down", "90 right, 30 down"]',
            '["90 right, 30 down", "on middle, 0 down", "88 left, 30 down"]',
            "found points from right to left; expected points from left to right",
        ),
        (
            '"on middle, 0 down", "90 right',
            '"on middle, 0 down", "on middle, 0 down", "90 right',
            'found "on middle, 0 down" a second time; expected each point once',
        ),
        (
            "from left 312, from right 160",
            "from left 112, from right 160",
            (
                'nails > points > 2nd: found "from left 112, from right 160"; expected two lengths '
                "that meet: the nails are 400 apart, such as: from left 312, from right 287"
            ),
        ),
        (
            "from left 212, from right 208",
            "from left 612, from right 208",
            'nails > middle: found "from left 612, from right 208"; expected two lengths that meet',
        ),
        (
            "from left 312, from right 160",
            "from left 236, from right 165",
            "expected two lengths that cross less flat: move the nails for this point",
        ),
        (
            "from left 312, from right 160",
            "from left 312, from right 161\n          - from left 160, from right 313",
            (
                'found "from left 160, from right 313", a point on the left among those on the '
                "right; expected points from left to right, here on the right"
            ),
        ),
        (
            "{gear: neutral, behind datum: 165",
            "{gear: third, behind datum: 165",
            'lever > shaft passes > 1st > gear: found "third"; expected neutral | first, such as',
        ),
        (
            "      nails:\n",
            "      depths within: 1\n      nails:\n",
            "5th > depths within: found no row with a depth; expected rows, or no such key",
        ),
        (
            "nose lower by: 0, front shorter by: 0, left wall in by: 0, right wall in by: 0, scribe",
            "nose lower by: 3.5, scribe",
            (
                'line 147, test fit > 1st > cut then > nose lower by: found "3.5"; expected at most'
                ' what it is now, "0": no wood is put back, such as: 0'
            ),
        ),
        (
            "scribe deeper by: 0",
            "scribed deeper by: 0",
            (
                'line 147, test fit > 1st > cut then: found the key "scribed deeper by"; expected'
                " nose lower by | front shorter by | left wall in by | right wall in by | scribe"
                " deeper by, such as: scribe deeper by"
            ),
        ),
        (
            "gear lever wide: 100",
            "gear lever wide: 4 3/4 in",
            (
                'line 147, test fit > 1st > cut then > gear lever wide: found "4 3/4 in"; expected'
                ' at most what it is now, "110": no wood is put back, such as: 110'
            ),
        ),
        ("gear lever wide: 100", "gear lever wide: 0", 'found "0"; expected more than nothing'),
        (
            "gear lever wide: 100",
            "handbrake wide: 100",
            (
                'line 147, test fit > 1st > cut then > handbrake wide: found "handbrake wide";'
                " expected gear lever wide | gear lever long, such as: gear lever wide: 110"
            ),
        ),
        (
            "{probe: nose left, reads: 2 ± 0.5",
            '{probe: "card at 220 behind and 90 left", reads: 2 ± 0.5',
            "cut then: found a cut under a card; expected no such key: nothing is cut of a tunnel",
        ),
        ("apart: 400", "apart: 0", 'nails > apart: found "0"; expected more than nothing'),
    ],
)
def test_a_disagreement_is_named_with_its_line(right: str, wrong: str, says: str) -> None:
    assert right in EVERY_KEY
    with pytest.raises(InputError, match=re.escape(says)) as refused:
        parse(EVERY_KEY.replace(right, wrong))
    assert all(fault.line > 1 for fault in refused.value.faults)


def test_a_console_needs_a_height_and_a_width() -> None:
    with pytest.raises(InputError, match="found neither deck height nor deck; expected one of"):
        parse(QUARTER.replace("  deck height: 205\n", ""))


def test_two_bulkheads_of_one_name_are_refused() -> None:
    words = (
        "build: Larkspur estate\nunit: mm\ncar:\n  carpet:\n    loose: 15 ± 1\nconsole:\n"
        "  deck height: 200\n  width: 230\n  from: 70 ahead\n  to: 600 behind\n  bulkheads:\n"
        "    - {name: gear, at: 250 behind}\n    - {name: gear, at: 400 behind}\n"
    )
    with pytest.raises(InputError, match=r'line 13, .*name: found "gear" a second time'):
        parse(words)


def test_more_limits_than_are_drawn_together_are_refused() -> None:
    line = "  - {probe: lever knob, touches: the dash}\n"
    says = "found 11 of them; expected at most 10 that touch, or read at least or at most"
    with pytest.raises(InputError, match=says):
        parse(EVERY_KEY.replace(line, 8 * line))
    assert len(parse(EVERY_KEY.replace(line, 7 * line)).build.test_fit) == 11
