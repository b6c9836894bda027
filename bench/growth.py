"""How the work grows: the same with twice as many sections, points, panels or draws.

A ratio of 2 is growth in step with the size; the peer is our own work at half the size.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import cache, partial
from itertools import count
from pathlib import Path

import numpy as np

from bench.command import DEMO, ROOT
from bench.measure import Bench
from bench.panels import PLAN, round_tunnel
from trimwright.build import load, parse
from trimwright.cabin import cabin
from trimwright.car import Unmeasured
from trimwright.chance import sobol_scores
from trimwright.fit import GapModel
from trimwright.parts import BulkheadPlan, carcass

FEW, SEED = 6, 7
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
    moved = next(NUMBERS) / 100
    places = np.linspace(0.0, LONG_MM, sections) + moved
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
    at = np.linspace(40.0, 640.0, bulkheads)
    plans = tuple(BulkheadPlan(f"cross {k}", float(x), "butt") for k, x in enumerate(at))
    made = carcass(replace(PLAN, bulkheads=plans, openings=()), round_tunnel())
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
POINTS = _bench("growth, 24 points a side", lambda rows: tunnel(FEW, rows), 12)
PANELS = _bench("growth, 16 bulkheads", console, 8)
DRAWS = _bench("growth, 8 x 512 draws", draws, 256)
