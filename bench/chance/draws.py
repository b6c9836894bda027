"""Processor time of the draws and of what is made of them: `python bench/chance/draws.py`."""

from collections.abc import Callable
from functools import partial
from time import process_time

import numpy as np

from trimwright.chance import ProbeReading, condition, least_shift, re_measure, shares, sobol_scores


def best_ms(act: Callable[[], object], times: int = 5) -> float:
    """Return the shortest of several processor times [ms]."""
    found = []
    for _ in range(times):
        begun = process_time()
        act()
        found.append(process_time() - begun)
    return 1000 * min(found)


def main() -> None:
    """Print the times for 40 and 150 factors."""
    for factors in (40, 150):
        scores = sobol_scores(factors, seed=1)
        margins = scores @ np.random.default_rng(1).standard_normal((factors, 9)) * 0.2 - 0.5
        effects = np.eye(9)[:, :3] + 0.2
        readings = [ProbeReading(0.0, 0.5), ProbeReading(-1.0, 0.5, "at least")]
        acts: dict[str, Callable[[], object]] = {
            "draws": partial(sobol_scores, factors, seed=1),
            "shares": partial(shares, scores, margins),
            "re-measure": partial(re_measure, scores, margins[:, 0], 0, 0.5, 0.95),
            "condition": partial(condition, scores, margins[:, :2], readings, 1),
            "three cuts": partial(
                least_shift, margins[:, :3], effects[:3], np.ones(3), np.full(3, 20.0), 0.9
            ),
        }
        for name, act in acts.items():
            print(f"{factors:4d} factors  {name:12s} {best_ms(act):8.1f} ms")


if __name__ == "__main__":
    main()
