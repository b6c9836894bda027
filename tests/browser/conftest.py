"""A bench served from a copy, and a browser to look at it; both are gone when the test is."""

import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from io import BytesIO
from pathlib import Path
from typing import Literal

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Browser, ConsoleMessage, Page, expect, sync_playwright

from start import DEMO
from tests.served_bench import until

EXAMPLE = Path(__file__).resolve().parents[2] / DEMO
CHROMIUM = "chromium"  # Debian's; nothing is fetched for it
HEIGHTS = {390: 844, 820: 1100, 1280: 800}
COLOURS = 255  # of a picture in the docs: enough for a drawing and its marks, and a small file
PATIENCE_MS = 60_000  # on a machine that does other work as well
QUIET = (
    "--no-sandbox",  # the root of a container has none
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-quic",
    "--no-first-run",
)
NOTED = ("net::ERR_", "status of 422", "status of 409")
MAIN = "from trimwright.cli import main; raise SystemExit(main())"

ADDRESS = re.compile(r"http://\S+(?=\s)")

Nursery = subprocess.Popen[str]
Serve = Callable[[Path], str]
Visit = Callable[..., Page]
TakePicture = Callable[[Page, str], Image.Image]


def trimwright(*words: str) -> list[str]:
    """Return the command that runs trimwright with some words."""
    return [sys.executable, "-c", MAIN, *words]


@contextmanager
def served(path: Path) -> Iterator[str]:
    """Serve a build, or a folder of builds, until the end and give the address with its key."""
    with running(path) as (_, address):
        yield address


@contextmanager
def running(path: Path) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """Serve a build, or a folder of builds; give the server and its address."""
    server = subprocess.Popen(  # noqa: S603  our own command
        trimwright("open", str(path), "--no-browser"),
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
        encoding="utf-8",
    )
    try:
        assert server.stdout is not None
        said = ""
        for line in server.stdout:
            said += line
            found = ADDRESS.search(line)
            if found:
                yield server, found.group()
                break
        else:
            pytest.fail(f"the bench did not open: {said}")
    finally:
        server.kill()
        server.communicate()


@pytest.fixture(scope="session")
def nursery(root: Path) -> Iterator[Nursery]:
    """Return the process that the servers of all tests are born of.

    So what Python loads, and what is found in a build as it was copied, is got once and not by each.
    """
    words, pipe = [sys.executable, "-m", "tests.browser.nursery"], subprocess.PIPE
    unbuffered = {**os.environ, "PYTHONUNBUFFERED": "1"}
    with subprocess.Popen(  # noqa: S603  our own command
        words, cwd=root, env=unbuffered, stdin=pipe, stdout=pipe, encoding="utf-8"
    ) as made:
        yield made


@contextmanager
def born(nursery: Nursery, path: Path, said: Path) -> Iterator[str]:
    """Serve a build or a folder from a new child of the nursery, and give the address."""
    assert nursery.stdin is not None
    assert nursery.stdout is not None
    nursery.stdin.write(f"{path}\t{said}\n")
    nursery.stdin.flush()
    child = int(nursery.stdout.readline())
    try:
        until(lambda: ADDRESS.search(said.read_text("utf-8")) is not None, PATIENCE_MS / 1000)
        yield ADDRESS.findall(said.read_text("utf-8"))[0]
    finally:
        os.kill(child, signal.SIGKILL)


@pytest.fixture
def serve(nursery: Nursery, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Serve]:
    """Return what serves a build or a folder until the test ends, and gives its address."""
    with ExitStack() as until_the_end:

        def opened(path: Path) -> str:
            said = tmp_path_factory.mktemp("server") / "said.txt"
            said.touch()
            return until_the_end.enter_context(born(nursery, path, said))

        yield opened


@pytest.fixture
def example(tmp_path: Path) -> Path:
    """Return a copy of the example build, in a folder of its own."""
    return Path(shutil.copy(EXAMPLE, tmp_path))


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Return the browser, without a window."""
    found = shutil.which(CHROMIUM)
    assert found is not None, f"{CHROMIUM} is missing: python3 start.py test says how to get it"
    with sync_playwright() as playwright:
        made = playwright.chromium.launch(executable_path=found, args=list(QUIET))
        yield made
        made.close()


def complaint(said: ConsoleMessage) -> list[str]:
    """Return what a line of the browser's console complains of, and where: nothing if it does not.

    That a test took the connection away, or that the bench refused what was typed, is the browser's
    to note, and none of the page's errors.
    """
    if any(words in said.text for words in NOTED):
        return []
    return [f"{said.text} ({said.location['url']})"] if said.type in ("error", "warning") else []


@pytest.fixture
def visit(browser: Browser, serve: Serve) -> Iterator[Visit]:
    """Return what opens a page at a width, by day or night; it fails on any error of the page.

    A figure that the bench refuses is no error of the page, though a browser's console says so.
    """
    del serve  # asked for so that the page is closed before its server is
    wrong: list[str] = []
    expect.set_options(timeout=PATIENCE_MS)
    with ExitStack() as until_the_end:

        def opened(
            address: str,
            width: int,
            light: Literal["light", "dark"] = "light",
            *,
            touch: bool = False,
        ) -> Page:
            context = browser.new_context(
                viewport={"width": width, "height": HEIGHTS[width]},
                color_scheme=light,
                has_touch=touch,
            )
            until_the_end.callback(context.close)
            page = context.new_page()
            page.set_default_timeout(PATIENCE_MS)
            page.on("pageerror", lambda error: wrong.append(str(error)))
            page.on("console", lambda said: wrong.extend(complaint(said)))
            page.goto(address)
            return page

        yield opened
    assert wrong == []


def few_colours(picture: Image.Image) -> Image.Image:
    """Return a picture in its own most frequent colours, so that paper and the red stay what they are."""
    flat = np.asarray(picture).reshape(-1, 3)
    found, times = np.unique(flat, axis=0, return_counts=True)
    palette = Image.new("P", (1, 1))
    palette.putpalette(found[np.argsort(-times, kind="stable")[:COLOURS]].ravel().tolist())
    return picture.quantize(palette=palette, dither=Image.Dither.NONE)


@pytest.fixture
def take_picture(root: Path, pytestconfig: pytest.Config) -> TakePicture:
    """Return what takes a page's picture, and keeps it for the docs if that was asked for."""

    def taken(page: Page, name: str) -> Image.Image:
        picture = Image.open(BytesIO(page.screenshot(animations="disabled"))).convert("RGB")
        if pytestconfig.getoption("pictures"):
            few_colours(picture).save(root / "docs" / "images" / name, optimize=True)
        return picture

    return taken
