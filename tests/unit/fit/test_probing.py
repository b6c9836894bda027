"""What a test fit teaches, and what it does not believe."""

from functools import lru_cache
from pathlib import Path

import pytest

from trimwright.build import parse
from trimwright.cabin import cabin
from trimwright.chance import sobol_scores
from trimwright.checks import told
from trimwright.fit import GapModel, Taught, uncovered
from trimwright.fit.model import gap_model
from trimwright.fit.probing import taught

EXAMPLE = Path(__file__).resolve().parents[3] / "examples" / "fifteen-minutes" / "build.yaml"
TEXT = EXAMPLE.read_text("utf-8")


@lru_cache
def _bare() -> GapModel:
    one = cabin(parse(TEXT).build)
    assert one.carcass is not None
    assert not isinstance(one.tunnel, ValueError)
    return gap_model(uncovered(one.build), one.ledger, one.tunnel, one.carcass)


def _learned(*readings: str) -> tuple[float, Taught]:
    """Return the spread of the nose's gap after some readings [mm], and what was learned."""
    lines = "".join(
        f"  - {{probe: {r.split('=')[0]}, reads: {r.split('=')[1]}}}\n" for r in readings
    )
    build, bare = parse(f"{TEXT}\ntest fit:\n{lines}").build, _bare()
    scores = sobol_scores(len(bare.ledger), scrambles=2, each=128, seed=1)
    after, learned = taught(build, (bare,) * len(readings), scores, 1)
    assert learned is not None
    place = [gap.name for gap in bare.gaps].index("nose to dash")
    return float(bare.evaluate(after).values[:, place].std()), learned


def test_readings_that_agree_narrow_the_doubt() -> None:
    bare = _bare()
    scores = sobol_scores(len(bare.ledger), scrambles=2, each=128, seed=1)
    place = [gap.name for gap in bare.gaps].index("nose to dash")
    before = float(bare.evaluate(scores).values[:, place].std())
    now = float(bare.nominal().values[0, place]) / 25.4
    after, learned = _learned(f"nose left={now:.3f} in", f"nose right={now:.3f} in")
    assert after < 0.25 * before
    assert told(learned) == "2 readings at the car agree with what was measured before."


def test_two_that_contradict_each_other_name_one() -> None:
    assert "does not go with the other readings" in told(
        _learned("nose left=1 in", "nose right=2")[1]
    )


def test_two_that_agree_against_all_that_was_measured_are_named_too() -> None:
    learned = _learned("nose left=7 in", "nose right=7 in")[1]
    assert learned.puzzle == ""
    assert "is far from what was measured before" in told(learned)


@pytest.mark.parametrize("words", ["tail", "card at behind"])
def test_a_probe_that_means_nothing_is_not_used(words: str) -> None:
    learned = _learned(f"{words}=1 in", "nose left=1 in")[1]
    assert [one.probe for one in learned.unknown] == [words]
    assert learned.names == ("nose left",)
