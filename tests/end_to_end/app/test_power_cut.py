"""A server that is ended at any moment, under a stream of edits: what was told is kept."""

import os
import random
import signal
import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from functools import partial
from http.client import HTTPException
from itertools import count
from pathlib import Path

from tests.served_bench import CAR, HERE, Page, pause, until
from trimwright.build import History, load, written

KILLS, FILES = 200, 4  # files that are edited side by side
LONGEST_S = 0.08  # several edits fall into a life
LOOSE: list[str | int] = ["car", "carpet", "loose"]
ONE_BIRTH = threading.Lock()
KEY = "a-key-for-this-test"
# starts once, then gives birth to a server for each line it reads; each serves until it is ended
NURSERY = f"""
import os, signal, socket, sys
from pathlib import Path
from trimwright.app import Door, Serving, app, shelf
signal.signal(signal.SIGCHLD, signal.SIG_IGN)
for line in sys.stdin:
    listening = socket.create_server(({HERE!r}, 0))
    port = listening.getsockname()[1]
    child = os.fork()
    if not child:
        inside = app(shelf(Path(line.strip())))
        Serving(Door(inside, {{f"{HERE}:{{port}}"}}, {KEY!r}), inside.state.feed).run([listening])
        os._exit(0)
    listening.close()
    print(child, port, flush=True)
"""


def _stream(page: Page, first: int, told: list[int]) -> None:
    """Edit until the server is gone; note every edit that it said was made."""
    with suppress(OSError, HTTPException):  # cut off in the middle of an answer
        base = page.version("car")
        for number in count(first):
            said = page.edit("car", base, LOOSE, f"{number}")
            assert said.status == 200, said.body
            base = said.json["version"]
            told.append(number)


def _gone(child: int) -> bool:
    """Return whether a process has ended altogether."""
    try:
        os.kill(child, 0)
    except ProcessLookupError:
        return True
    return False


def _life(nursery: "subprocess.Popen[str]", file: Path, first: int, chance: random.Random) -> int:
    """Let a server live for a moment under a stream of edits; return the last that it told of."""
    assert nursery.stdin is not None
    assert nursery.stdout is not None
    with ONE_BIRTH:
        nursery.stdin.write(f"{file}\n")
        nursery.stdin.flush()
        child, port = (int(one) for one in nursery.stdout.readline().split())
    told: list[int] = []
    page = Page(port, f"trimwright-{port}={KEY}")
    stream = threading.Thread(target=_stream, args=(page, first, told))
    stream.start()
    if chance.random() < 0.9:  # else it may be ended before it is awake
        with suppress(AssertionError):
            until(lambda: bool(told), 5)
    pause(chance.uniform(0, LONGEST_S))
    os.kill(child, signal.SIGKILL)
    until(lambda: _gone(child))
    stream.join(20)
    assert not stream.is_alive()
    return told[-1] if told else first - 1


def _lives(nursery: "subprocess.Popen[str]", file: Path) -> int:
    """Let servers live one after another on a file; return how many told of an edit."""
    file.write_text(CAR.replace("15 ± 1", "100"), encoding="utf-8")
    first = file.read_text(encoding="utf-8")
    chance, held, lives = random.Random(file.name), 100, 0  # noqa: S311  moments, no secrets
    for _ in range(KILLS // FILES):
        told = _life(nursery, file, held + 1, chance)
        lives += told > held
        held = int(written(load(file).text)[tuple(LOOSE)])
        assert told <= held <= told + 1  # at most the one under way that nobody was told of
    history = History(file)
    versions = history.list()
    assert len(versions) >= held - 100
    now = history.current()
    assert now is not None
    # the last may have been entered and never written: then it is there to be made again
    for _ in range(versions.index(now)):
        history.undo()
    assert file.read_text(encoding="utf-8") == first
    for version in versions[1:]:
        assert history.redo() == version
    assert int(written(load(file).text)[tuple(LOOSE)]) >= held
    return lives


def test_no_edit_that_was_told_is_lost_in_200_kills(tmp_path: Path) -> None:
    files = [tmp_path / str(number) / "car.yaml" for number in range(FILES)]
    for file in files:
        file.parent.mkdir()
    words, pipe = [sys.executable, "-c", NURSERY], subprocess.PIPE
    with (
        subprocess.Popen(words, stdin=pipe, stdout=pipe, text=True) as nursery,  # noqa: S603  our own
        ThreadPoolExecutor(FILES) as hands,
    ):
        lives = list(hands.map(partial(_lives, nursery), files))
        nursery.communicate()
    assert sum(lives) > KILLS / 2
