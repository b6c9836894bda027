"""Sharing on the garage network: off until it is switched on at the bench, and who is let in then.

All of it happens in the server's own loop, so no two things here happen at once: of two phones that
bring one code, the first is paired and the second is told that the code was used.
"""

import asyncio
import secrets
import time
from collections import deque
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from math import ceil

from msgspec import Struct

from trimwright.app.door import Server
from trimwright.app.share.address import near, own_addresses
from trimwright.app.share.code import Code, draw
from trimwright.app.share.limit import Allowance, WrongTries
from trimwright.app.share.listener import Listener, listening
from trimwright.app.share.phone import Phone, device
from trimwright.app.standing import NotDoneError

MOST_PHONES = 8
REMEMBERED = 64  # codes and phones that were good once, so that they can be told so
CLOSED_S = 4.0  # how long the lines of a closed listener are waited for
WATCH_S = 2.0  # how often the network is looked at
SLEPT_S = 30.0  # a clock that went on by so much between two looks: the machine slept

NO_NETWORK = "This machine is on no network. Join the one the phone is on, then switch on again."
OPEN_NET = (
    "This machine stands on the internet itself, where anybody could knock: the bench is not shared"
    " there. Join a network of your own, then switch on again."
)
SWITCHED_OFF = "The bench was taken off the network."
SLEPT = "The machine slept, so the bench was taken off the network."
MOVED = "The network of this machine changed, so the bench was taken off it."
LET_GO = "The bench let this phone go."
WRONG = "That is not the code on the bench."
USED = "That code was used already: each one pairs one phone, once."
OLD = "That code is too old."


class Clocks(Struct, frozen=True):
    """The two clocks: one that only ever goes on evenly, and the one on the wall [s]."""

    steady: Callable[[], float] = time.monotonic
    wall: Callable[[], float] = time.time


class NotPairedError(Exception):
    """A code that pairs nothing, with what to tell; `wait_s` is above 0 if there were too many."""

    def __init__(self, words: str, wait_s: float = 0.0) -> None:
        super().__init__(words)
        self.wait_s = wait_s


