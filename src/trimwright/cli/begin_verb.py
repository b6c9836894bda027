"""The verb 'begin': a new build file with the first readings to write over."""

import argparse

from trimwright.build import beginning, filled_in
from trimwright.cli.terminal import RefusedError, say

NOTE = """\
# Measure, write over the figures, and run: trimwright check {}
# Left and right as seated facing forward; ahead and behind of the datum marks.
# Heights are taken straight up from the bare tunnel.
"""


def run(asked: argparse.Namespace) -> int:
    """Write the new file, never over one that is there."""
    name = asked.name or asked.file.stem.replace("-", " ")
    text = filled_in(NOTE.format(asked.file) + beginning(name, asked.unit, "right"), asked.unit)
    if asked.file.exists():
        raise RefusedError(f"{asked.file} is there already; name a file that is not.")
    asked.file.parent.mkdir(parents=True, exist_ok=True)
    asked.file.write_text(text, encoding="utf-8")
    say(f"Written: {asked.file}", "Every figure in it is an example: write yours over it, then:")
    say(f"  trimwright check {asked.file}")
    return 0
