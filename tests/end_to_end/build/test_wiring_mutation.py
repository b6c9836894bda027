"""Slips of the hand in a wiring: each is refused with its line, or read as it is written, and judged."""

import random
import re

from tests.end_to_end.build.test_mutation import slipped
from tests.wired_every_key import entries, quick, said
from trimwright.build import Entry, InputError, Loaded, parse
from trimwright.build.entry import said as said_of
from trimwright.quantities import Quantity

SLIPS, JUDGED = 700, 6  # one of so many that can be read is judged by every rule


def small_slip(text: str, rng: random.Random) -> str:
    """Return the text with one slip within a figure or a word: most others are refused."""
    places = [found.span() for found in re.finditer(r"[\w.]+", text)]
    start, end = rng.choice(places)
    at = rng.randrange(start, end)
    kind = rng.randrange(3)
    if kind == 0:
        return text[:at] + text[at + 1 :]
    if kind == 1:
        return text[:at] + rng.choice("0123456789.") + text[at:]
    return text[:at] + rng.choice("0123456789.-±") + text[at + 1 :]


def written_checked(loaded: Loaded) -> int:
    """Compare what was read of a wiring with the text on its line; return how much was compared."""
    wiring, checked = loaded.build.wiring, 0
    if wiring is None:
        return 0
    lines = re.split(r"\r\n|\r|\n", loaded.text)
    for entry in entries(wiring):
        for name in entry.model_fields_set:
            value = getattr(entry, name)
            words = value.text if isinstance(value, Quantity) else value
            if not isinstance(words, str) or name in Entry.model_fields:
                continue
            line = loaded.document.line(said_of(entry, name).key)
            near = " ".join(" ".join(lines[line - 1 : line + 2]).split())
            assert " ".join(words.split()) in near.replace("''", "'")
            if isinstance(value, Quantity):
                plain = re.match(r"\d*\.?\d+", words)
                assert plain is not None, words
                assert (value.value == 0) == (float(plain[0]) == 0)
            checked += 1
    return checked


def test_a_slip_in_a_wiring_is_refused_with_its_line_or_read_as_written() -> None:
    rng, text = random.Random(1974), quick()  # noqa: S311  not a secret
    read = refused = compared = judged = lost = 0
    for number in range(SLIPS):
        wrong = slipped(text, rng) if number % 3 == 0 else small_slip(text, rng)
        try:
            loaded = parse(wrong)
        except InputError as error:
            refused += 1
            count = wrong.count("\n") + wrong.count("\r") + 1
            lost += not all(1 <= fault.line <= count for fault in error.faults)
            continue
        read += 1
        compared += written_checked(loaded)
        if read % JUDGED == 0:  # warnings are errors here
            judged += len(said(loaded.build)) > 0
    assert lost == 0
    assert read > SLIPS / 10
    assert refused > SLIPS / 4
    assert compared > 100 * read
    assert judged > SLIPS / 12 / JUDGED
