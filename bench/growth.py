"""How the work grows: the same with twice as many sections, points, panels or draws.

A ratio of 2 is growth in step with the size; the peer is our own work at half the size. No turn
asks for what one before has asked for, as that would be kept. `python -m bench.growth --plot FILE`
times each at several sizes and draws the chart.
"""

import argparse
import statistics
from collections.abc import Callable
from functools import cache, partial
from itertools import count
from pathlib import Path

import numpy as np
from msgspec.structs import replace

from bench.command import DEMO, ROOT
from bench.growth_chart import Series, growth_chart
from bench.measure import Bench, processor_time
from bench.panels import moved, round_tunnel
from trimwright.build import load, parse
from trimwright.cabin import cabin
from trimwright.car import Unmeasured
from trimwright.chance import sobol_scores
from trimwright.fit import GapModel
from trimwright.parts import BulkheadPlan, carcass

FEW, SEED, TURNS = 6, 7, 7
LONG_MM, HIGH_MM = 900.0, 150.0
NUMBERS = count(1)


def _section(at_mm: float, rows: int) -> str:
    """Return a half-round section, read on so many rows, as text."""
    lines = [
        f"    - at: {at_mm:.2f} behind",
        "      over: bare metal",
        "      top: 300 below string",
    ]
    for down in np.linspace(10.0, HIGH_MM, rows):
        half = np.sqrt(HIGH_MM**2 - (HIGH_MM - down) ** 2)
        lines.append(f"      down {down:.1f}: {{left: {half:.1f}, right: {half:.1f}}}")
    return "\n".join(lines)


def tunnel(sections: int, rows: int) -> None:
    """Read a tunnel of a size, loft it and drop plumb lines that follow every reading."""
    places = np.linspace(0.0, LONG_MM, sections) + next(NUMBERS) / 100
    text = "\n".join(
        [
            "format: 1",
            "build: half round",
            "unit: mm",
            "car:",
            "  datum:",
            "    marks: two lines on the sills",
            "    string above tunnel: 300",
            "    top of tunnel here: bare metal",
            "  tunnel:",
            *(_section(float(at), rows) for at in places),
        ]
    )
    found = cabin(parse(text).build).tunnel
    if isinstance(found, Unmeasured):
        raise found
    x = np.linspace(places[0], places[-1], 100)
    if np.isnan(found.plumb(x, np.full_like(x, 40.0)).z).any():
        raise ValueError("the plumb lines must meet the tunnel")


def console(bulkheads: int) -> None:
    """Make the panels of a console with so many bulkheads."""
    at = np.linspace(40.0, 640.0, bulkheads) + next(NUMBERS) / 100
    plans = tuple(BulkheadPlan(f"cross {k}", float(x), "butt") for k, x in enumerate(at))
    made = carcass(replace(moved(), bulkheads=plans, openings=()), round_tunnel())
    if made.unbuildable:
        raise ValueError(f"the console must be buildable, got {made.unbuildable}")


@cache
def _model() -> GapModel:
    found = cabin(load(Path(ROOT) / DEMO).build).model
    if found is None:
        raise ValueError("the demo must have gaps")
    return found


def draws(each: int) -> None:
    """Evaluate every gap of the demo over eight scrambles of so many draws."""
    model = _model()
    model.evaluate(sobol_scores(len(model.ledger), scrambles=8, each=each, seed=SEED))


def _bench(name: str, work: Callable[[int], None], size: int) -> Bench:
    return Bench(name, partial(work, 2 * size), partial(work, size), f"the same with {size}")


SECTIONS = _bench(f"growth, {2 * FEW} sections", partial(tunnel, rows=8), FEW)
POINTS = _bench("growth, 24 points a side", partial(tunnel, FEW), 12)
PANELS = _bench("growth, 16 bulkheads", console, 8)
DRAWS = _bench("growth, 8 x 512 draws", draws, 256)
Charts = tuple[tuple[str, str, Callable[[int], None], tuple[int, ...]], ...]
CHARTS: Charts = (
    ("Tunnel lofted and probed", "sections", partial(tunnel, rows=8), (3, 6, 12, 24, 48)),
    (
        "Tunnel lofted and probed",
        "readings a side of each section",
        partial(tunnel, FEW),
        (6, 12, 24, 48),
    ),
    ("Panels of a console", "bulkheads", console, (2, 4, 8, 16, 32)),
    ("Every gap evaluated", "draws in each of eight scrambles", draws, (64, 128, 256, 512, 1024)),
)


def series(name: str, of: str, work: Callable[[int], None], sizes: tuple[int, ...]) -> Series:
    """Return the median processor time of work at each size, the sizes taking turns."""
    took = dict[int, list[float]]({size: [] for size in sizes})
    for turn in range(TURNS + 1):
        for size in sizes:
            begun = processor_time()
            work(size)
            if turn:  # the first is not counted
                took[size].append(1000 * (processor_time() - begun))
    return Series(name, of, sizes, tuple(statistics.median(took[size]) for size in sizes))


def plotted(program: str, charts: Charts) -> None:
    """Time each work at each size, print the times, and draw the chart."""
    parser = argparse.ArgumentParser(prog=program, description="How the work grows.")
    parser.add_argument("--plot", type=Path, required=True, help="file for the chart, as SVG")
    asked = parser.parse_args()
    found = [series(*one) for one in charts]
    for one in found:
        times = zip(one.sizes, one.took_ms, strict=True)
        print(f"{one.of}: {', '.join(f'{size}: {ms:.1f} ms' for size, ms in times)}")
    asked.plot.write_text(growth_chart(found), "utf-8")


if __name__ == "__main__":
    plotted("bench.growth", CHARTS)
