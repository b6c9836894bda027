"""The same wiring told in another way says the same: reordered, mirrored, moved, in inches, renamed.

And laws of every circuit: thicker wire, shorter trunks and a stiffer battery never lose volts.
"""

import random
import re
from functools import cache
from pathlib import Path

import pytest
import yaml

from tests.invented_wiring import wiring_text
from tests.wired_every_key import quick, said
from trimwright.build import parse
from trimwright.findings import Finding
from trimwright.wiring import Electrics, wiring_outcome

ROOT = Path(__file__).resolve().parents[3]
SAME = 1e-6  # of a figure: the same resistances in another order of adding up
ROUNDED = 1e-4  # of a figure: lengths written in inches to 1e-7
GROUPS = ("loads", "paths", "places", "trunks", "fuses", "switches", "grounds", "relays", "plugs", "feeds", "splices")  # fmt: skip
SOLVABLE = ("{holds: 60 Ah}", "{holds: 60 Ah, inside: 10 mohm}")
SEEDS = (1, 2, 4, 5, 7, 8)


@cache
def dunlin() -> str:
    """Return the example's text in the order of its keys, without comments."""
    text = (ROOT / "examples" / "dunlin" / "first-wired.yaml").read_text("utf-8")
    return yaml.safe_dump(yaml.safe_load(text), sort_keys=False, allow_unicode=True, width=9999)


def invented(seed: int) -> str:
    """Return an invented wiring with a battery that can be solved."""
    return wiring_text(seed, 3).replace(*SOLVABLE)


@cache
def found_in(text: str) -> dict[tuple[str, str], Finding]:
    """Return the findings of a text's wiring, by rule and place."""
    return said(parse(text).build)


def solved(text: str) -> Electrics:
    """Return what flows in a text's wiring."""
    build = parse(text).build
    assert build.wiring is not None
    own = wiring_outcome(build.wiring, build.unit).electrics
    assert own is not None
    return own


def figures(
    found: dict[tuple[str, str], Finding],
) -> dict[tuple[str, str], tuple[str, float | None, float | None]]:
    """Return grade, figure and limit of each finding."""
    return {key: (one.grade, one.figure, one.limit) for key, one in found.items()}


def unlike(
    one: dict[tuple[str, str], Finding], other: dict[tuple[str, str], Finding], within: float = SAME
) -> dict[tuple[str, str], object]:
    """Return what two say differently: findings of one only, grades, figures and limits."""
    here, there = figures(one), figures(other)
    told: dict[tuple[str, str], object] = dict.fromkeys(here.keys() ^ there.keys(), "one only")
    for key in here.keys() & there.keys():
        (grade, *values), (graded, *others) = here[key], there[key]
        near = all(
            (a is None) == (b is None)
            and (a is None or a == pytest.approx(b, rel=within, abs=within))
            for a, b in zip(values, others, strict=True)
        )
        if grade != graded or not near:
            told[key] = (here[key], there[key])
    return told


def shuffled(text: str, seed: int) -> str:
    """Return the text with the entries of each list of the wiring in another order."""
    told, rng = yaml.safe_load(text), random.Random(seed)  # noqa: S311  the same order each time
    for group in GROUPS:
        if group in told["wiring"]:
            rng.shuffle(told["wiring"][group])
    return yaml.safe_dump(told, sort_keys=False, allow_unicode=True, width=9999)


TEXTS = {"small": quick(), "dunlin": dunlin()} | {f"invented {n}": invented(n) for n in SEEDS}


@pytest.mark.parametrize("name", TEXTS)
def test_the_order_of_what_is_written_does_not_matter(name: str) -> None:
    assert unlike(found_in(TEXTS[name]), found_in(shuffled(TEXTS[name], 1))) == {}


def swapped(words: str) -> str:
    """Return words with left and right exchanged."""
    return re.sub(r"\b(left|right)\b", lambda m: "right" if m.group() == "left" else "left", words)


def test_a_mirrored_car_has_mirrored_findings() -> None:
    other = swapped(dunlin())
    assert "name: left window" in other
    here = {(rule, swapped(place)): one for (rule, place), one in found_in(dunlin()).items()}
    assert unlike(here, found_in(other)) == {}


ALONG = re.compile(r"\bat: (\d+) (ahead|behind)\b")


def from_another_datum(text: str, back_mm: int) -> str:
    """Return the text with every place said from a datum so much further back."""

    def said_anew(found: re.Match[str]) -> str:
        ahead = back_mm + int(found[1]) * (1 if found[2] == "ahead" else -1)
        return f"at: {abs(ahead)} {'ahead' if ahead >= 0 else 'behind'}"

    return ALONG.sub(said_anew, text)


