"""What a build amounts to, as messages: findings, gaps, and what an edit would change."""

from trimwright.app.message import (
    BeforeMessage,
    EditMessage,
    FaultMessage,
    FindingMessage,
    FitMessage,
    GradeChange,
    RemedyMessage,
    TestMessage,
    TrialMessage,
)
from trimwright.app.standing import Said
from trimwright.build import Build, InputError
from trimwright.cabin import Cabin, cabin
from trimwright.checks import all_findings, amount, hours_told, worth_before
from trimwright.findings import GRADES, LOCKS, Edit, Finding, Lock
from trimwright.quantities import Quantity, Unit, shown_sure


def faults(error: InputError) -> tuple[FaultMessage, ...]:
    """Return every fault of a file as messages."""
    return tuple(
        FaultMessage(
            line=one.line,
            path=one.path,
            found=one.found,
            expected=one.expected,
            example=one.example,
            readings=one.readings,
        )
        for one in error.faults
    )


def edits_of(messages: tuple[EditMessage, ...]) -> tuple[Edit, ...]:
    """Return edits as the build room takes them."""
    return tuple(Edit(one.path, one.value) for one in messages)


def messages_of(said: Said) -> tuple[EditMessage, ...]:
    """Return what a file says, by path, as messages."""
    return tuple(EditMessage(path=path, value=value) for path, value in said.items())


def fit(build: Build, version: str) -> FitMessage:
    """Return every finding of a build, numbered as on the findings sheet."""
    one = cabin(build)
    found, number = [], 0
    for finding in all_findings(one):
        number += finding.grade != "good"
        found.append(_finding(finding, 0 if finding.grade == "good" else number, build.unit))
    hours = build.hours
    return FitMessage(
        version=version,
        together=together(one),
        before=tuple(_before(one, lock) for lock in LOCKS),
        trying="" if hours is None else _typed(hours.test_fit),
        findings=tuple(found),
    )


def _before(one: Cabin, lock: Lock) -> BeforeMessage:
    """Return what is worth doing before a lock."""
    hours = one.build.hours
    return BeforeMessage(
        lock=lock,
        redoing="" if hours is None else _typed(hours.redoing(lock)),
        tests=tuple(
            TestMessage(
                says=_prose(test.says),
                place=test.place,
                why=_prose(test.why),
                takes=hours_told(test.takes_h),
                takes_h=test.takes_h,
                saves=hours_told(test.saves_h),
                saves_h=test.saves_h,
            )
            for test in worth_before(one, lock)
        ),
    )


def _typed(figure: Quantity | None) -> str:
    """Return a figure as the builder typed it; nothing where he did not."""
    return "" if figure is None else figure.text


def fit_key(version: str) -> tuple[str, str]:
    """Return the name under which the fit of a version is kept."""
    return ("fit", version)


def together(one: Cabin) -> str:
    """Return how sure all gaps together are, in words; empty where none could be evaluated."""
    outcome = one.outcome
    return "" if outcome is None or outcome.joint is None else shown_sure(outcome.joint.value)


def _prose(text: str) -> str:
    """Return a sentence as the page's letters show it: in them 2 3/4 with a thin space reads 23/4."""
    return text.replace("\u2009", "\u00a0")


def _finding(one: Finding, number: int, unit: Unit) -> FindingMessage:
    """Return a finding as a message."""
    mm = one.measure == "mm"

    def said(value: float | None) -> str:
        return "" if value is None else amount(one, value, unit)

    return FindingMessage(
        number=number,
        rule=one.rule,
        place=one.place,
        zone=one.zone,
        grade=one.grade,
        says=_prose(one.says),
        lock=one.lock,
        figure=said(one.figure),
        limit=said(one.limit),
        sure="" if one.sure is None else shown_sure(one.sure),
        figure_mm=one.figure if mm else None,
        limit_mm=one.limit if mm else None,
        spare_mm=one.margin if mm else None,
        low_mm=one.low if mm else None,
        high_mm=one.high if mm else None,
        at=one.at,
        on=one.on,
        missing=one.missing,
        remedies=tuple(
            RemedyMessage(
                says=_prose(remedy.says),
                edits=tuple(EditMessage(path=e.path, value=e.value) for e in remedy.edits),
            )
            for remedy in one.remedies
        ),
        source=one.source,
        why=tuple(map(_prose, one.why)),
    )


def trial(before: Build, after: Build) -> TrialMessage:
    """Return every finding that changes its grade from one build to another, worse first."""
    old = {(f.rule, f.place): f.grade for f in all_findings(cabin(before))}
    new = {(f.rule, f.place): f.grade for f in all_findings(cabin(after))}
    bad = (*reversed(GRADES),)  # a finding that is not there needs no hand, as a good one
    rows = []
    for key in sorted(set(old) | set(new)):
        was, now = old.get(key, ""), new.get(key, "")
        step = bad.index(now or "good") - bad.index(was or "good")
        if step:
            change = GradeChange(place=key[1], before=was, after=now, worse=step > 0)
            rows.append((-step, key, change))
    changes = tuple(change for _, _, change in sorted(rows, key=lambda row: row[:2]))
    return TrialMessage(together=together(cabin(after)), changes=changes)
