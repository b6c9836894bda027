"""The verb 'print': the shop paper, into a folder."""

import argparse

from trimwright.build import History, album, load
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.cli.progress import progress
from trimwright.cli.terminal import RefusedError, say
from trimwright.drawing import Size


def run(asked: argparse.Namespace) -> int:
    """Write the sheets and say which."""
    from trimwright.papers import BOOK, SHEETS, Beside, write  # noqa: PLC0415  costs half a second

    known = (*SHEETS, BOOK)
    if asked.only and asked.only not in known:
        raise RefusedError(f'--only: found "{asked.only}"; expected one of {", ".join(known)}')
    loaded = load(asked.file)
    one = cabin(loaded.build)
    size: Size = "A4" if asked.on == "a4" else "Letter"
    with progress("weighing all doubts"):
        findings = all_findings(one)
    with progress("drawing"):
        kept = History(asked.file)
        beside = Beside(kept.list(), album(loaded, asked.file), kept.current())
        paths = write(one, findings, asked.into, size, asked.only, beside)
    for path in paths:
        say(f"  {path}")
    say(f"Open {asked.into / 'packet.pdf'}" if not asked.only else "Print at 100 %, never 'fit'.")
    return 0
