"""What YAML would silently misread is refused, with the right spelling."""

import re

import pytest

from trimwright.build import InputError, parse

HEAD = "build: Larkspur estate\nunit: mm\n"
CARPET = HEAD + "car:\n  carpet:\n    loose: {0}\n"
FLOW = HEAD + "car:\n  carpet: {{loose: {0}}}\n"
BOLT = (
    HEAD + "console:\n  deck height: 205\n  width: 236\n  from: 70 ahead\n  to: 690 behind\n"
    "  held by:\n    - at: 610 behind\n      bolt: {0}\ncar: {{carpet: {{loose: 15}}}}\n"
)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            FLOW.format("12,5, squeezed by hand: 6"),
            (
                'line 4, car > carpet > loose: found "12,5" in brackets; expected a point for the '
                "decimal mark, or a space after the comma, such as: 12.5 (it could mean 12.5 or 12, 5)"
            ),
        ),
        (
            BOLT.format("#8 screw"),
            (
                'line 10, console > held by > 1st > bolt: found "#8 screw", of which YAML drops all '
                "from # on; expected the whole in quotes, or a space after # if it is a remark, "
                'such as: "#8 screw"'
            ),
        ),
        (
            BOLT.format("M6 #8 screw"),
            'found "M6 #8 screw", of which YAML drops all from # on',
        ),
        (
            CARPET.format("012"),
            (
                'line 5, car > carpet > loose: found "012"; expected a number without a leading 0, '
                "such as: 12"
            ),
        ),
        (CARPET.format("0x12"), 'found "0x12"; expected a decimal number, such as: 12'),
        (
            CARPET.format("1_000"),
            'found "1_000"; expected digits without underscores between them, such as: 1000',
        ),
        (
            CARPET.format("12:30"),
            (
                'found "12:30"; expected a decimal mark, or text in quotes, such as: 12.30 '
                '(it could mean 12.30 or "12:30")'
            ),
        ),
        (CARPET.format("No"), 'found "No"; expected words, in quotes if they must be these'),
        (CARPET.format("~"), 'found "~"; expected a value, or no such key'),
        (CARPET.format(""), "found nothing; expected a value, or no such key"),
        (
            CARPET.format("15") + "    loose: 16\n",
            (
                'line 6, car > carpet > loose: found "loose" a second time (first on line 5); '
                "expected each key once"
            ),
        ),
        (CARPET.format("15\t"), "line 5: found a tab; expected spaces"),
        (HEAD + "car: &a\n  carpet: {loose: 15}\n", 'line 3: found "&a"; expected the figure'),
        (HEAD + "car: *a\n", 'line 3: found "*a"; expected the figure itself'),
        (HEAD + "car: {<<: {carpet: 3}}\n", 'line 3, car: found the key "<<"'),
        (HEAD + "car: !ruby 3\n", 'line 3: found "!ruby"; expected plain text'),
        (HEAD + "---\na: 1\n", "line 3: found a second document (---); expected one build"),
        ("%YAML 1.2\n---\n" + HEAD, "line 1: found a line that begins with %"),
        ("\ufeff" + HEAD, "line 1: found a byte-order mark; expected text saved as UTF-8 without"),
        (HEAD + "seed: \x001\n", "line 3: found the character U+0000; expected plain text"),
        (HEAD + "seed: \x851\n", "line 3: found the character U+0085; expected plain text"),
        (HEAD + "car: " + "{a: " * 30 + "1" + "}" * 30, "line 3: found more than 20 levels"),
        (HEAD + "because: a: b\n", 'line 3: found a second ": " or a key indented too far'),
        (HEAD + "car: 'x\n", "line 3: found the end of the file inside quotes"),
        (HEAD + "car: @x\n", "line 3: found a sign that text may not begin with"),
        ("", "line 1: found nothing; expected a group of keys, such as: build: Larkspur estate"),
        ("- a\n", "line 1: found a list; expected a group of keys"),
    ],
)
def test_a_trap_is_refused_in_words(text: str, says: str) -> None:
    with pytest.raises(InputError, match=re.escape(says)):
        parse(text)


def test_a_decimal_comma_outside_brackets_is_read() -> None:
    assert parse(CARPET.format("12,5")).build.car.carpet.loose.value == 12.5  # type: ignore[union-attr]  # it has one


def test_a_remark_with_a_space_is_a_remark() -> None:
    assert parse(BOLT.format("M6 # 8 of them")).build.console.held_by[0].bolt == "M6"  # type: ignore[union-attr]  # it has one


def test_quotes_lift_the_trap() -> None:
    loaded = parse('build: "012"\nunit: mm\ncar: {carpet: {loose: "12,5"}}\n')
    assert loaded.build.name == "012"
    assert loaded.build.car.carpet.loose.value == 12.5  # type: ignore[union-attr]  # it has one
