"""Who is let in, for how long, and what takes the bench off the network again."""

import asyncio
import secrets
from collections.abc import Callable, Coroutine, Sequence
from typing import Any

import pytest

from tests.shared_bench import Hands, run
from trimwright.app.door import Server
from trimwright.app.share import sharing
from trimwright.app.share.code import LASTS_S, LENGTH, LETTERS
from trimwright.app.share.limit import (
    AT_ONCE,
    PER_S,
    WITHIN_S,
    WRONG_FROM_ONE,
    WRONG_IN_ALL,
    Allowance,
)
from trimwright.app.share.sharing import (
    LET_GO,
    MOST_PHONES,
    MOVED,
    OLD,
    SLEPT,
    SLEPT_S,
    SWITCHED_OFF,
    USED,
    WRONG,
    NotPairedError,
    Share,
)
from trimwright.app.standing import NotDoneError

HERE, THERE = "127.0.0.1", "127.0.0.2"  # a network is not needed for any of this
PHONE = "192.0.2.7"


async def _nobody(_: object, __: object, ___: object) -> None:
    """Answer nothing."""


def shared(
    does: Callable[[Share, Hands], Coroutine[Any, Any, None]], find: Sequence[str] = (HERE,)
) -> None:
    """Run something with the bench shared; it is closed after."""
    hands = Hands()
    share = Share(lambda: find, hands.clocks())

    async def work() -> None:
        await share.switch_on(lambda _: _nobody)
        try:
            await does(share, hands)
        finally:
            share.switch_off()
            await share.closed()

    run(work())


def text(share: Share) -> str:
    """Return the code that is up."""
    assert share.code is not None
    return share.code.text


def refusal(share: Share, typed: str, who: str = PHONE) -> str:
    """Return why a code pairs nothing."""
    with pytest.raises(NotPairedError, match=r"\w") as refused:
        share.pair(typed, who, "")
    return str(refused.value)


def test_a_code_pairs_one_phone_once() -> None:
    async def does(share: Share, _: Hands) -> None:
        code = text(share)
        share.pair(code, PHONE, "")
        assert refusal(share, code) == USED
        assert share.code is None
        assert len(share.phones) == 1

    shared(does)


def test_a_code_is_typed_as_one_likes() -> None:
    async def does(share: Share, _: Hands) -> None:
        code = text(share)
        share.pair(f" {code[:4].lower()}-{code[4:]} ", PHONE, "")
        assert len(share.phones) == 1

    shared(does)


def test_a_code_is_drawn_by_chance_of_letters_that_are_not_mistaken() -> None:
    async def does(share: Share, _: Hands) -> None:
        drawn = set()
        for _k in range(200):
            share.offer()
            drawn.add(text(share))
        assert len(drawn) == 200
        assert {len(code) for code in drawn} == {LENGTH}
        assert set("".join(drawn)) == set(LETTERS)
        assert not set(LETTERS) & set("0O1IL")

    shared(does)


def test_a_code_lasts_five_minutes() -> None:
    async def does(share: Share, hands: Hands) -> None:
        code = text(share)
        hands.steady += LASTS_S - 1
        assert share.left_s() == 1
        hands.steady += 1
        assert share.left_s() == 0
        assert refusal(share, code) == OLD

    shared(does)
    assert LASTS_S == 300


def test_a_new_code_takes_the_place_of_the_one_before() -> None:
    async def does(share: Share, _: Hands) -> None:
        before = text(share)
        share.offer()
        assert refusal(share, before) == OLD
        share.pair(text(share), PHONE, "")

    shared(does)


def test_no_code_pairs_while_the_bench_is_not_shared() -> None:
    async def does(share: Share, _: Hands) -> None:
        code = text(share)
        share.switch_off()
        assert refusal(share, code) == WRONG
        with pytest.raises(NotDoneError, match="switch it on first"):
            share.offer()

    shared(does)


def test_after_ten_wrong_codes_an_address_waits_a_minute_even_with_the_right_one() -> None:
    async def does(share: Share, hands: Hands) -> None:
        code = text(share)
        for _k in range(WRONG_FROM_ONE):
            assert refusal(share, "WRONG") == WRONG
        assert refusal(share, code).startswith("Too many wrong codes. Wait 60 s,")
        hands.steady += WITHIN_S - 1
        assert refusal(share, code).startswith("Too many wrong codes. Wait 1 s,")
        hands.steady += 1
        share.pair(code, PHONE, "")  # it was not used up meanwhile

    shared(does)
    assert (WRONG_FROM_ONE, WITHIN_S) == (10, 60)


def test_wrong_codes_long_ago_do_not_count() -> None:
    async def does(share: Share, hands: Hands) -> None:
        for _k in range(3 * WRONG_FROM_ONE):
            assert refusal(share, "WRONG") == WRONG
            hands.steady += WITHIN_S / (WRONG_FROM_ONE - 1)

    shared(does)


