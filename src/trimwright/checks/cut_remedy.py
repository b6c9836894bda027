"""A cut as a remedy: written into the file, unless readings there hold for the wood as it was."""

from trimwright.cabin import Cabin
from trimwright.findings import Edit, Remedy

AGAIN = "Write it by hand with the test fit read again: what was read holds for the wood uncut."


def cut_remedy(cabin: Cabin, words: str, sure: str, edits: tuple[Edit, ...]) -> Remedy:
    """Return a cut as a remedy; with a test fit in the file it is in words only.

    Held against the console after the cut, a gap that was read before it would say that the car
    has come closer by as much as was cut, and ask for the cut again, and again.
    """
    if cabin.build.test_fit:
        return Remedy(f"{words}: {sure}. {AGAIN}")
    return Remedy(f"{words}: {sure}.", edits)
