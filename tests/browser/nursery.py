"""A process that servers are born of: the bench is loaded in it, and what is found is worked out.

Each line that it reads names a build, or a folder of builds, and the file for what its server says,
with a tab between. It answers with the number of the process that serves.
"""

import os
import signal
import sys
from contextlib import suppress
from pathlib import Path

from trimwright.build import InputError, parse
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.cli import main


def work_out(path: Path) -> None:
    """Work out what is found in the builds, once for all servers that are born after."""
    for file in sorted(path.glob("*.yaml")) if path.is_dir() else [path]:
        with suppress(InputError):
            all_findings(cabin(parse(file.read_text("utf-8")).build))


def born(path: Path, said: Path) -> int:
    """Return the number of a new process, in which the command line opens the bench."""
    child = os.fork()
    if child:
        return child
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    with said.open("w") as words:
        os.dup2(words.fileno(), 1)
        os.dup2(words.fileno(), 2)
    os._exit(main(["open", str(path), "--no-browser"]))


if __name__ == "__main__":
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # nobody asks how a server ended
    for line in sys.stdin:
        path, said = map(Path, line.rstrip("\n").split("\t"))
        work_out(path)
        sys.stdout.write(f"{born(path, said)}\n")
        sys.stdout.flush()
