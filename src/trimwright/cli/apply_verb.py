"""The verb 'apply': a finding's remedy, written into the file."""

import argparse

from trimwright.build import History, edited, load, parse
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.cli.chosen import chosen
from trimwright.cli.progress import progress
from trimwright.cli.terminal import RefusedError, say, wrapped
from trimwright.findings import Finding, Remedy


def run(asked: argparse.Namespace) -> int:
    """Write one remedy into the file and say what it changed."""
    loaded = load(asked.file)
    with progress("weighing all doubts"):
        findings = all_findings(cabin(loaded.build))
    one = chosen(findings, asked.finding)
    remedy = _remedy(one, asked.way)
    text = edited(loaded.text, remedy.edits)
    after = parse(text, asked.file.name).build
    History(asked.file).save(text, remedy.says.split(":")[0].rstrip("."), read=loaded.text)
    say(*wrapped(f"Written: {remedy.says}"))
    with progress("weighing all doubts anew"):
        changed = _changed(findings, all_findings(cabin(after)))
    if not changed:
        say("No finding changes its grade.")
    for line in changed:
        say(*wrapped(line, "  ", "    "))
    say(f"Undo with: trimwright undo {asked.file}")
    return 0


def _remedy(one: Finding, way: int) -> Remedy:
    """Return the remedy asked for: the n-th of those that the file can hold."""
    written = [remedy for remedy in one.remedies if remedy.edits]
    if not written:
        raise RefusedError(
            f"{one.place}: nothing here can be written into the file for you.\n"
            + "\n".join(f"  {remedy.says}" for remedy in one.remedies)
        )
    if not 1 <= way <= len(written):
        raise RefusedError(
            f"--way: found {way}; expected 1 to {len(written)}, such as: --way 1\n"
            + "\n".join(f"  {n} {remedy.says}" for n, remedy in enumerate(written, start=1))
        )
    return written[way - 1]


def _changed(before: tuple[Finding, ...], after: tuple[Finding, ...]) -> list[str]:
    """Return every finding that changes its grade, comes or goes; what got worse first."""
    old = {(f.rule, f.place): f.grade for f in before}
    new = {(f.rule, f.place): f.grade for f in after}
    order = ("good", "look", "change", "stop")
    rows = []
    for key in sorted(set(old) | set(new)):
        was, now = old.get(key), new.get(key)
        if was == now:
            continue
        worse = order.index(now) if now else -1
        better = order.index(was) if was else -1
        rows.append((better - worse, f"{key[1]}: {was or 'nothing'} -> {now or 'nothing'}"))
    return [line for _, line in sorted(rows)]
