"""Clauses: truths put together from others, as a solver of the satisfiability problem reads them.

A literal is a whole number; its negative is its opposite. Each truth that is put together gets a
literal of its own, tied to its parts both ways [tseitin 1968].
"""

from collections.abc import Iterable, Sequence

TRUE, FALSE = 1, -1


def opposite(literal: int) -> int:
    """Return the literal that is true where another is not."""
    return -literal


class Clauses:
    """Clauses as they grow; what is put together twice has one literal."""

    def __init__(self) -> None:
        """Begin with the literal that is true."""
        self.last = TRUE
        self._made: dict[tuple[int, ...], int] = {}
        self._fresh: list[list[int]] = [[TRUE]]

    def taken(self) -> list[list[int]]:
        """Return the clauses that came since they were taken last."""
        fresh, self._fresh = self._fresh, []
        return fresh

    def new(self) -> int:
        """Return a literal that nothing is said of yet."""
        self.last += 1
        return self.last

    def say(self, *literals: int) -> None:
        """Say that at least one literal is true."""
        if TRUE not in literals:
            self._fresh.append([one for one in literals if one != FALSE])

    def every(self, literals: Iterable[int]) -> int:
        """Return the literal that is true where all are."""
        parts = {one for one in literals if one != TRUE}
        if FALSE in parts or any(-one in parts for one in parts):
            return FALSE
        if len(parts) < 2:  # noqa: PLR2004  nothing to put together
            return parts.pop() if parts else TRUE
        key = tuple(sorted(parts))
        if key not in self._made:
            whole = self._made[key] = self.new()
            self._fresh.extend([-whole, one] for one in key)
            self._fresh.append([whole, *(-one for one in key)])
        return self._made[key]

    def some(self, literals: Iterable[int]) -> int:
        """Return the literal that is true where at least one is."""
        return -self.every(-one for one in literals)

    def same(self, one: int, other: int) -> int:
        """Return the literal that is true where both are or neither is."""
        return self.some([self.every([one, other]), self.every([-one, -other])])

    def choice(self, count: int) -> tuple[int, ...]:
        """Return literals of which exactly one is true."""
        if count == 1:
            return (TRUE,)
        first = self.new()
        if count == 2:  # noqa: PLR2004  one or the other
            return first, -first
        chosen = [first, *(self.new() for _ in range(count - 1))]
        self.say(*chosen)
        sofar = first
        for one in chosen[1:]:
            self.say(-sofar, -one)
            sofar = self.some([sofar, one])
        return tuple(chosen)

    def at_least(self, literals: Sequence[int]) -> tuple[int, ...]:
        """Return literals that are true where 1, 2, ... of some are true (a sequential counter)."""
        counted: list[int] = []
        for one in literals:
            before = [TRUE, *counted]
            steps = [self.every([low, one]) for low in before]
            counted = [self.some(pair) for pair in zip([*counted, FALSE], steps, strict=True)]
        return tuple(counted)
