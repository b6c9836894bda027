"""A cut is written into the file, unless a test fit there was read on the wood uncut."""

import pytest

from tests.unit.checks.small_build import fewer_draws, text
from trimwright.build import parse
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.findings import Remedy

READ = "test fit: [{probe: nose left, reads: 9}]\n"


def remedies(written: str) -> list[Remedy]:
    """Return every remedy of a build."""
    return [remedy for one in all_findings(cabin(parse(written).build)) for remedy in one.remedies]


def test_after_a_test_fit_no_cut_is_written_for_the_builder(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    fewer_draws(monkeypatch)
    before, after = (remedies(text("Cut remedy", hip=258) + more) for more in ("", READ))
    assert len(before) > 1
    assert len(after) > 1
    assert all(one.edits and "test fit" not in one.says for one in before)
    for one in after:
        assert one.edits == ()
        assert one.says.endswith("read again: what was read holds for the wood uncut.")
