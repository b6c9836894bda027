"""How long reading a whole build file takes once the program is warm."""

from pathlib import Path

import yaml

from bench.command import DEMO, ROOT
from bench.measure import Bench
from trimwright.build import parse

TEXT = (Path(ROOT) / DEMO).read_text("utf-8")


def ours() -> None:
    """Read, check and normalise the demo's build file."""
    parse(TEXT)


def peer() -> None:
    """Read the same text into plain dictionaries."""
    yaml.load(TEXT, Loader=yaml.CSafeLoader)


BENCH = Bench(
    name="read build",
    ours=ours,
    peer=peer,
    peer_says="yaml.load with the C reader, which checks nothing",
)
