"""The code that pairs one phone with the bench: drawn by chance, good once, for a few minutes."""

import secrets

from msgspec import Struct

# none that is read as another: no 0 O, 1 I L, U V
LETTERS = "23456789ABCDEFGHJKMNPQRSTWXYZ"
LENGTH = 8
LASTS_S = 300.0


class Code(Struct, frozen=True):
    """A code, and until when it pairs, by the bench's own steady clock [s]."""

    text: str
    until: float

    def fits(self, typed: str) -> bool:
        """Return whether a code was typed, in a time that tells nothing about it."""
        return secrets.compare_digest(plain(typed).encode(), self.text.encode())


def draw(now: float) -> Code:
    """Return a new code: one of 29^8, half a million million."""
    return Code("".join(secrets.choice(LETTERS) for _ in range(LENGTH)), now + LASTS_S)


def plain(typed: str) -> str:
    """Return a code as it was drawn, however it was typed.

    Examples
    --------
    >>> plain(" k7qm-3xtp ")
    'K7QM3XTP'
    """
    return typed.upper().replace(" ", "").replace("-", "")
