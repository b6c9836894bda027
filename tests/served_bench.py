"""A bench that is served on this machine while a test runs, and a page that asks it."""

import json
import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path
from typing import Any
from urllib.parse import quote

from fastapi import FastAPI

from trimwright.app import PAGE, Door, Serving, Share, app, shelf

HERE = "127.0.0.1"
WAIT_S = 20.0
STEP_S = 0.005
CAR = """build: Larkspur estate, 1974
unit: mm
car:
  carpet:
    loose: 15 ± 1
    squeezed by hand: 6
  tunnel:
    - at: 300 behind
      height above floor: 180
      width at shoulder: 190
      width at floor: 330
    - at: 500 behind
      height above floor: 180
      width at shoulder: 190
      width at floor: 330
"""
Json = Any


@dataclass(frozen=True)
class Answer:
    """What the server said."""

    status: int
    headers: dict[str, str]
    body: bytes

    @property
    def json(self) -> Json:
        """The body read as JSON."""
        return json.loads(self.body)


@dataclass
class Page:
    """Asks as our own page does, with the session's cookie."""

    port: int
    cookie: str
    host: str = HERE
    more: dict[str, str] = field(default_factory=dict)

    def ask(self, method: str, path: str, body: bytes | None = None, **headers: str) -> Answer:
        """Ask anything; headers with '_' for '-'; an empty one is left out."""
        ours = {
            "Host": f"{self.host}:{self.port}",
            "Origin": f"http://{self.host}:{self.port}" if method not in ("GET", "HEAD") else "",
            "Cookie": self.cookie,
            "Content-Type": "application/json" if body is not None else "",
            **self.more,
            **{name.replace("_", "-"): value for name, value in headers.items()},
        }
        line = HTTPConnection(self.host, self.port, timeout=WAIT_S)
        try:
            line.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
            for name, value in ours.items():
                if value:
                    line.putheader(name, value)
            if body is not None:
                line.putheader("Content-Length", str(len(body)))
            line.endheaders(body)
            got: HTTPResponse = line.getresponse()
            said = {name.lower(): value for name, value in got.getheaders()}
            return Answer(got.status, said, got.read())
        finally:
            line.close()

    def get(self, path: str) -> Answer:
        """Ask for something."""
        return self.ask("GET", path)

    def post(self, path: str, message: Json) -> Answer:
        """Send a message."""
        return self.ask("POST", path, json.dumps(message).encode())

    def edit(self, name: str, base: str, path: list[str | int], value: str | None) -> Answer:
        """Make one edit to a version."""
        edits = [{"path": path, "value": value}]
        message = {"base": base, "edits": edits, "says": f"Set {path[-1]}"}
        return self.post(f"/api/builds/{quote(name)}/edits", message)

    def version(self, name: str) -> str:
        """Return the version of a build."""
        said: str = self.get(f"/api/builds/{quote(name)}").json["version"]
        return said

    @contextmanager
    def events(self, most_s: float = WAIT_S) -> Iterator[Iterator[tuple[str, str, str]]]:
        """Listen to the news: what happened, to which build, its version; each within a time."""
        line = HTTPConnection(self.host, self.port, timeout=most_s)
        line.request(
            "GET",
            "/api/events",
            headers={"Cookie": self.cookie, "Host": f"{self.host}:{self.port}"},
        )
        got = line.getresponse()
        try:
            yield _events(got)
        finally:
            if line.sock is not None:
                line.sock.shutdown(socket.SHUT_RDWR)
            got.close()
            line.close()


def _events(got: HTTPResponse) -> Iterator[tuple[str, str, str]]:
    event = ""
    for raw in got:
        line = raw.decode().strip()
        if line.startswith("event: "):
            event = line.removeprefix("event: ")
        elif line.startswith("data: "):
            told = json.loads(line.removeprefix("data: "))
            yield event, told["name"], told["version"]


@dataclass(frozen=True)
class Served:
    """A server that runs: what is inside, its door, and where."""

    inside: FastAPI
    door: Door
    port: int

    def page(self) -> Page:
        """Return another page with the session's key."""
        return Page(self.port, f"{self.door.cookie}={self.door.key}")


@contextmanager
def served(path: Path, page: Path = PAGE, share: Share | None = None) -> Iterator[Served]:
    """Serve a file or folder until the block ends; the server must then stop by itself.

    What is shared meanwhile is shared on this machine only.
    """
    inside = app(shelf(path), page, share=share or Share(lambda: (HERE,)))
    with socket.create_server((HERE, 0)) as listening:
        port = listening.getsockname()[1]
        door = Door(inside, {f"{HERE}:{port}", f"localhost:{port}"})
        serving = Serving(door, inside.state.feed)
        thread = threading.Thread(target=serving.run, args=([listening],))
        thread.start()
        until(lambda: serving.started)
        try:
            yield Served(inside, door, port)
        finally:
            serving.should_exit = True
            thread.join(WAIT_S)
            assert not thread.is_alive()


def until(done: Callable[[], bool], most_s: float = WAIT_S) -> None:
    """Wait until something is so."""
    for _ in range(int(most_s / STEP_S)):
        if done():
            return
        pause(STEP_S)
    raise AssertionError("it did not come about in time")


def pause(for_s: float) -> None:
    """Let others go on for a while."""
    threading.Event().wait(for_s)