class Share:
    """Whether the bench is shared, the code that pairs the next phone, and the phones that are paired.

    Parameters
    ----------
    find : callable, optional
        Returns this machine's network addresses.
    clocks : Clocks, optional
        What the time is read from.
    """

    def __init__(
        self,
        find: Callable[[], Sequence[str]] = own_addresses,
        clocks: Clocks | None = None,
    ) -> None:
        self._find, self.clocks = find, clocks or Clocks()
        self._tell: Callable[[], None] = lambda: None
        self.wrong = WrongTries()
        self.addresses: tuple[str, ...] = ()  # with the port, while the bench is shared
        self.code: Code | None = None
        self.phones: list[Phone] = []
        self.said = ""  # why it went off, or who used the code
        self._number = 0
        self._codes: deque[tuple[Code, str]] = deque(maxlen=REMEMBERED)
        self._gone: deque[Phone] = deque(maxlen=REMEMBERED)
        self._listener: Listener | None = None
        self._tasks: list[asyncio.Task[None]] = []
        self._seen = 0.0

    @property
    def on(self) -> bool:
        """Whether the bench is shared."""
        return self._listener is not None

    def listen(self, tell: Callable[[], None]) -> None:
        """Have something called whenever anything here changes."""
        self._tell = tell

    async def switch_on(self, door: Callable[[set[str]], Server]) -> None:
        """Listen on the network, behind a door made for its addresses; offer a first code.

        Raises
        ------
        NotDoneError
            If there is no network, or it takes no listener.
        """
        if not self.on:
            await self.closed()
        if self.on:  # maybe by another page meanwhile
            return
        found = tuple(self._find())
        addresses = tuple(one for one in found if near(one))
        if not addresses:
            raise NotDoneError(OPEN_NET if found else NO_NETWORK)
        sockets = listening(addresses)
        self.addresses = tuple(f"{one}:{sockets[0].getsockname()[1]}" for one in addresses)
        self._listener = Listener(door(set(self.addresses)))
        self._seen = self.clocks.wall()
        self._tasks = [
            asyncio.create_task(self._listener.serve(sockets)),
            asyncio.create_task(self._watch()),
        ]
        self.offer()

    def switch_off(self, why: str = SWITCHED_OFF) -> None:
        """Take the bench off the network: listener, code and every phone end now."""
        if self._listener is None:
            return
        for phone in self.phones:
            self._end(phone, why)
        self.phones = []
        self._listener.close()
        self._listener, self.addresses, self.code = None, (), None
        self.said = why
        self._tell()

    async def closed(self) -> None:
        """Wait until nothing of a listener that was closed is left, or only what is being reckoned."""
        left, self._tasks = self._tasks, []
        for task in left[1:]:
            task.cancel()
        if left:
            await asyncio.wait(left, timeout=CLOSED_S)

    def look(self) -> bool:
        """Return whether the bench is shared still; it is not if the machine slept meanwhile."""
        now = self.clocks.wall()
        if now - self._seen > SLEPT_S:
            self.switch_off(SLEPT)
        self._seen = now
        return self.on

    def offer(self) -> None:
        """Put a new code up for one phone; one that was up pairs nothing any more."""
        if not self.on:
            raise NotDoneError("The bench is not shared: switch it on first.")
        self._put_away(OLD)
        self.code = draw(self.clocks.steady())
        self.said = ""
        self._tell()

    def left_s(self) -> float:
        """Return how long the code still pairs [s], 0 if there is none."""
        return max(self.code.until - self.clocks.steady(), 0.0) if self.code else 0.0

    def wait_s(self, who: str) -> float:
        """Return how long an address has to wait before it may try anything [s]."""
        return self.wrong.wait_s(who, self.clocks.steady())

    def mistaken(self, who: str) -> None:
        """Count a wrong code or key against an address."""
        self.wrong.count(who, self.clocks.steady())

    def pair(self, typed: str, who: str, agent: str) -> Phone:
        """Return the phone that a code pairs; the code pairs no other.

        Raises
        ------
        NotPairedError
            If it does not fit, was used, or is too old; or after too many that did not.
        NotDoneError
            If as many phones are paired as may be.
        """
        wait_s = self.wait_s(who)
        if wait_s > 0:
            raise NotPairedError(too_many(wait_s), wait_s)
        if self.left_s() == 0:
            self._put_away(OLD)
        if self.code is None or not self.code.fits(typed):
            self.mistaken(who)
            raise NotPairedError(next((why for one, why in self._codes if one.fits(typed)), WRONG))
        if len(self.phones) >= MOST_PHONES:
            raise NotDoneError(f"{MOST_PHONES} phones are paired: let one go at the bench first.")
        self._put_away(USED)
        self._number += 1
        now = self.now()
        allowance = Allowance(self.clocks.steady())
        phone = Phone(self._number, device(agent), now, now, allowance)
        self.phones.append(phone)
        self.said = f"Used at {now}: {phone.says}."
        self._tell()
        return phone

    def phone(self, keys: Sequence[str]) -> Phone | None:
        """Return the paired phone whose key is among some, in a time that tells nothing of it."""
        return _held(keys, self.phones)

    def gone(self, keys: Sequence[str]) -> Phone | None:
        """Return the phone that was let go whose key is among some."""
        return _held(keys, self._gone)

    def let_go(self, number: int | None = None) -> None:
        """Let one phone go, or all of them."""
        left = [one for one in self.phones if number not in (None, one.number)]
        for phone in self.phones:
            if phone not in left:
                self._end(phone, LET_GO)
        self.phones = left
        self._tell()

    def now(self) -> str:
        """Return the time as on the clock of this machine: '21:14'."""
        return datetime.fromtimestamp(self.clocks.wall(), UTC).astimezone().strftime("%H:%M")

    def _end(self, phone: Phone, why: str) -> None:
        phone.end(why)
        self._gone.append(phone)

    def _put_away(self, why: str) -> None:
        if self.code is not None:
            self._codes.append((self.code, why))
        self.code = None

    async def _watch(self) -> None:
        """Look after the network and the clock for as long as the bench is shared."""
        while self.look():
            await asyncio.sleep(WATCH_S)
            if not {one.rpartition(":")[0] for one in self.addresses} <= set(self._find()):
                self.switch_off(MOVED)


def too_many(wait_s: float) -> str:
    """Return what is told after too many wrong codes or keys."""
    return f"Too many wrong codes. Wait {ceil(wait_s)} s, then try the code on the bench again."


def _held(keys: Sequence[str], phones: Sequence[Phone]) -> Phone | None:
    """Return the phone whose key is among some; every key is compared with every phone's."""
    found = None
    for phone in phones:
        for key in keys:
            if secrets.compare_digest(key.encode(), phone.key.encode()):
                found = phone
    return found
