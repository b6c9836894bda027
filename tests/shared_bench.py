"""A bench that is shared while a test runs, and phones that knock; all on this machine."""

import asyncio
import logging
from collections.abc import Coroutine, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Self

from tests.served_bench import CAR, HERE, Answer, Page, Served, served
from trimwright.app import Share
from trimwright.app.share.sharing import Clocks

PAIRING = "/pair.html"
LOGGERS = ("uvicorn", "uvicorn.access")
INNER, NAME = "/api/builds", "larkspur"


@dataclass
class Hands:
    """The hands of both clocks, moved by the test [s]."""

    steady: float = 1000.0
    wall: float = 1_700_000_000.0

    def clocks(self) -> Clocks:
        """Return clocks that show them."""
        return Clocks(lambda: self.steady, lambda: self.wall)


@dataclass
class Shared:
    """A bench on the network: its server, and clocks that stand still."""

    here: Served
    hands: Hands
    bench: Page = field(init=False)

    def __post_init__(self) -> None:
        """Take the bench's own page."""
        self.bench = self.here.page()

    @property
    def share(self) -> Share:
        """What shares it."""
        found: Share = self.here.inside.state.share
        return found

    @property
    def port(self) -> int:
        """Where phones knock."""
        return int(self.share.addresses[0].rpartition(":")[2])

    @property
    def cookie(self) -> str:
        """The name of a phone's cookie."""
        return f"trimwright-{self.port}"

    def code(self) -> str:
        """Put up a new code and return it."""
        said: str = self.bench.post("/api/share/code", {}).json["code"]
        return said

    def stranger(self, agent: str = "") -> Page:
        """Return a phone that is not paired."""
        return Page(self.port, "", more={"User-Agent": agent})

    def pair(self, phone: Page, code: str) -> Answer:
        """Let a phone bring a code; it keeps the cookie that it gets."""
        said = phone.post("/api/pair", {"code": code})
        if "set-cookie" in said.headers:
            phone.cookie = said.headers["set-cookie"].split(";")[0]
        return said

    def phone(self) -> Page:
        """Return another phone that is paired."""
        made = self.stranger()
        assert self.pair(made, self.code()).status == 200
        return made


def page_folder(folder: Path) -> Path:
    """Write a built page that is as small as can be, with a file beside it that is not for pages."""
    (folder / "secret.txt").write_text("not for pages", encoding="utf-8")
    page = folder / "page"
    (page / "assets").mkdir(parents=True)
    (page / "index.html").write_text("<!doctype html><title>bench</title>", encoding="utf-8")
    (page / "pair.html").write_text("<!doctype html><title>pair</title>", encoding="utf-8")
    (page / "assets" / "bench.js").write_text("'use strict'", encoding="utf-8")
    (page / "out.txt").symlink_to(folder / "secret.txt")
    (page / "assets" / "out.txt").symlink_to(folder / "secret.txt")
    return page


def run(work: Coroutine[Any, Any, None]) -> None:
    """Run something in a loop of its own: the browser of other tests may have one in this thread."""
    with ThreadPoolExecutor(1) as thread:
        thread.submit(asyncio.run, work).result()


class Log(logging.Handler):
    """What the server would print while a block runs."""

    def __init__(self) -> None:
        super().__init__()
        self.said = ""

    def emit(self, record: logging.LogRecord) -> None:
        """Keep a line."""
        self.said += f"{record.getMessage()}\n"

    def __enter__(self) -> Self:
        """Listen to its loggers."""
        for name in LOGGERS:
            logging.getLogger(name).addHandler(self)
        return self

    def __exit__(self, *_: object) -> None:
        """Listen no more."""
        for name in LOGGERS:
            logging.getLogger(name).removeHandler(self)


@contextmanager
def shared(folder: Path, address: str = HERE) -> Iterator[Shared]:
    """Serve a build of a folder and share it until the block ends."""
    (folder / f"{NAME}.yaml").write_text(CAR, encoding="utf-8")
    hands = Hands()
    share = Share(lambda: (address,), hands.clocks())
    with served(folder / f"{NAME}.yaml", page_folder(folder), share) as here:
        found = Shared(here, hands)
        assert found.bench.post("/api/share/on", {}).status == 200
        yield found
