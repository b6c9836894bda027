"""The verb 'why': physics, formula, assumptions and source behind one finding."""

import argparse
import sys

from trimwright.build import load
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.cli.chosen import chosen
from trimwright.cli.progress import progress
from trimwright.cli.slip import figures
from trimwright.cli.terminal import coloured, say, styled, wrapped

INDENT = "  "


def run(asked: argparse.Namespace) -> int:
    """Print one finding with all that stands behind it."""
    build = load(asked.file).build
    with progress("weighing all doubts"):
        findings = all_findings(cabin(build))
    one = chosen(findings, asked.finding)
    colour = coloured(sys.stdout)
    say(styled(one.place, "head", colour=colour) + f"  ({one.rule})")
    say(styled(one.grade, one.grade, colour=colour) + f", to settle before {one.lock}")
    say(*wrapped(one.says))
    if figures(one, build.unit):
        say(*wrapped(figures(one, build.unit)))
    for heading, lines in (
        ("Because", one.why),
        ("Missing", one.missing),
        ("What can be done", tuple(remedy.says for remedy in one.remedies)),
        ("Limit from", (one.source,) if one.source else ()),
    ):
        if lines:
            say("", styled(heading, "head", colour=colour))
            say(*(part for line in lines for part in wrapped(line, INDENT + "- ", INDENT + "  ")))
    return 0
