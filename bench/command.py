"""Running a command as a piece of work."""

import os
import subprocess
import sys
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parent.parent
DEMO = "examples/dunlin/first-measured.yaml"
STOPS = 1  # the exit code of a check that found something which stops the build


@cache
def _compiled() -> TemporaryDirectory[str]:
    """Return a folder for what Python compiles, thrown away when this process ends."""
    return TemporaryDirectory()


def python(*arguments: str) -> None:
    """Run Python in a process of its own, in the project's folder.

    Modules are compiled once for all runs, as they are where a program was installed.

    Raises
    ------
    CalledProcessError
        If it ends with anything but 0 or 1: a time for work not done says nothing.
    """
    env = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    env["PYTHONPYCACHEPREFIX"] = _compiled().name
    done = subprocess.run(  # noqa: S603  our own commands
        [sys.executable, *arguments], cwd=ROOT, env=env, capture_output=True, check=False
    )
    if done.returncode not in (0, STOPS):
        done.check_returncode()


def trimwright(*arguments: str) -> None:
    """Run the command line in a process of its own."""
    python("-c", "from trimwright.cli import program; program()", *arguments)
