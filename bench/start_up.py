"""How long the command takes to say how it is used."""

from bench.command import python, trimwright
from bench.measure import Bench

BENCH = Bench(
    name="start-up",
    ours=lambda: trimwright("--help"),
    peer=lambda: python("-c", "import argparse"),
    peer_says="Python with argparse",
)
