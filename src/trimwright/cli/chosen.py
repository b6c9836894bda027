"""Which finding is meant: by its number on the slip, or by words of its place."""

from trimwright.cli.slip import numbered
from trimwright.cli.terminal import RefusedError
from trimwright.findings import Finding


def chosen(findings: tuple[Finding, ...], asked: str) -> Finding:
    """Return the finding with this number, or the first whose place or rule has all these words.

    Raises
    ------
    RefusedError
        If there is none, naming what there is.
    """
    numbers = numbered(findings)
    if asked.strip().isdigit():
        for number, one in numbers:
            if number == int(asked):
                return one
    words = asked.lower().split()
    for one in (*(f for _, f in numbers), *findings):
        text = f"{one.place} {one.rule}".lower()
        if words and all(word in text for word in words):
            return one
    there = "; ".join(f"{number} {one.place}" for number, one in numbers) or "none"
    raise RefusedError(
        f'found "{asked}"; expected a finding\'s number or words of its place, such as: 1\n'
        f"there is: {there}"
    )
