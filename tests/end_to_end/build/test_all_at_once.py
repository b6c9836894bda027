"""Faults of entries and faults between entries come in one go, and none that another brings about."""

import random
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.end_to_end.build.test_mutation import slip
from trimwright.build import Build, Document, Fault, InputError, parse
from trimwright.build.compose import composed
from trimwright.build.node import Scalar
from trimwright.build.trap import values

DUNLIN = Path(__file__).parents[3] / "examples" / "dunlin"
READER = sys.modules[parse.__module__]
SLIPS, PLACES = 120, 120  # of each file
WORDS = ("{x: 1}", "lots", "012", "[]", '""', "x, y: 3")


@pytest.fixture
def between(monkeypatch: pytest.MonkeyPatch) -> list[Fault]:
    """Return a list that holds, after a file was read, what its entries do not agree on."""
    found: list[Fault] = []
    real = READER.disagreements

    def kept(build: Build, where: Document) -> list[Fault]:
        found[:] = real(build, where)
        return list(found)

    monkeypatch.setattr(READER, "disagreements", kept)
    return found


def told(text: str, between: list[Fault]) -> tuple[list[Fault], list[Fault]]:
    """Return the faults of single entries that a text is refused for, and those between them."""
    between.clear()
    try:
        parse(text)
    except InputError as error:
        disagree = {id(one) for one in between}
        own = [one for one in error.faults if id(one) not in disagree]
        return own, [one for one in error.faults if id(one) in disagree]
    return [], []


def injected(text: str) -> Iterator[str]:
    """Yield a text with one place wrong: a value that cannot be, a key misspelt, a key twice."""
    for _, holder, node, key in values(composed(text)):
        if isinstance(node, Scalar) or holder.flow or node.flow:
            yield from (text[: node.start] + word + text[node.end :] for word in WORDS)
        if key is not None:
            next_key = ", " if holder.flow else "\n" + " " * holder.column
            yield text[: key.end] + "x" + text[key.end :]
            yield text[: key.start] + "zz" + text[key.end :]
            yield text[: key.start] + f"{key.text}: 1{next_key}" + text[key.start :]


@pytest.mark.parametrize("name", ["first-measured.yaml", "first-wired.yaml"])
def test_one_fault_of_an_entry_brings_no_other_about(name: str, between: list[Fault]) -> None:
    text, rng = (DUNLIN / name).read_text("utf-8"), random.Random(1972)  # noqa: S311  not a secret
    wrongs = [slip(text, rng) for _ in range(SLIPS)]
    wrongs += rng.sample(list(injected(text)), PLACES)
    refused = 0
    for wrong in wrongs:
        own, follow = told(wrong, between)
        refused += bool(own)
        assert not (own and follow), (own, follow)
    assert refused > PLACES + SLIPS / 3


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ("fog switch, console plug 7", "fgo switch, console plug 7", "a device of this wiring"),
        ("colour: GYBU", "colour: GXBU", "IEC 60757"),
        ("closed: 210", "closed: 310", "from 15 mm to 255 mm"),
        ("at idle: 22 A", "at idle: 82 A", "no more than the 55 A"),
    ],
)
def test_a_fault_elsewhere_hides_none(
    right: str, wrong: str, says: str, between: list[Fault]
) -> None:
    sound = (DUNLIN / "first-wired.yaml").read_text("utf-8").replace(right, wrong)
    places = [path for path, *_ in values(composed(sound)) if path[:2] == ("wiring", "places")]
    lines = sound.split("\n")
    start = next(n for n, line in enumerate(lines) if line == "  places:")
    assert len(places) > 14
    for line in range(start + 1, start + 15):
        broken = [*lines[:line], lines[line].replace("at: ", "at: round "), *lines[line + 1 :]]
        own, disagree = told("\n".join(broken), between)
        assert [one.line for one in own] == [line + 1]
        assert [says in str(one) for one in disagree] == [True]
