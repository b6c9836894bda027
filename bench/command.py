"""Running a command as a piece of work."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
DEMO = "examples/dunlin/first-measured.yaml"
STOPS = 1  # the exit code of a check that found something which stops the build


def python(*arguments: str) -> None:
    """Run Python in a process of its own, in the project's folder.

    Raises
    ------
    CalledProcessError
        If it ends with anything but 0 or 1: a time for work not done says nothing.
    """
    done = subprocess.run(  # noqa: S603  our own commands
        [sys.executable, *arguments], cwd=ROOT, capture_output=True, check=False
    )
    if done.returncode not in (0, STOPS):
        done.check_returncode()


def trimwright(*arguments: str) -> None:
    """Run the command line in a process of its own."""
    python("-c", "import sys; from trimwright.cli import main; sys.exit(main())", *arguments)
