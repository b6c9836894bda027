"""Five thousand slips of the hand: each is refused with its line, or read as it is written."""

import random
import re
from pathlib import Path

import pytest

from trimwright.build import InputError, Loaded, figures_of, measured, parse

SAMPLES = Path(__file__).parents[2] / "unit" / "build"
FIGURE = re.compile(r"(\d+(?:\.\d+)?)(?: (ahead|behind))?(?: ± (\d+(?:\.\d+)?))?")
SIGNS = "\"'#:,-[]{}&*!|>%@`±0159 \t\n\r\\\x00\ufeffäx/_~?<=."


def slipped(text: str, rng: random.Random) -> str:
    """Return the text with one to three slips."""
    for _ in range(rng.choice((1, 1, 1, 2, 3))):
        text = slip(text, rng)
    return text


def slip(text: str, rng: random.Random) -> str:
    """Return the text with one slip."""
    place = rng.randrange(len(text))
    kind = rng.randrange(6)
    if kind == 0:
        return text[:place] + text[place + 1 :]
    if kind == 1:
        return text[:place] + rng.choice(SIGNS) + text[place:]
    if kind == 2:
        return text[:place] + rng.choice(SIGNS) + text[place + 1 :]
    if kind == 3:
        return text[:place] + text[place : place + 2][::-1] + text[place + 2 :]
    lines = text.split("\n")
    line = rng.randrange(len(lines))
    lines[line : line + 1] = [] if kind == 4 else [lines[line], lines[line]]
    return "\n".join(lines)


def _lines(text: str) -> int:
    """Return how many lines a text has at most."""
    return text.count("\n") + text.count("\r") + 1


def figures_checked(loaded: Loaded) -> int:
    """Compare every written reading with the text on its line; return how many were plain."""
    lines = re.split(r"\r\n|\r|\n", loaded.text)
    figures, plain = figures_of(loaded.build), 0
    for reading in (one for one in measured(loaded.build) if not one.assumed):
        figure, line = figures[reading.key], loaded.document.line(reading.key)
        near = " ".join(" ".join(lines[line - 1 : line + 3]).split())
        assert " ".join(figure.text.split()) in near.replace("''", "'")
        written = FIGURE.fullmatch(figure.text)
        if written:
            plain += 1
            sign = -1 if written[2] == "ahead" or reading.key.endswith("box.left") else 1
            assert figure.value == sign * float(written[1])
            assert (figure.doubt.plus if figure.doubt else None) == (
                float(written[3]) if written[3] else None
            )
    return plain


@pytest.mark.parametrize(("name", "slips"), [("quarter_hour.yaml", 4900), ("every_key.yaml", 100)])
def test_a_slip_is_refused_with_its_line_or_read_as_written(name: str, slips: int) -> None:
    text, rng = (SAMPLES / name).read_text("utf-8"), random.Random(1971)  # noqa: S311  not a secret
    read = refused = plain = worst = 0
    for _ in range(slips):
        wrong = slipped(text, rng)
        try:
            loaded = parse(wrong)
        except InputError as error:
            refused += 1
            worst += not all(1 <= fault.line <= _lines(wrong) for fault in error.faults)
        else:
            read += 1
            plain += figures_checked(loaded)
    assert worst == 0
    assert read > slips / 20
    assert refused > slips / 4
    assert plain > 10 * read
