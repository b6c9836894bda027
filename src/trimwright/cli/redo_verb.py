"""The verb 'redo': the edit made again that was taken back."""

import argparse

from trimwright.build import History
from trimwright.cli.terminal import RefusedError, say, wrapped


def run(asked: argparse.Namespace) -> int:
    """Make one edit again."""
    try:
        version = History(asked.file).redo()
    except ValueError as nothing:
        raise RefusedError(str(nothing)) from None
    say(*wrapped(f"Made again: {version.says}."))
    return 0
