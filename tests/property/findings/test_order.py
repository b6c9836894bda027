"""The order of findings does not depend on the order in which they were found."""

from random import Random

from hypothesis import given
from hypothesis import strategies as st

from trimwright.findings import GRADES, LOCKS, Finding, counts, sorted_findings

WORDS = st.sampled_from(["a", "b", "c"])
FINDINGS = st.lists(
    st.builds(Finding, WORDS, WORDS, st.sampled_from(GRADES), WORDS, st.sampled_from(LOCKS))
)


@given(FINDINGS, st.randoms())
def test_any_order_in_one_order_out(findings: list[Finding], chance: Random) -> None:
    shuffled = list(findings)
    chance.shuffle(shuffled)
    assert sorted_findings(shuffled) == sorted_findings(findings)
    assert sorted_findings(sorted_findings(findings)) == sorted_findings(findings)


@given(FINDINGS)
def test_nothing_is_lost(findings: list[Finding]) -> None:
    assert sum(counts(findings).values()) == len(sorted_findings(findings)) == len(findings)
    locks = [LOCKS.index(one.lock) for one in sorted_findings(findings)]
    assert locks == sorted(locks)
