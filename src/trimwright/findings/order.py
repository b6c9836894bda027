"""The order in which findings are read, and how many there are of each."""

from collections.abc import Iterable

from trimwright.findings.finding import GRADES, LOCKS, Finding, Grade


def sorted_findings(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings by what locks first, then the worst grade, then rule, place and sentence.

    Examples
    --------
    >>> late = Finding("refit", "nose", "stop", "It tips.", "refit")
    >>> soon = Finding("cut", "wall", "good", "It fits.", "wood is cut")
    >>> [one.rule for one in sorted_findings([late, soon])]
    ['cut', 'refit']
    """
    return tuple(
        sorted(
            findings,
            key=lambda one: (
                LOCKS.index(one.lock),
                GRADES.index(one.grade),
                one.rule,
                one.place,
                one.says,
            ),
        )
    )


def counts(findings: Iterable[Finding]) -> dict[Grade, int]:
    """Return how many findings there are of each grade, the worst first; none counts as 0.

    Examples
    --------
    >>> counts([Finding("refit", "nose", "stop", "It tips.", "refit")])
    {'stop': 1, 'change': 0, 'look': 0, 'good': 0}
    """
    grades = [one.grade for one in findings]
    return {grade: grades.count(grade) for grade in GRADES}
