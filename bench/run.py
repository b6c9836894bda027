"""Runs the benches by hand: `python -m bench.run`, or with the names of some."""

import argparse
from time import perf_counter

from bench import (
    cold_check,
    edit,
    growth,
    interlock,
    network,
    panels,
    print_paper,
    read_build,
    start_up,
    wiring,
)
from bench.measure import Bench, processor_time, timing

BENCHES: tuple[Bench, ...] = (
    start_up.BENCH,
    cold_check.BENCH,
    edit.NOMINAL,
    edit.CHANCES,
    print_paper.BENCH,
    panels.BENCH,
    panels.GIVEN,
    read_build.BENCH,
    growth.SECTIONS,
    growth.POINTS,
    growth.PANELS,
    growth.DRAWS,
    interlock.RULE,
    interlock.FAULTS,
    network.NODES,
    network.STATES,
    wiring.STATES,
    wiring.FAULTS,
)
CLOCKS = {"wall": perf_counter, "processor": processor_time}


def main() -> None:
    """Run the benches that are named, all if none is, and print a line for each."""
    by_name = {bench.name: bench for bench in BENCHES}
    parser = argparse.ArgumentParser(prog="bench.run", description="Medians, and ratios to a peer.")
    parser.add_argument("names", nargs="*", metavar="name", help=", ".join(by_name))
    parser.add_argument("--turns", type=int, default=7, help="how often each is timed")
    parser.add_argument("--clock", choices=CLOCKS, default="wall", help="which time is taken")
    asked = parser.parse_args()
    unknown = sorted(set(asked.names) - set(by_name))
    if unknown:
        parser.error(f"no bench is called {', '.join(unknown)}; there are: {', '.join(by_name)}")
    for name in asked.names or by_name:
        bench = by_name[name]
        found = timing(bench, asked.turns, CLOCKS[asked.clock])
        print(f"{name}: {found.ours_s:.3f} s; {found.ratio:.2f} times {bench.peer_says}", end=" ")
        print(f"({found.peer_s:.3f} s)", flush=True)


if __name__ == "__main__":
    main()
