"""The verb 'undo': the file as it was before its last edit, to the byte."""

import argparse

from trimwright.build import History
from trimwright.cli.terminal import RefusedError, say, wrapped


def run(asked: argparse.Namespace) -> int:
    """Take back one edit."""
    history = History(asked.file)
    was = history.current()
    try:
        version = history.undo()
    except ValueError as nothing:
        raise RefusedError(str(nothing)) from None
    say(*wrapped(f"Taken back: {was.says if was else 'what was changed by hand'}."))
    say(*wrapped(f"{asked.file.name} is again: {version.says}."))
    return 0
