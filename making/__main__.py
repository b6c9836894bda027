"""Runs one of the page's tools: `python -m making vitest run`."""

import sys
from pathlib import Path

from making.npm import CannotMakeError
from making.page import TOOLS, run_tool

ROOT = Path(__file__).resolve().parent.parent


def main(arguments: list[str]) -> int:
    """Run the tool that is named first with the other arguments and return its exit code."""
    if not arguments or arguments[0] not in TOOLS:
        sys.stderr.write(f"name one of {', '.join(TOOLS)}\n")
        return 2
    try:
        code, said = run_tool(ROOT, *arguments)
    except CannotMakeError as reason:
        sys.stderr.write(f"the page's tools cannot be had: {reason}\n")
        return 2
    sys.stdout.write(said)
    return code


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
