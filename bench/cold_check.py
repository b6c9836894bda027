"""How long a check of the demo takes in a process that has read nothing yet."""

from bench.command import DEMO, python, trimwright
from bench.measure import Bench

BENCH = Bench(
    name="cold check",
    ours=lambda: trimwright("check", DEMO),
    peer=lambda: python("-c", "import numpy, pydantic, yaml"),
    peer_says="importing numpy, pydantic and yaml",
)
