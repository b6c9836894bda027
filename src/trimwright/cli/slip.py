"""The findings as lines on a terminal: by lock, numbered as on the findings sheet."""

import textwrap

from trimwright.build import Build
from trimwright.checks import amount
from trimwright.cli.terminal import COLUMNS, styled, wrapped
from trimwright.findings import LOCKS, Finding, counts, lock_heading
from trimwright.quantities import Unit, shown_sure

MARKS = {"stop": "x", "change": "v", "look": "o", "good": "+"}
INDENT = " " * 5


def numbered(findings: tuple[Finding, ...]) -> tuple[tuple[int, Finding], ...]:
    """Return what needs a hand with its numbers, in the order of the sheet."""
    return tuple(enumerate((f for f in findings if f.grade != "good"), start=1))


def slip(build: Build, findings: tuple[Finding, ...], *, colour: bool) -> list[str]:
    """Return the whole slip: heading with counts, then each lock and what it would freeze."""
    unit, count = build.unit, counts(findings)
    tally = ", ".join(f"{n} {grade}" for grade, n in count.items())
    lines = [styled(build.name, "head", colour=colour), tally]
    numbers = {id(f): n for n, f in numbered(findings)}
    for lock in LOCKS:
        here = [f for f in findings if f.lock == lock and f.grade != "good"]
        if here:
            lines += [
                "",
                styled(lock_heading(lock, build.locks), "head", colour=colour),
            ]
        for one in here:
            lines += entry(numbers[id(one)], one, unit, colour=colour)
    good = [f for f in findings if f.grade == "good"]
    if good:
        lines += ["", styled("Checked, with room to spare", "head", colour=colour)]
        lines += [_good(one, unit, colour=colour) for one in good]
    return lines


def entry(number: int, one: Finding, unit: Unit, *, colour: bool) -> list[str]:
    """Return one finding: mark, place, sentence, figure, remedies."""
    lines = [*_head(number, one, colour=colour), *wrapped(one.says, INDENT)]
    figure = figures(one, unit)
    if figure:
        lines += wrapped(figure, INDENT)
    if one.missing:
        lines += wrapped("Missing: " + "; ".join(one.missing), INDENT, INDENT + "  ")
    for remedy in one.remedies:
        lines += wrapped("> " + remedy.says, INDENT, INDENT + "  ")
    return lines


def _head(number: int, one: Finding, *, colour: bool) -> list[str]:
    """Return number, mark, place and, at the right, the zone; a long place runs on below."""
    mark = f"{MARKS[one.grade]} {one.grade}"
    first = f"{number:>3}  {mark}  "
    room = COLUMNS - len(first) - (len(one.zone) + 1 if one.zone else 0)
    places = textwrap.wrap(one.place, room)
    if one.zone:
        places[0] = f"{places[0]:<{room}} {one.zone}"
    lead = first.replace(mark, styled(mark, one.grade, colour=colour))
    return [lead + places[0], *(" " * len(first) + rest for rest in places[1:])]


def _good(one: Finding, unit: Unit, *, colour: bool) -> str:
    """Return a passed check as one line, its place cut where it runs long."""
    figure = figures(one, unit, brief=True)
    room = COLUMNS - 8 - len(figure)
    place = one.place if len(one.place) <= room else one.place[: room - 1] + "…"
    return f"  {styled(MARKS['good'], 'good', colour=colour)}  {place:<{room}} {figure}".rstrip()


def figures(one: Finding, unit: Unit, *, brief: bool = False) -> str:
    """Return figure, limit, certainty and spread of a finding in words."""
    if one.figure is None:
        return ""
    parts = [amount(one, one.figure, unit)]
    if one.limit is not None:
        parts[0] += f", limit {amount(one, one.limit, unit)}"
    if one.sure is not None:
        parts.append(f"{shown_sure(one.sure)} sure")
    if not brief and one.low is not None and one.high is not None:
        parts.append(f"9 in 10: {amount(one, one.low, unit)} to {amount(one, one.high, unit)}")
    return "; ".join(parts)
