"""Where the bench is shared, and what a phone is called there."""

import re
import socket

import pytest

from tests.shared_bench import run
from trimwright.app.door import Server
from trimwright.app.share.address import near, own_addresses
from trimwright.app.share.listener import listening
from trimwright.app.share.phone import device
from trimwright.app.share.sharing import NO_NETWORK, OPEN_NET, Share
from trimwright.app.standing import NotDoneError

HERE, THERE = "127.0.0.1", "127.0.0.2"


def _no_door(_: set[str]) -> Server:
    raise AssertionError("there is nothing to open a door to")


@pytest.mark.parametrize(
    ("found", "words"), [((), NO_NETWORK), (("8.8.8.8",), OPEN_NET), (("1.1.1.1",), OPEN_NET)]
)
def test_without_a_network_of_ones_own_it_says_so(found: tuple[str, ...], words: str) -> None:
    share = Share(lambda: found)
    with pytest.raises(NotDoneError, match=f"^{re.escape(words)}$"):
        run(share.switch_on(_no_door))
    assert not share.on


def test_an_address_that_is_not_this_machines_is_told_in_words() -> None:
    with pytest.raises(NotDoneError, match=r"192\.0\.2\.254 cannot be listened on: "):
        listening(["192.0.2.254"])


def test_one_port_is_listened_on_at_every_address_and_at_no_other() -> None:
    made = listening([HERE, THERE])
    try:
        where = [one.getsockname() for one in made]
        assert [address for address, _ in where] == [HERE, THERE]
        assert len({port for _, port in where}) == 1
        with socket.socket() as other, pytest.raises(ConnectionRefusedError, match="refused"):
            other.connect(("127.0.0.3", where[0][1]))
    finally:
        for one in made:
            one.close()


def test_a_port_that_is_taken_at_one_address_is_not_used(monkeypatch: pytest.MonkeyPatch) -> None:
    with socket.create_server((THERE, 0)) as taken:
        port = taken.getsockname()[1]
        real = socket.socket.bind

        def bind(self: socket.socket, at: tuple[str, int]) -> None:
            real(self, (at[0], at[1] or port))

        monkeypatch.setattr(socket.socket, "bind", bind)
        with pytest.raises(NotDoneError, match="No free port"):
            listening([HERE, THERE])


def test_the_addresses_are_this_machines_and_nobody_is_asked(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def asks(*_: object) -> None:
        raise AssertionError("somebody was asked")

    for name in ("getaddrinfo", "gethostbyname", "gethostbyname_ex", "create_connection"):
        monkeypatch.setattr(socket, name, asks)
    monkeypatch.setattr(socket.socket, "connect", asks)
    monkeypatch.setattr(socket.socket, "sendto", asks)
    for address in own_addresses():
        assert not address.startswith("127.")
        listening([address])[0].close()  # only one's own can be listened on


@pytest.mark.parametrize(
    ("address", "is_near"),
    [
        ("10.1.2.3", True),
        ("172.16.0.1", True),
        ("172.32.0.1", False),
        ("192.168.178.20", True),
        ("169.254.3.4", True),
        ("100.64.0.9", True),
        ("93.184.216.34", False),
    ],
)
def test_what_the_internet_reaches_is_not_near(address: str, *, is_near: bool) -> None:
    """Ranges of RFC 1918, 3927 and 6598."""
    assert near(address) is is_near


@pytest.mark.parametrize(
    ("agent", "says"),
    [
        (
            "Mozilla/5.0 (iPhone; CPU iPhone OS 19_1 like Mac OS X) Version/19 Safari/604.1",
            "iPhone, Safari",
        ),
        (
            "Mozilla/5.0 (Linux; Android 15; K) Chrome/140.0.0.0 Mobile Safari/537.36",
            "Android phone, Chrome",
        ),
        ("Mozilla/5.0 (Android 15; Mobile; rv:140.0) Firefox/140.0", "Android phone, Firefox"),
        (
            "Mozilla/5.0 (Linux; Android 15; SM) Chrome/140 SamsungBrowser/29 Safari/537",
            "Android tablet, Samsung browser",
        ),
        ("Mozilla/5.0 (Windows NT 10.0) Chrome/140 Safari/537 Edg/140", "Windows computer, Edge"),
        ("", "a device that does not say what it is"),
        ("x" * 500 + "iPhone", "a device that does not say what it is"),
        ("<img src=x>iPad'); --", "iPad"),
    ],
)
def test_a_phone_is_called_by_plain_words_of_ours(agent: str, says: str) -> None:
    assert device(agent) == says
