"""What a build comes out as does not hang on what was asked before it, to the last byte."""

import subprocess
import sys
from hashlib import sha256
from pathlib import Path

import pytest

from tests.invented_build import invented
from trimwright.build import Build, load, parse
from trimwright.cabin import cabin
from trimwright.chance import sobol_scores
from trimwright.fit import cuts

ROOT = Path(__file__).resolve().parents[3]
DEMO = ROOT / "examples" / "dunlin" / "first-measured.yaml"
HERE = "tests.property.cabin.test_asked_before"


def build(name: str) -> Build:
    """Return the example, or an invented build by its seed."""
    return load(DEMO).build if name == "demo" else parse(invented(int(name))).build


def trials(name: str) -> list[Build]:
    """Return the build, and with each cut made by a little."""
    one = build(name)
    found = cuts(one, lambda _: True)
    return [one, *(cut.applied(one, min(3.0, cut.most_mm)) for cut in found)]


def gaps(one: Build) -> str:
    """Return all gaps of a build over some draws, as one number of its bytes."""
    found = cabin(one)
    assert found.model is not None
    scores = sobol_scores(len(found.ledger), scrambles=2, each=16, seed=3)
    tables = found.model.evaluate(scores), found.model.nominal()
    return sha256(b"".join(t.values.tobytes() + t.poses.tobytes() for t in tables)).hexdigest()


@pytest.mark.parametrize("name", ["demo", "6"])
def test_cuts_looked_at_after_others_come_out_as_in_a_process_that_knows_nothing(name: str) -> None:
    for other in ("demo", "6"):
        gaps(build(other))
    some = trials(name)
    after_all = [gaps(one) for one in some][1:4]  # these move the lower edges
    asked = f"from {HERE} import *\nprint(*(gaps(one) for one in trials({name!r})[3:0:-1]))"
    alone = subprocess.run(  # noqa: S603  our own words
        [sys.executable, "-c", asked], cwd=ROOT, capture_output=True, check=True, text=True
    )
    assert alone.stdout.split()[::-1] == after_all
