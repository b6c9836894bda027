"""The name among those known that comes nearest to one that is not."""

from collections.abc import Iterable

MOST_GUESSES = 20  # of names and keys in one file for which the nearest is looked up


def nearest(name: str, known: Iterable[str], least: float = 0.6) -> str:
    """Return the known name that comes nearest, an empty text if none is alike enough.

    `least` is how alike they have to be, from 0 to 1.

    Examples
    --------
    >>> nearest("fuze box", ["boot left", "fuse box"])
    'fuse box'
    """
    from difflib import get_close_matches  # noqa: PLC0415  only for a fault

    return next(iter(get_close_matches(name[:60], list(known), n=1, cutoff=least)), "")
