"""The verb 'open': a build, or a folder of builds, on the bench in the browser."""

import argparse
import os
import socket
import sys
import webbrowser
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from trimwright.app import Door, Serving, app, shelf
from trimwright.cli.terminal import RefusedError, say

HERE = "127.0.0.1"


def run(asked: argparse.Namespace) -> int:
    """Serve until stopped; say where."""
    if not asked.file.exists():
        raise RefusedError(
            f"{asked.file}: there is no such build. Begin one: trimwright begin FILE"
        )
    folder = asked.file if asked.file.is_dir() else asked.file.parent
    inside = app(shelf(asked.file), folder=folder)
    with _opened(asked.file, asked.port) as listening:
        port = listening.getsockname()[1]
        door = Door(inside, {f"{HERE}:{port}", f"localhost:{port}"})
        address = f"http://{HERE}:{port}/?key={door.key}"
        say(
            "The bench is open in the browser, on this machine only:",
            f"  {address}",
            "Stop with Ctrl-C.",
        )
        sys.stdout.flush()
        if asked.browser:
            webbrowser.open(address)
        with suppress(KeyboardInterrupt):
            Serving(door, inside.state.feed).run(sockets=[listening])
    say("The bench is closed. Every edit is in its file.")
    return 0


def _opened(path: Path, port: int | None) -> socket.socket:
    """Return a socket that listens on a port, or on the path's own: any, if another has that."""
    if port is not None:
        return _listening(port)
    try:
        return _listening(own_port(path))
    except RefusedError:
        return _listening(0)


def own_port(path: Path) -> int:
    """Return the port that a path is served on each time.

    The browser keeps what a page stored by the port: edits that waited when the bench was gone are
    there when it is back.

    References
    ----------
    RFC 6335, section 6: ports 49152 to 65535 are nobody's
    """
    first, last = 49152, 65535
    name = str(path.resolve()).encode("utf-8", "surrogateescape")
    return first + int.from_bytes(sha256(name).digest()[:4], "big") % (last - first + 1)


def _listening(port: int) -> socket.socket:
    """Return a socket that listens on this machine only."""
    made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if os.name == "posix":  # elsewhere it lets another program take the port as well
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind((HERE, port))
        made.listen()  # a browser may come before the server is awake
    except (OSError, OverflowError) as taken:
        made.close()
        why = getattr(taken, "strerror", "") or "there is no such port"
        raise RefusedError(f"port {port}: {why}; try another: --port 0") from None
    return made
