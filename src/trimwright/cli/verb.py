"""The verbs: what each asks for, and the one way out of every mistake."""

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from pathlib import Path
from typing import Never

from trimwright import __version__
from trimwright.cli.terminal import RefusedError, complain, wrapped

FINE, STOPS, WRONG_INPUT = 0, 1, 2
LARGEST_PIECE = 30 << 20  # bytes; never touched, so nothing is taken for it

# verb: what it does, and the options it takes beside the file
VERBS: dict[str, str] = {
    "begin": "write a new build file with the first twelve readings to fill in",
    "check": "say what fits, what does not, and what to do about it",
    "why": "tell the physics, the assumptions and the source behind one finding",
    "apply": "write a finding's remedy into the file",
    "undo": "take back the last edit of the file",
    "redo": "make the edit again that was taken back",
    "enter": "write readings of a test fit into the file",
    "print": "write the shop paper into a folder",
    "figures": "print computed figures by name",
    "open": "open the bench in the browser, on a build or a folder of builds",
}


class _Parser(argparse.ArgumentParser):
    """A parser that raises instead of leaving the program."""

    def error(self, message: str) -> Never:
        """Raise what argparse has to say."""
        raise RefusedError(f"{message}\n{self.format_usage().strip()}")


def _parser() -> argparse.ArgumentParser:
    """Return the parser of all verbs."""
    parser = _Parser(
        prog="trimwright",
        description="Does the console go in, and what must be cut before it is covered.",
        formatter_class=lambda prog: argparse.HelpFormatter(prog, width=79),
    )
    parser.add_argument("--version", action="version", version=f"trimwright {__version__}")
    verbs = parser.add_subparsers(dest="verb", metavar="VERB", required=True, parser_class=_Parser)
    made = {}
    for verb, says in VERBS.items():
        one = verbs.add_parser(verb, help=says, description=says.capitalize() + ".")
        one.add_argument("file", metavar="FILE", type=Path, help="the build file")
        made[verb] = one
    made["begin"].add_argument(
        "--unit", choices=("mm", "in"), default="mm", help="your tape's unit"
    )
    made["begin"].add_argument("--name", default="", help="what the build is called")
    made["why"].add_argument("finding", metavar="FINDING", help="its number, or words of its place")
    made["apply"].add_argument(
        "finding", metavar="FINDING", help="its number, or words of its place"
    )
    made["apply"].add_argument(
        "--way",
        type=int,
        default=1,
        metavar="N",
        help="which of its remedies, the first if left out",
    )
    made["enter"].add_argument(
        "readings",
        metavar="READING",
        nargs="+",
        help="such as: 'nose left: 2' or 'left wall at 420 behind: touches the carpet'",
    )
    made["print"].add_argument("--into", type=Path, default=Path("shop-paper"), metavar="FOLDER")
    made["print"].add_argument("--on", choices=("a4", "letter"), default="a4", help="paper size")
    made["print"].add_argument("--only", default="", metavar="SHEET", help="one sheet, by its name")
    made["open"].add_argument("--port", type=int, help="if left out, the same each time")
    made["open"].add_argument(
        "--no-browser", dest="browser", action="store_false", help="only print the address"
    )
    made["figures"].add_argument("name", nargs="?", default="", help="a name or the start of one")
    made["figures"].add_argument("--json", action="store_true", help="as JSON")
    return parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one verb.

    Parameters
    ----------
    arguments : sequence of str, optional
        Words after the program's name; those of the process if left out.

    Returns
    -------
    int
        0 fine, 1 something stops, 2 wrong input.
    """
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(encoding="utf-8", errors="replace")
    try:
        asked = _parser().parse_args(arguments)
    except RefusedError as refused:
        return _refused(str(refused))
    except SystemExit as left:  # --help and --version print and leave
        return int(left.code or 0)
    return _run(asked)


def program() -> Never:
    """Run the verb that this process was called for, and end the process with its exit code."""
    if sys.argv[1:2] == ["open"]:  # stays until it is stopped
        sys.exit(main())
    _uncollected()
    code = main()
    try:
        sys.stdout.flush()
        sys.stderr.flush()
    except BrokenPipeError:  # whoever listened has gone
        pass
    except OSError as refused:
        code = _refused(f"what was said could not be written: {refused.strerror or refused}")
    os._exit(code)  # the system takes back what it holds sooner than Python would look through it


def _uncollected() -> None:
    """Leave Python's collector off where the process is one verb: what it holds ends with it."""
    gc.disable()
    # the C library hands back what arrays leave, to ask for it again at once, until it has seen
    # one piece as large as this come and go
    bytes(LARGEST_PIECE)


def _run(asked: argparse.Namespace) -> int:
    """Run the verb that was asked for; whatever goes wrong ends in words."""
    from trimwright.build import ConflictError, InputError  # noqa: PLC0415  --help stays fast

    try:
        run: Callable[[argparse.Namespace], int]
        run = import_module(f"trimwright.cli.{asked.verb}_verb").run
        return run(asked)
    except (RefusedError, InputError, ConflictError) as refused:
        return _refused(str(refused))
    except BrokenPipeError:
        return FINE
    except KeyboardInterrupt:
        return _refused("Stopped. What was written so far stays as it is.")
    except OSError as refused:
        return _refused(f"{refused.filename or 'a file'}: {refused.strerror or refused}")
    except Exception as broken:  # noqa: BLE001  the face: a builder never meets a traceback
        return _refused(
            "This is a fault of the program, not of your file; your file is as it was.\n"
            f"  {type(broken).__name__}: {broken}\n"
            "  Please report it with your build file."
        )


def _refused(words: str) -> int:
    """Print why not, wrapped, and return the exit code for it."""
    for line in words.splitlines():
        indent = line[: len(line) - len(line.lstrip())]
        complain(*wrapped(line.strip(), indent, indent + "    "))
    return WRONG_INPUT
