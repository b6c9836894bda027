"""What takes seconds to compute: once for each version, off the way of edits, newest first."""

import asyncio
import heapq
from collections.abc import Callable, Hashable
from concurrent.futures import Future
from itertools import count
from threading import Condition, Thread
from typing import Any, TypeVar

T = TypeVar("T")
KEPT = 64  # results of a session that goes back and forth between versions


class Reckoning:
    """One worker that computes each thing once, however many pages ask for it.

    What a page waits for goes before what nobody looks at yet, and the newest before the older:
    of edits that follow each other quickly only the last still matters. One at a time, since the
    stages of one build are shared between the things computed from it.
    """

    def __init__(self) -> None:
        self._change = Condition()
        self._asked: dict[Hashable, Future[Any]] = {}
        self._heap: list[tuple[int, int, Hashable, Callable[[], Any]]] = []
        self._counted = count()
        self._worker: Thread | None = None

    def once(self, key: Hashable, make: Callable[[], T], *, waited_for: bool = True) -> Future[T]:
        """Return what a call makes, now or later; the same key is made once.

        Parameters
        ----------
        key : hashable
            Names the result; it must stand for everything that goes into it.
        make : callable
            Makes it. If it raises, so does the future, and the next who asks tries again.
        waited_for : bool, default True
            Whether somebody waits for it.
        """
        with self._change:
            found = self._asked.get(key)
            if found is None or (found.done() and found.exception() is not None):
                found = Future()
                self._asked[key] = found
                self._forget()
            elif found.done() or not waited_for:
                return found
            order = -next(self._counted) if waited_for else next(self._counted)
            heapq.heappush(self._heap, (0 if waited_for else 1, order, key, make))
            self._begin()
            self._change.notify()
            return found

    async def wait(self, key: Hashable, make: Callable[[], T]) -> T:
        """Return what a call makes, once it is made; who no longer waits ends it for nobody."""
        return await asyncio.shield(asyncio.wrap_future(self.once(key, make)))

    def done(self, key: Hashable) -> bool:
        """Return whether a result is there to be had at once."""
        with self._change:
            found = self._asked.get(key)
            return found is not None and found.done() and found.exception() is None

    def _begin(self) -> None:
        """Start the worker with the first thing asked; it ends with the process."""
        if self._worker is None:
            self._worker = Thread(target=self._work, name="reckoning", daemon=True)
            self._worker.start()

    def _forget(self) -> None:
        """Drop the oldest results beyond those kept; what is still to be made stays."""
        done = [key for key, one in self._asked.items() if one.done()]
        for key in done[: max(0, len(self._asked) - KEPT)]:
            del self._asked[key]

    def _work(self) -> None:
        """Make one thing after another."""
        while True:
            with self._change:
                while not self._heap:
                    self._change.wait()
                _, _, key, make = heapq.heappop(self._heap)
                found = self._asked.get(key)
            if found is None or found.done() or not found.set_running_or_notify_cancel():
                continue
            _settle(found, make)


def _settle(found: Future[Any], make: Callable[[], Any]) -> None:
    """Make a result, or keep why it could not be made for those who wait."""
    try:
        result = make()
    except BaseException as error:  # noqa: BLE001  it is raised again where it is waited for
        found.set_exception(error)
    else:
        found.set_result(result)