@pytest.mark.parametrize("name", ["small", "dunlin"])
@pytest.mark.parametrize("back_mm", [-700, 330])
def test_places_said_from_another_datum_give_the_same_figures(name: str, back_mm: int) -> None:
    other = from_another_datum(TEXTS[name], back_mm)
    assert len(ALONG.findall(other)) >= 3
    assert other != TEXTS[name]
    assert unlike(found_in(TEXTS[name]), found_in(other)) == {}


LENGTH = re.compile(
    r"(?<!measured )\b(at|off middle|up|long|hole|room|bends|tail|slack): (\d[\d.]*)"
)


def in_inches(text: str) -> str:
    """Return the text with every length in inches, to 1e-7 in."""
    text = text.replace("unit: mm", "unit: in")
    return LENGTH.sub(lambda m: f"{m[1]}: {float(m[2]) / 25.4:.7f}", text)


def test_inches_give_the_same_figures() -> None:
    other = in_inches(quick())
    assert "at: 51.1811024 ahead" in other
    assert "measured at: 12 V" in other
    assert unlike(found_in(quick()), found_in(other), ROUNDED) == {}


@pytest.mark.parametrize("name", ["radio", "pump", "boot splice", "fuse 2", "tail stud"])
def test_a_new_name_is_told_and_changes_nothing_else(name: str) -> None:
    def renamed(words: str) -> str:
        return re.sub(rf"\b{name}\b(?! (relay|switch|worked))", "zeta thing", words)

    other = renamed(quick())
    assert other != quick()
    here, there = found_in(quick()), found_in(other)
    here = {(rule, renamed(place)): one for (rule, place), one in here.items()}
    assert unlike(here, there) == {}
    told = [{renamed(one.says.lower()) for one in found.values()} for found in (here, there)]
    assert told[0] == told[1]


def alone(text: str) -> dict[tuple[str, str], float]:
    """Return the voltage at each consumer with the least else on, by consumer and mode [V]."""
    return {
        (one.use.consumer.name, one.use.mode.name): one.alone_v
        for one in solved(text).supplies
        if one.alone_v is not None
    }


def passing(text: str, wires: str) -> set[str]:
    """Return the consumers whose current goes through wires of a path."""
    return {
        one.use.consumer.name
        for one in solved(text).supplies
        if any(
            re.fullmatch(rf"{wires} \d+", part) for part in (*one.use.path.to, *one.use.path.back)
        )
    }


LADDER = ("0.75 mm2", "1.5 mm2", "2.5 mm2", "6 mm2", "16 mm2")


@pytest.mark.parametrize("path", ["heater", "pump", "radio", "lock", "lock fed", "main", "keyed"])
def test_a_thicker_wire_never_lets_the_voltage_of_what_it_feeds_fall(path: str) -> None:
    line = next(one for one in quick().splitlines() if f"name: {path}, goes" in one)
    fed, before = passing(quick(), path), dict[tuple[str, str], float]()
    assert fed
    for size in LADDER:
        thick = re.sub(r"size: [\d.]+ mm2", f"size: {size}", line)
        now = alone(quick().replace(line, thick))
        for key, volts in before.items():
            assert key[0] not in fed or now[key] > volts, (size, key)
        before = now


@pytest.mark.parametrize(("trunk", "load"), [("long: 3000", "heater"), ("long: 1000", "radio")])
def test_a_longer_trunk_never_lets_the_voltage_behind_it_rise(trunk: str, load: str) -> None:
    told = [alone(quick().replace(trunk, f"long: {mm}")) for mm in (500, 1500, 3000, 9000)]
    for key in told[0]:
        if key[0] == load:
            volts = [one[key] for one in told]
            assert volts == sorted(volts, reverse=True)
            assert volts[-1] < volts[0]


def test_more_inside_the_battery_never_raises_the_volts_while_cranking() -> None:
    told = [
        alone(quick().replace("inside: 10 mohm", f"inside: {ohm} mohm"))["lock", "cranking"]
        for ohm in (2, 5, 10, 20, 40)
    ]
    assert told == sorted(told, reverse=True)
    assert told[-1] < told[0] - 2.0


@pytest.mark.parametrize("seed", range(12))
def test_odd_wirings_end_in_findings_and_never_in_a_warning(seed: int) -> None:
    # warnings are errors here: a division by nothing, a matrix that cannot be solved
    text = wiring_text(3 * seed, 1 + seed % 5).replace(*SOLVABLE)
    assert all(one.says for one in found_in(text).values())
