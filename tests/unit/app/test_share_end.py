"""What ends when a phone is let go, when sharing is switched off, and when the machine slept."""

import json
import socket
from collections.abc import Callable, Iterator
from contextlib import ExitStack, suppress
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path

import pytest

from tests.served_bench import HERE, WAIT_S, Page, until
from tests.shared_bench import INNER, NAME, Log, Shared, shared
from trimwright.app.share import listener as share_listener
from trimwright.app.share.listener import MOST_FROM_ONE
from trimwright.app.share.sharing import LET_GO, SLEPT, SLEPT_S, SWITCHED_OFF

BIG = 30_000_000  # bytes: more than what lies in the system's buffers


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Shared]:
    with shared(tmp_path) as one:
        yield one


class Stream:
    """The open event stream of a phone."""

    def __init__(self, phone: Page) -> None:
        self.line = HTTPConnection(phone.host, phone.port, timeout=WAIT_S)
        host = f"{phone.host}:{phone.port}"
        self.line.request("GET", "/api/events", headers={"Cookie": phone.cookie, "Host": host})
        self.got: HTTPResponse = self.line.getresponse()
        assert self.event() == "version"

    def event(self) -> str:
        """Return what the next event is called, or why the stream ended; '' when it has."""
        name = ""
        for raw in self.got:
            line = raw.decode().strip()
            if line.startswith("event: "):
                name = line.removeprefix("event: ")
            elif line.startswith("data: "):
                said: str = json.loads(line.removeprefix("data: ")).get("says", name)
                return said
        return ""

    def rest(self) -> list[str]:
        """Return all that comes until it ends."""
        return list(iter(self.event, ""))

    def close(self) -> None:
        """Hang up."""
        self.got.close()
        self.line.close()


Listen = Callable[[Page], Stream]


@pytest.fixture
def listen() -> Iterator[Listen]:
    with ExitStack() as until_the_end:

        def listening(phone: Page) -> Stream:
            made = Stream(phone)
            until_the_end.callback(made.close)
            return made

        yield listening


def read_to_the_end(line: socket.socket) -> int:
    """Return how many bytes come still."""
    count = 0
    with suppress(ConnectionResetError):
        while got := line.recv(1 << 16):
            count += len(got)
    return count


def port_is_closed(port: int) -> bool:
    """Return whether nobody listens at a port."""
    with socket.socket() as line:
        return line.connect_ex((HERE, port)) != 0


def test_a_phone_that_is_let_go_is_let_go_at_once_and_told_why(
    bench: Shared, listen: Listen
) -> None:
    phone, other = bench.phone(), bench.phone()
    streams = listen(phone), listen(other)
    said = bench.bench.post("/api/share/let-go/1", {}).json
    assert [one["number"] for one in said["phones"]] == [2]
    assert phone.get(INNER).json == {"detail": LET_GO}
    assert streams[0].rest()[-1] == LET_GO
    assert streams[1].event() == "share"
    other.edit(NAME, other.version(NAME), ["car", "carpet", "loose"], "14 ± 1")
    assert streams[1].event() == "version"


def test_switching_off_closes_the_listener_and_every_phone(bench: Shared, listen: Listen) -> None:
    phones = [bench.phone(), bench.phone()]
    streams, port = [listen(one) for one in phones], bench.port
    with Log() as log:
        assert bench.bench.post("/api/share/off", {}).json["on"] is False
    assert log.said == ""  # no line was torn
    assert port_is_closed(port)
    for stream in streams:
        assert stream.rest()[-1] == SWITCHED_OFF
    assert len(bench.here.inside.state.feed) == 0
    assert bench.bench.get("/api/share").json["phones"] == []


def test_a_phone_that_does_not_read_does_not_keep_the_listener(
    bench: Shared, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(share_listener, "LEAVE_S", 0.2)
    folder = bench.here.inside.state.benches[NAME].path.parent
    (folder / "page" / "assets" / "big.js").write_bytes(b" " * BIG)
    phone, port = bench.phone(), bench.port
    with socket.create_connection((HERE, port), WAIT_S) as line:
        head = (
            f"GET /assets/big.js HTTP/1.1\r\nHost: {HERE}:{port}\r\nCookie: {phone.cookie}\r\n\r\n"
        )
        line.sendall(head.encode())
        assert line.recv(8) == b"HTTP/1.1"
        assert bench.bench.post("/api/share/off", {}).status == 200
        assert read_to_the_end(line) < BIG


def test_a_phone_of_before_is_not_in_again_when_it_is_switched_on_again(bench: Shared) -> None:
    phone = bench.phone()
    bench.bench.post("/api/share/off", {})
    bench.bench.post("/api/share/on", {})
    key = phone.cookie.partition("=")[2]
    assert Page(bench.port, f"{bench.cookie}={key}").get(INNER).status == 401


def test_nothing_listens_on_the_network_before_it_is_switched_on(bench: Shared) -> None:
    bench.bench.post("/api/share/off", {})
    said = bench.bench.get("/api/share").json
    assert (said["on"], said["code"], said["ways"]) == (False, "", [])
    assert bench.share.addresses == ()


@pytest.mark.parametrize("address", ["127.0.0.1", "127.0.0.2"])
def test_it_listens_on_that_address_only(tmp_path: Path, address: str) -> None:
    with shared(tmp_path, address) as one:
        rows = Path("/proc/net/tcp").read_text().splitlines()[1:]
        where = [row.split()[1] for row in rows if row.split()[3] == "0A"]
        number = "".join(f"{int(part):02X}" for part in reversed(address.split(".")))
        assert [at for at in where if at.endswith(f":{one.port:04X}")] == [
            f"{number}:{one.port:04X}"
        ]


def test_a_bench_that_is_closed_takes_the_network_with_it(tmp_path: Path, listen: Listen) -> None:
    with shared(tmp_path) as one:
        stream, port = listen(one.phone()), one.port
    stream.rest()
    assert port_is_closed(port)


def test_a_machine_that_slept_answers_no_phone(bench: Shared, listen: Listen) -> None:
    phone, port = bench.phone(), bench.port
    stream = listen(phone)
    bench.hands.wall += SLEPT_S + 1
    try:
        assert phone.get(INNER).status in (401, 403)
    except OSError:  # it was seen already, and the listener is closed
        assert port_is_closed(port)
    assert stream.rest()[-1] == SLEPT
    until(lambda: port_is_closed(port))
    assert bench.bench.get("/api/share").json["said"] == SLEPT


def test_lines_that_ask_for_nothing_are_cut(bench: Shared, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(share_listener, "SILENT_S", 0.1)
    with socket.create_connection((HERE, bench.port), WAIT_S) as line:
        line.sendall(b"GET / HT")
        until(lambda: is_cut(line))


def test_one_address_takes_no_more_lines_than_a_few_pages_need(bench: Shared) -> None:
    lines = [socket.create_connection((HERE, bench.port), WAIT_S) for _ in range(MOST_FROM_ONE + 8)]
    try:
        until(lambda: sum(is_cut(one) for one in lines) == 8)
    finally:
        for one in lines:
            one.close()
    until(lambda: bench.stranger().get("/").status == 303)
    assert bench.bench.get(INNER).status == 200


def is_cut(line: socket.socket) -> bool:
    """Return whether the other end has cut a line."""
    line.settimeout(0)
    try:
        return line.recv(1) == b""
    except BlockingIOError:
        return False
    except OSError:
        return True
