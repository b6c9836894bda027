"""The verb 'check': what fits, what does not, what to do about it."""

import argparse
import sys

from trimwright.build import load
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.cli.progress import progress
from trimwright.cli.slip import slip
from trimwright.cli.terminal import coloured, say


def run(asked: argparse.Namespace) -> int:
    """Print the slip; 1 where something stops."""
    build = load(asked.file).build
    with progress("weighing all doubts"):
        findings = all_findings(cabin(build))
    say(*slip(build, findings, colour=coloured(sys.stdout)))
    return int(any(one.grade == "stop" for one in findings))