def test_one_address_does_not_keep_another_from_pairing() -> None:
    async def does(share: Share, _: Hands) -> None:
        for _k in range(WRONG_FROM_ONE):
            refusal(share, "WRONG", "192.0.2.66")
        assert share.wait_s("192.0.2.66") > 0
        share.pair(text(share), PHONE, "")

    shared(does)


def test_many_addresses_together_are_stopped_too() -> None:
    async def does(share: Share, hands: Hands) -> None:
        for k in range(WRONG_IN_ALL):
            assert refusal(share, "WRONG", f"192.0.2.{k}") == WRONG
        assert refusal(share, text(share)).startswith("Too many")
        hands.steady += WITHIN_S
        share.pair(text(share), PHONE, "")

    shared(does)


def test_an_allowance_is_generous_and_grows_again() -> None:
    allowance = Allowance(0.0)
    assert sum(allowance.take(0.0) for _ in range(2 * AT_ONCE)) == AT_ONCE
    assert sum(allowance.take(2.0) for _ in range(AT_ONCE)) == 2 * PER_S
    assert sum(allowance.take(1e6) for _ in range(2 * AT_ONCE)) == AT_ONCE


def test_no_more_phones_than_can_be_overlooked() -> None:
    async def does(share: Share, _: Hands) -> None:
        for _k in range(MOST_PHONES):
            share.offer()
            share.pair(text(share), PHONE, "")
        share.offer()
        with pytest.raises(NotDoneError, match="let one go"):
            share.pair(text(share), PHONE, "")
        share.let_go(share.phones[0].number)
        share.pair(text(share), PHONE, "")

    shared(does)


def test_phones_are_let_go_one_by_one_or_all_at_once() -> None:
    async def does(share: Share, _: Hands) -> None:
        phones = []
        for _k in range(3):
            share.offer()
            phones.append(share.pair(text(share), PHONE, ""))
        share.let_go(phones[1].number)
        assert [one.over.is_set() for one in phones] == [False, True, False]
        assert share.phone([phones[1].key]) is None
        assert share.phone([phones[0].key]) is phones[0]
        assert share.gone([phones[1].key]) is phones[1]
        share.let_go()
        assert {one.why for one in phones} == {LET_GO}
        assert share.phones == []

    shared(does)


def test_keys_and_codes_are_compared_in_a_time_that_tells_nothing(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    compared: list[bytes] = []
    real = secrets.compare_digest

    def counted(one: bytes, other: bytes) -> bool:
        compared.append(one)
        return real(one, other)

    async def does(share: Share, _: Hands) -> None:
        phones = []
        for _k in range(4):
            share.offer()
            phones.append(share.pair(text(share), PHONE, ""))
        monkeypatch.setattr(secrets, "compare_digest", counted)
        counts = set()
        for key in (phones[0].key, phones[3].key, "wrong"):
            compared.clear()
            share.phone([key])
            counts.add(len(compared))
        assert counts == {4}
        share.offer()
        compared.clear()
        share.pair(text(share), PHONE, "")
        assert len(compared) == 1  # the code too

    shared(does)


def test_switching_off_ends_everything_at_once() -> None:
    async def does(share: Share, _: Hands) -> None:
        phone = share.pair(text(share), PHONE, "")
        share.offer()
        share.switch_off()
        assert (share.on, share.code, share.phones, share.addresses) == (False, None, [], ())
        assert phone.over.is_set()
        assert phone.why == SWITCHED_OFF

    shared(does)


def test_a_machine_that_slept_is_off_the_network_before_it_answers_anything() -> None:
    async def does(share: Share, hands: Hands) -> None:
        phone = share.pair(text(share), PHONE, "")
        hands.wall += SLEPT_S
        assert share.look()
        hands.wall += SLEPT_S + 1
        assert not share.look()
        assert phone.why == share.said == SLEPT

    shared(does)


@pytest.mark.parametrize("after", [(), (THERE,)])
def test_a_network_that_changes_takes_the_bench_off_it(
    monkeypatch: pytest.MonkeyPatch, after: tuple[str, ...]
) -> None:
    monkeypatch.setattr(sharing, "WATCH_S", 0.01)
    now = [HERE]

    async def does(share: Share, _: Hands) -> None:
        await asyncio.sleep(0.05)
        assert share.on
        now[:] = after
        for _k in range(400):
            if not share.on:
                break
            await asyncio.sleep(0.01)
        assert share.said == MOVED

    shared(does, now)


def test_it_can_be_switched_on_again_and_two_pages_may_do_so_at_once() -> None:
    async def does(share: Share, _: Hands) -> None:
        first = share.addresses
        share.switch_off()
        doors: list[set[str]] = []

        def door(hosts: set[str]) -> Server:
            doors.append(hosts)
            return _nobody

        await asyncio.gather(*(share.switch_on(door) for _k in range(3)))
        assert share.on
        assert share.addresses != first
        assert doors == [set(share.addresses)]

    shared(does)
