"""The test fit at the car: what to probe, what was read, and what it changed."""

from trimwright.app.standing import NotDoneError
from trimwright.app.walk.message import Learned, LearnedMessage, ProbeMessage, ProbesMessage
from trimwright.build import Build, Loaded, edited, parse, probe_edits
from trimwright.cabin import Cabin, cabin
from trimwright.checks import not_there_told, told
from trimwright.findings import Edit
from trimwright.fit import NotThere, Outcome, probed
from trimwright.papers import probe_tool, probes, whereabouts
from trimwright.quantities import Unit, shown, shown_sure, shown_with_unit


def sheet(loaded: Loaded, version: str) -> ProbesMessage:
    """Return the test-fit sheet: gaps worth probing, free places, and what is written."""
    one = cabin(loaded.build)
    return ProbesMessage(
        version=version,
        missing="" if one.bare is not None else "No gap can be evaluated yet: measure first.",
        probes=_to_probe(one),
        written=_written(loaded.build),
    )


def _to_probe(one: Cabin) -> tuple[ProbeMessage, ...]:
    """Return what to probe, from front to rear, then the free places, the most worth first."""
    unit = one.build.unit
    gaps = sorted(probes(one), key=lambda gap: (gap.at or (1e9, 0.0, 0.0))[0])
    rows = [
        ProbeMessage(
            words=gap.gap.name,
            where="" if gap.at is None else whereabouts(gap.at, unit),
            tool=probe_tool(gap.nominal),
            expected=_span(gap.low, gap.high, unit),
            reads="",
        )
        for gap in gaps
    ]
    rows += [
        ProbeMessage(
            words=free.words,
            where=f"settles most of {free.settles}",
            tool=probe_tool((free.low + free.high) / 2),
            expected=_span(free.low, free.high, unit),
            reads="",
        )
        for free in (one.probes if one.outcome is not None else ())
    ]
    return tuple(rows)


def _written(build: Build) -> tuple[ProbeMessage, ...]:
    """Return the readings that are in the file."""
    return tuple(
        ProbeMessage(
            words=one.probe,
            where="",
            tool="",
            expected="",
            reads=f"touches {one.touches}" if one.said is None else one.said.text,
        )
        for one in build.test_fit
    )


def reading_edits(loaded: Loaded, words: str, reads: str) -> tuple[Edit, ...]:
    """Return the edits that write a reading at the car.

    Raises
    ------
    NotDoneError
        If its words name nothing of this build, or nothing was read.
    InputError
        If what it reads is no figure.
    """
    model = cabin(loaded.build).model
    if model is None:
        raise NotDoneError("No gap of this build can be evaluated yet: measure first.")
    if not reads.strip():
        raise NotDoneError("Say what it reads: a figure, or touches.")
    edits = probe_edits(words, reads, len(loaded.build.test_fit))
    probe = parse(edited(loaded.text, edits)).build.test_fit[-1]
    meant = probed(probe, model)
    if isinstance(meant, NotThere):
        raise NotDoneError(not_there_told(probe.probe, meant))
    return edits


def learned(before: Build, after: Build, version: str) -> LearnedMessage:
    """Return how readings at the car moved every gap, and what does not go with the rest."""
    was, now = cabin(before).outcome, cabin(after).outcome
    taught = None if now is None else now.taught
    return LearnedMessage(
        version=version,
        before=_joint(was),
        after=_joint(now),
        gaps=() if was is None or now is None else _moved(was, now, after.unit),
        told=told(taught) if taught is not None and taught.names else "",
        puzzle="" if taught is None else taught.puzzle,
    )


def _joint(found: Outcome | None) -> str:
    """Return how sure all gaps together are, in words."""
    return "" if found is None or found.joint is None else shown_sure(found.joint.value)


def _moved(was: Outcome, now: Outcome, unit: Unit) -> tuple[Learned, ...]:
    """Return every whole gap before and after."""
    return tuple(
        Learned(
            gap=new.gap.name,
            written=shown_with_unit(new.nominal, unit),
            span=_span(new.low, new.high, unit),
            before=shown_sure(old.sure.value),
            after=shown_sure(new.sure.value),
        )
        for old, new in zip(was.gaps, now.gaps, strict=True)
        if not old.gap.part_of
    )


def _span(low: float, high: float, unit: Unit) -> str:
    """Return between what a figure lies."""
    return f"{shown(low, unit)} to {shown_with_unit(high, unit)}"
