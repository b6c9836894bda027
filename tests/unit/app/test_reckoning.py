"""What takes long is made once, what is waited for first."""

import asyncio
import threading
from concurrent.futures import Future
from functools import partial
from typing import Any

import pytest

from trimwright.app.reckoning import KEPT, Reckoning


def test_many_who_ask_at_once_get_one_result() -> None:
    reckoning, gate, made = Reckoning(), threading.Event(), []

    def make() -> int:
        gate.wait(10)
        made.append(1)
        return 7

    found = [reckoning.once("fit", make) for _ in range(20)]
    gate.set()
    assert [one.result(10) for one in found] == [7] * 20
    assert made == [1]
    assert reckoning.once("fit", make).result(10) == 7
    assert made == [1]


def test_what_is_waited_for_goes_first_and_the_newest_before_the_older() -> None:
    reckoning, gate = Reckoning(), threading.Event()
    order: list[str] = []
    found: list[Future[Any]] = [reckoning.once("first", lambda: gate.wait(10))]
    found += [reckoning.once(one, partial(order.append, one), waited_for=False) for one in "abc"]
    found += [reckoning.once(one, partial(order.append, one)) for one in ("old", "new", "c")]
    gate.set()
    for one in found:
        one.result(10)
    assert order == ["c", "new", "old", "a", "b"]


def test_what_fails_is_told_and_tried_again() -> None:
    reckoning, tries = Reckoning(), []

    def make() -> int:
        tries.append(1)
        if len(tries) == 1:
            raise KeyError("once")
        return 1

    with pytest.raises(KeyError, match="once"):
        reckoning.once("fit", make).result(10)
    assert not reckoning.done("fit")
    assert reckoning.once("fit", make).result(10) == 1
    assert reckoning.done("fit")


def test_who_no_longer_waits_ends_it_for_nobody() -> None:
    reckoning, gate = Reckoning(), threading.Event()

    async def both() -> int:
        reckoning.once("first", lambda: gate.wait(10))
        gone = asyncio.create_task(reckoning.wait("fit", lambda: 3))
        stays = asyncio.create_task(reckoning.wait("fit", lambda: 3))
        await asyncio.sleep(0.05)
        gone.cancel()
        await asyncio.sleep(0.05)
        gate.set()
        return await asyncio.wait_for(stays, 10)

    assert asyncio.run(both()) == 3


def test_old_results_are_let_go() -> None:
    reckoning = Reckoning()
    for key in range(KEPT + 10):
        reckoning.once(key, lambda: 0).result(10)
    assert not reckoning.done(0)
    assert reckoning.done(KEPT + 9)
