"""The verb 'enter': readings of a test fit, written into the file and weighed."""

import argparse

from trimwright.build import History, edited, load, parse, probe_edits
from trimwright.cabin import cabin
from trimwright.checks import cuts_told, not_there_told, told
from trimwright.cli.progress import progress
from trimwright.cli.terminal import RefusedError, say, wrapped
from trimwright.findings import Edit
from trimwright.fit import NotThere, Outcome, Plan, probed
from trimwright.quantities import Unit, shown_sure, shown_with_unit

AS_CUT = (
    "These readings hold for the wood as the file has it cut now. Before 'trimwright apply' cuts"
    " more, it writes under each what was cut then; where you write a cut yourself, write that"
    " too, such as: cut then: {{nose lower by: 0 {unit}}}"
)


def run(asked: argparse.Namespace) -> int:
    """Write the readings and say how they change what is known."""
    loaded = load(asked.file)
    before = cabin(loaded.build)
    if before.model is None:
        raise RefusedError("No gap of this build can be evaluated yet: try trimwright check FILE.")
    first = len(loaded.build.test_fit)
    edits: list[Edit] = []
    for number, reading in enumerate(asked.readings, start=first):
        edits += _edits(reading, number)
    text = edited(loaded.text, edits)
    build = parse(text, asked.file.name).build
    for probe in build.test_fit[first:]:
        meant = probed(probe, before.model)
        if isinstance(meant, NotThere):
            raise RefusedError(not_there_told(probe.probe, meant))
    History(asked.file).save(text, f"Test fit: {', '.join(asked.readings)}", read=loaded.text)
    with progress("weighing all doubts with these readings"):
        after = cabin(build)
        was, now = before.outcome, after.outcome
        cut, cut_now = before.plan, after.plan
    if was is not None and now is not None:
        _say(was, now, loaded.build.unit)
        say(*wrapped(f"Least cut before: {_cuts(cut, build.unit)}"))
        say(*wrapped(f"Least cut now: {_cuts(cut_now, build.unit)}"))
    say(*wrapped(AS_CUT.format(unit=build.unit)))
    say(f"Undo with: trimwright undo {asked.file}")
    return 0


def _edits(reading: str, number: int) -> tuple[Edit, ...]:
    """Return the edits that add one reading: 'nose left: 2', 'wall at 420 behind: touches'."""
    name, colon, said = reading.rpartition(":")
    if not colon or not name.strip() or not said.strip():
        raise RefusedError(
            f'found "{reading}"; expected a probe and what it read, such as: "nose left: 2"'
        )
    return probe_edits(name, said, number)


def _cuts(plan: Plan | None, unit: Unit) -> str:
    """Return what is to be cut before covering, in words."""
    if plan is None:
        return "none."
    if not plan.cuts:
        return f"{plan.short}."
    sure = shown_sure(plan.reached.value)
    return f"{cuts_told(plan, unit)}: {sure} sure then{f', {plan.short}' if plan.short else ''}."


def _say(was: Outcome, now: Outcome, unit: Unit) -> None:
    """Print how every gap's figure and certainty moved, and what nothing explains."""
    say(f"{'gap':<34}{'as written':>11}{'9 in 10 now':>22}{'sure':>12}")
    for old, new in zip(was.gaps, now.gaps, strict=True):
        if old.gap.part_of:
            continue
        low, high = shown_with_unit(new.low, unit), shown_with_unit(new.high, unit)
        span = f"{low.removesuffix(' ' + unit)} to {high}"
        sure = f"{shown_sure(old.sure.value)[:-2]} > {shown_sure(new.sure.value)}".replace(
            "over ", ">"
        ).replace("under ", "<")
        say(f"{new.gap.name[:33]:<34}{shown_with_unit(old.nominal, unit):>11}{span:>22}{sure:>12}")
    if was.joint is not None and now.joint is not None:
        say(
            f"All together: {shown_sure(was.joint.value)} sure before,"
            f" {shown_sure(now.joint.value)} now."
        )
    if now.taught is not None:
        say(*wrapped(told(now.taught)))
