"""How often one may be wrong, and how much one may ask."""

from collections import deque

WITHIN_S = 60.0  # the time that is looked back, and that is waited then
WRONG_FROM_ONE, WRONG_IN_ALL = 10, 30  # tries within that time
AT_ONCE, PER_S = 600, 120  # requests of a phone: saved up at most; gained each second


class WrongTries:
    """Counts wrong codes and keys, by address and in all; after too many nobody may try a while."""

    def __init__(self) -> None:
        self._tries: dict[str, deque[float]] = {}
        self._until: dict[str, float] = {}

    def wait_s(self, who: str, now: float) -> float:
        """Return how long an address has to wait before it may try [s]: 0 if it may now."""
        return max(self._until.get(who, now), self._until.get("", now), now) - now

    def count(self, who: str, now: float) -> None:
        """Count a wrong try."""
        self._tries = {
            one: times for one, times in self._tries.items() if times[-1] > now - WITHIN_S
        }
        self._until = {one: until for one, until in self._until.items() if until > now}
        for one, most in ((who, WRONG_FROM_ONE), ("", WRONG_IN_ALL)):
            times = self._tries.setdefault(one, deque(maxlen=most))
            times.append(now)
            if len(times) == most and times[0] > now - WITHIN_S:
                self._until[one] = now + WITHIN_S


class Allowance:
    """How much a phone may still ask: it grows again with time."""

    def __init__(self, now: float) -> None:
        self._left, self._seen = float(AT_ONCE), now

    def take(self, now: float) -> bool:
        """Take one request out of it; return whether there was one left."""
        self._left = min(AT_ONCE, self._left + (now - self._seen) * PER_S)
        self._seen = now
        if self._left < 1:
            return False
        self._left -= 1
        return True
