"""What the page is told of a finding reads as it is meant."""

from pathlib import Path

from trimwright.app.answer import fit
from trimwright.build import load

INCHES = Path(__file__).parents[3] / "examples/fifteen-minutes/build.yaml"


def test_whole_and_fraction_stand_apart_in_a_sentence() -> None:
    """In the page's letters a thin space between them cannot be seen: 2 3/4 would read 23/4."""
    findings = fit(load(INCHES).build, "v").findings
    prose = [text for one in findings for text in (one.says, *one.why)]
    prose += [remedy.says for one in findings for remedy in one.remedies]
    assert any("\u00a03/4 in" in text or "\u00a01/4 in" in text for text in prose)
    assert not any("\u2009" in text for text in prose)
