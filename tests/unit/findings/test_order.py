"""Findings in the order of the work."""

from trimwright.findings import Finding, counts, sorted_findings

STOP = Finding("b", "nose", "stop", "It hits.", "covering")
GOOD = Finding("a", "nose", "good", "It clears.", "covering")
LATE = Finding("a", "wall", "stop", "It tips.", "refit")
SOON = Finding("z", "wall", "good", "It is square.", "wood is cut")
LEFT = Finding("b", "left", "stop", "It hits.", "covering")


def test_lock_goes_before_grade_before_rule_before_place() -> None:
    assert sorted_findings([LATE, GOOD, STOP, LEFT, SOON]) == (SOON, LEFT, STOP, GOOD, LATE)


def test_counts_name_every_grade() -> None:
    assert counts([LATE, GOOD, STOP]) == {"stop": 2, "change": 0, "look": 0, "good": 1}
    assert list(counts([])) == ["stop", "change", "look", "good"]
