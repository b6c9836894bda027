"""The sentence about everything at once counts each gap once and owns up to what it left out."""

import pytest

from tests.unit.checks.small_build import CONSOLE, fewer_draws, text
from trimwright.build import edited, parse
from trimwright.cabin import Cabin, cabin
from trimwright.checks import all_together, assumed, clearance, not_evaluated


@pytest.fixture
def small(monkeypatch: pytest.MonkeyPatch) -> Cabin:
    """Return a build without lever and handbrake."""
    fewer_draws(monkeypatch)
    return cabin(parse(text("All together")).build)


def test_sides_of_a_gap_are_not_counted_and_the_unknown_is_owned_up_to(small: Cabin) -> None:
    (one,) = all_together.findings(small)
    # nose, two seats, two daylights; the nose's own two sides are places to probe
    assert " all 5 gaps " in one.says.lower()
    assert one.says.endswith(" 6 more could not be checked and are not counted.")
    assert len(clearance.findings(small)) == 5
    assert len(not_evaluated.findings(small)) == 6


def test_the_remedy_writes_the_cuts_that_were_evaluated(small: Cabin) -> None:
    (one,) = all_together.findings(small)
    plan = small.plan
    assert plan is not None
    assert one.grade == "change"
    (remedy,) = one.remedies
    after = parse(edited(text("All together"), remedy.edits)).build
    assert after == plan.applied(small.build)


def test_all_together_is_never_surer_than_its_least_sure_gap(small: Cabin) -> None:
    (one,) = all_together.findings(small)
    assert one.sure is None
    assert one.figure is not None
    assert one.figure <= min(gap.sure or 0.0 for gap in clearance.findings(small))


@pytest.mark.parametrize("without", ["carpet", "tunnel", "console"])
def test_with_nothing_to_stand_on_nothing_is_said_to_clear(without: str) -> None:
    whole = text(f"No {without}")
    drop = CONSOLE if without == "console" else ""
    lines = (whole.replace(drop, "") if drop else whole).splitlines(keepends=True)
    keep = [line for k, line in enumerate(lines) if not _of(lines, k, without)]
    bare = cabin(parse("".join(keep)).build)
    assert all_together.findings(bare) == ()
    assert clearance.findings(bare) == ()
    (gone,) = not_evaluated.findings(bare)
    assert gone.grade == "look"
    assert gone.missing


def _of(lines: list[str], number: int, key: str) -> bool:
    """Return whether a line belongs to a key of the car."""
    heads = [line.split(":")[0].strip() for line in lines[: number + 1] if line[2:3].strip()]
    return lines[number].startswith("  ") and heads[-1] == key


def test_every_default_is_named(small: Cabin) -> None:
    (one,) = assumed.findings(small)
    assert one.grade == "look"
    said = "\n".join(one.why)
    for key in ("wanted.certainty: 95 %", "covers.deck.foam: 3 mm", "console.scribe.over: carpet"):
        assert key in said
