"""The steps that lead from rest to a broken rule, in plain words."""

from trimwright.build import Wiring
from trimwright.wiring import Step, step_words


def in_words(steps: tuple[Step, ...], wiring: Wiring) -> str:
    """Return steps, numbered, what follows each at once beside it."""
    told = step_words(steps, wiring)
    return "; ".join(f"{number}. {words}" for number, words in enumerate(told, 1))
