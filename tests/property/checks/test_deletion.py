"""Take any key out of a whole build: it is refused with its line, or what it leaves is owned up to.

Every key of the example is taken out and read; every EVERY-th of those that are not refused is
carried through to its gaps, figures as written. All 195 of them were, once: none broke.
"""

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import numpy as np
import pytest
import yaml

from trimwright.build import InputError, assumed, edited, parse
from trimwright.cabin import Cabin, cabin
from trimwright.checks import assumed as rule
from trimwright.checks import not_evaluated
from trimwright.findings import Edit

ROOT = Path(__file__).resolve().parents[3]
TEXT = (ROOT / "examples" / "dunlin" / "first-measured.yaml").read_text("utf-8")
EVERY = 25
Step = str | int


def _walk(held: object, path: tuple[Step, ...] = ()) -> Iterator[tuple[Step, ...]]:
    """Yield the path of every key and entry."""
    inside: list[tuple[Step, object]] = []
    if isinstance(held, dict):
        inside = list(held.items())
    elif isinstance(held, list):
        inside = list(enumerate(held))
    for step, below in inside:
        yield (*path, step)
        yield from _walk(below, (*path, step))


PATHS = tuple(_walk(yaml.safe_load(TEXT)))


@cache
def without(path: tuple[Step, ...]) -> Cabin | str:
    """Return the cabin without a key, or the message that refuses the file."""
    try:
        return cabin(parse(edited(TEXT, [Edit(path, None)])).build)
    except InputError as refused:
        return str(refused)


@cache
def gaps(found: Cabin) -> dict[str, float]:
    """Return every gap as written [mm]; the panel that is nearest to a body may change."""
    if found.model is None:
        return {}
    names = [f"to {g.between[1]}" if "heater" in g.name else g.name for g in found.model.gaps]
    return dict(zip(names, found.nominal, strict=True))


def dotted(path: tuple[Step, ...]) -> str:
    """Return a path as a dotted key."""
    return ".".join(map(str, path))


def overlap(one: str, other: str) -> bool:
    """Return whether one key is the other or lies above or below it."""
    return f"{one}.".startswith(f"{other}.") or f"{other}.".startswith(f"{one}.")


def test_every_key_is_refused_with_its_line_or_read_without() -> None:
    said = {path: without(path) for path in PATHS}
    assert len(said) > 300
    for path, words in said.items():
        if isinstance(words, str):
            assert "\n  line " in words, dotted(path)
            assert "; expected " in words, dotted(path)
    assert 100 < sum(isinstance(words, str) for words in said.values()) < 200


READ = tuple(path for path in PATHS if not isinstance(without(path), str))


@pytest.mark.parametrize("path", READ[::EVERY], ids=dotted)
def test_a_gap_is_there_or_names_what_it_misses(path: tuple[Step, ...]) -> None:
    found, key = without(path), dotted(path)
    assert isinstance(found, Cabin)
    here = gaps(found)
    assert np.isfinite(list(here.values())).all()
    gone = set(gaps(whole())) - set(here)
    unknown = {one.gap: one for one in found.unknown}
    for one in found.unknown:
        assert one.missing
        assert one.gap == "handbrake" or any(overlap(key, k) for k in one.keys), one
    if not {"every gap", "resting pose", "the console"} & set(unknown):
        assert {name for name in gone if "heater" not in name} <= set(unknown) | _sides(gone)
    told = not_evaluated.findings(found)
    assert {one.place for one in told} == set(unknown)
    assert all(one.grade == "look" and one.missing and one.figure is None for one in told)


def whole() -> Cabin:
    """Return the cabin of the whole example."""
    return cabin(parse(TEXT).build)


def _sides(gone: set[str]) -> set[str]:
    """Return the places to probe, which go with their gap."""
    return {"nose left to dash", "nose right to dash"} if "nose to dash" in gone else set()


def test_what_waits_for_a_reading_names_it() -> None:
    waits = {
        ("car", "tunnel"): "every gap",
        ("car", "datum"): "every gap",
        ("car", "carpet"): "resting pose",
        ("car", "carpet", "loose"): "resting pose",
        ("car", "dash"): "nose to dash",
        ("car", "seats", "left"): "left wall to seat",
        ("car", "lever"): "knob to deck",
        ("car", "handbrake"): "handbrake",
        ("console", "openings"): "lever to opening, standing",
        ("console",): "the console",
    }
    for path, gap in waits.items():
        found = without(path)
        assert isinstance(found, Cabin)
        missing = {one.gap: one.keys for one in found.unknown}
        assert any(overlap(dotted(path), key) for key in missing[gap]), path
        assert gap not in gaps(found)


DEFAULTS = [
    path
    for path in PATHS
    if path[0] in {"wanted", "covers"}
    or (len(path) > 2 and path[1] in {"walls", "scribe", "engine moves"})
    or path[-1] in {"by", "over", "shaft", "torque", "corner", "joint"}
]


@pytest.mark.parametrize("path", DEFAULTS, ids=dotted)
def test_a_default_that_steps_in_is_listed(path: tuple[Step, ...]) -> None:
    found = without(path)
    assert isinstance(found, Cabin)
    before, now = ({one.key for one in assumed(c.build)} for c in (whole(), found))
    assert any(overlap(dotted(path), key) for key in now - before)


def test_a_shape_that_nobody_read_is_listed_too() -> None:
    # a section without its top stands level with the others
    found = without(("car", "tunnel", 2, "top"))
    assert isinstance(found, Cabin)
    (one,) = rule.findings(found)
    shapes = {f.key: f.says for f in found.ledger.factors if f.key.startswith("assumed:")}
    assert "assumed:tunnel level" in shapes
    assert "assumed:tunnel level" not in {f.key for f in whole().ledger.factors}
    for says in shapes.values():
        assert sum(line.startswith(says) for line in one.why) == 1
    assert f"{len(one.why)} figures are assumed" in one.says


def test_carpet_read_only_loose_asks_how_it_gives() -> None:
    found = without(("car", "carpet", "pressed"))
    assert isinstance(found, Cabin)
    (one, *_) = found.unknown
    assert one.gap == "resting pose"
    assert one.missing == ("how the carpet gives was not read",)
    assert gaps(found) == {}
