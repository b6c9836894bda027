"""Words on a terminal: 80 columns, colour only where it is welcome."""

import os
import sys
import textwrap
from typing import TextIO

COLUMNS = 80
STYLES = {"stop": "1;31", "change": "1;33", "look": "1;34", "good": "32", "head": "1", "faint": "2"}


class RefusedError(Exception):
    """What was asked for cannot be done: one message, a line a thought."""


def coloured(stream: TextIO) -> bool:
    """Return whether colour is welcome: a terminal, and no NO_COLOR in the environment."""
    return stream.isatty() and not os.environ.get("NO_COLOR")


def styled(words: str, style: str, *, colour: bool) -> str:
    """Return words in a style.

    Examples
    --------
    >>> styled("stop", "stop", colour=False)
    'stop'
    """
    return f"\x1b[{STYLES[style]}m{words}\x1b[0m" if colour else words


def wrapped(words: str, indent: str = "", hang: str | None = None) -> list[str]:
    """Return lines of at most 80 columns.

    Examples
    --------
    >>> wrapped("a " * 45, "  ")[1]
    '  a a a a a a'
    """
    return textwrap.wrap(
        words,
        COLUMNS,
        initial_indent=indent,
        subsequent_indent=indent if hang is None else hang,
        break_long_words=True,
        break_on_hyphens=False,
    )


def say(*lines: str) -> None:
    """Print lines."""
    for line in lines:
        sys.stdout.write(line + "\n")


def complain(*lines: str) -> None:
    """Print lines where errors go."""
    for line in lines:
        sys.stderr.write(line + "\n")
