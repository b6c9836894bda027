"""Fractions of an inch inside words: figures small and raised, small and low."""

import re

from msgspec import Struct

# halves to sixty-fourths only, so that a date or a gear ratio stays as it is
FRACTION = re.compile(r"(?<![\d/.,])(\d{1,2})/(2|4|8|16|32|64)(?![\d/]|[.,]\d)")
SMALL, RAISED = 0.66, 0.26  # of the size; no standard, common practice in setting type


class Run(Struct, frozen=True):
    """Words of one size: their share of the text's size and their rise, in shares of it too."""

    words: str
    scale: float = 1.0
    rise: float = 0.0


def runs(words: str) -> tuple[Run, ...]:
    """Return words cut where a fraction begins, turns and ends.

    Examples
    --------
    >>> [(run.words, run.scale) for run in runs("9 13/16 in")]
    [('9 ', 1.0), ('13', 0.66), ('/', 1.0), ('16', 0.66), (' in', 1.0)]
    """
    found: list[Run] = []
    end = 0
    for match in FRACTION.finditer(words):
        found.append(Run(words[end : match.start()]))
        found.append(Run(match[1], SMALL, RAISED))
        found.append(Run("/"))
        found.append(Run(match[2], SMALL))
        end = match.end()
    found.append(Run(words[end:]))
    return tuple(run for run in found if run.words)
