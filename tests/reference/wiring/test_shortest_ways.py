"""Shortest ways along trunks against scipy.sparse.csgraph.dijkstra on random networks."""

import numpy as np
import pytest
from scipy.sparse import coo_array
from scipy.sparse.csgraph import dijkstra

from trimwright.build import Trunk, Wiring
from trimwright.quantities import Quantity
from trimwright.wiring.loom import routes_from

PLACES = 14


@pytest.mark.parametrize("seed", range(40))
def test_ways_are_as_short_as_the_library_finds(seed: int) -> None:
    rng = np.random.default_rng(seed)
    pairs = [(a, b) for a in range(PLACES) for b in range(a) if rng.random() < 0.2]
    long = rng.integers(50, 3000, len(pairs)).astype(float)
    trunks = tuple(
        Trunk(start=f"p{a}", end=f"p{b}", long=Quantity(float(mm)))
        for (a, b), mm in zip(pairs, long, strict=True)
    )
    rows, columns = np.array(pairs).reshape(-1, 2).T
    graph = coo_array((long, (rows, columns)), shape=(PLACES, PLACES))
    known = dijkstra(graph, directed=False, indices=0)
    found = routes_from("p0", Wiring(trunks=trunks))
    for place in range(PLACES):
        if np.isfinite(known[place]):
            route = found[f"p{place}"]
            assert route.long_mm == pytest.approx(known[place], abs=1e-9)
            assert sum(long[n] for n in route.trunks) == pytest.approx(route.long_mm)
        else:
            assert f"p{place}" not in found
