"""Free places worth probing at a test fit: where a reading settles most of what is in doubt."""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.build import ProbePlace
from trimwright.fit.free_place import ProbedEdge, told
from trimwright.fit.gap import Point
from trimwright.fit.model import GapModel
from trimwright.fit.probed_edge import probed_edges
from trimwright.fit.probing import FEELER_SIGMA_MM, Asked, Forecast
from trimwright.fit.source import Source
from trimwright.fit.verdict import Outcome
from trimwright.quantities import Unit

Floats = NDArray[np.float64]
ROWS = 512  # of the draws: what is worth probing is wanted to a tenth
STEPS_MM: dict[Unit, tuple[float, ...]] = {
    "mm": (60.0, 20.0, 10.0, 5.0),
    "in": (50.8, 25.4, 12.7, 6.35),
}  # finer on a short edge
FEWEST = 3  # places along an edge
LEAST_SETTLED = 0.02  # of all that is unsettled, below which a place is not worth probing
CALM = 0.01  # weight of a gap that is as good as settled: it breaks ties
SEEN = ("carpet", "seat", "dash")  # hidden edges and metal under carpet are not offered


class WorthProbing(Struct, frozen=True):
    """One free place: the words for it, what to expect there on bare wood, what it settles.

    `low` and `high` are the 5 % and 95 % figures [mm], `narrower` the share of the named gap's
    variance that a reading there takes away once those before it have been read.
    """

    words: str
    low: float
    high: float
    settles: str
    narrower: float
    at: Point


def worth_probing(bare: GapModel, found: Outcome, most: int) -> tuple[WorthProbing, ...]:
    """Return the free places most worth probing, each the best after those before it.

    Forecasts and margins are taken as normal. A gap counts by how unsettled it is, 4 p (1 - p)
    for a certainty p; what a reading of a folded card's doubt leaves of each is what Kalman's
    update leaves.

    Parameters
    ----------
    bare : GapModel
        Of the uncovered build, on the ledger of the outcome's draws.
    found : Outcome
        Of the covered build.
    most : int
        How many places at most.
    """
    places = _candidates(bare)
    counted = [k for k, one in enumerate(found.gaps) if not one.gap.part_of]
    if not places or not counted:
        return ()
    asked = tuple(Asked(source) for _, source in places)
    told_here = Forecast(bare, asked).of(found.draws.scores[:ROWS])
    margins = found.draws.margins[:ROWS, counted]
    stands = np.isfinite(margins).all(axis=1) & np.isfinite(told_here).all(axis=1)
    if np.count_nonzero(stands) < ROWS // 4:
        return ()
    joint = np.cov(np.hstack([margins, told_here])[stands].T)
    sure = (margins[stands] >= 0).mean(axis=0)
    chosen = most_settling(joint, np.maximum(4 * sure * (1 - sure), CALM), most)
    nominal = replace(bare, sources=tuple(source for _, source in places)).nominal()
    low, high = np.quantile(told_here[stands], [0.05, 0.95], axis=0)
    return tuple(
        WorthProbing(
            places[k][0],
            float(low[k]),
            float(high[k]),
            found.gaps[counted[gap]].gap.name,
            narrower,
            _on(nominal.witness[k]),
        )
        for k, gap, narrower in chosen
    )


def most_settling(joint: Floats, weight: Floats, most: int) -> list[tuple[int, int, float]]:
    """Return the places in order of worth: place, gap it settles most, share of its variance.

    `joint` is the covariance of gaps, then places. Every place chosen is taken as read.
    """
    gaps, chosen = len(weight), list[tuple[int, int, float]]()
    whole = np.maximum(np.diag(joint)[:gaps], 1e-12)
    while len(chosen) < most:
        spread = np.diag(joint)[gaps:] + FEELER_SIGMA_MM**2
        settled = joint[:gaps, gaps:] ** 2 / spread / whole[:, None]
        worth = weight @ settled / weight.sum()
        best = int(np.argmax(worth.round(9)))
        if worth[best] < LEAST_SETTLED:
            break
        gap = int(np.argmax((weight * settled[:, best]).round(9)))
        chosen.append((best, gap, float(settled[gap, best])))
        row = joint[gaps + best]
        joint = joint - np.outer(row, row) / spread[best]
    return chosen


def _candidates(bare: GapModel) -> list[tuple[str, Source]]:
    """Return places evenly along every edge that is seen, in words, with their sources."""
    scene = bare.scene()
    if scene is None or bare.rest is None or bare.carcass is None:
        return []
    unit, found = bare.build.unit, list[tuple[str, Source]]()
    for edge in probed_edges(bare.build, bare.carcass, bare.rest.tunnel, scene):
        if edge.to not in SEEN or edge.way != "along_mm":
            continue
        for x in _places(edge, STEPS_MM[unit]):
            words = f"{edge.name} at {told('along_mm', x, unit)}"
            source = edge.at(ProbePlace(edge.name, along_mm=x), words)
            if not isinstance(source, str):
                found.append((words, source))
    return found


def _places(edge: ProbedEdge, steps: tuple[float, ...]) -> list[float]:
    """Return round places within an edge, a quarter of a step off its ends."""
    found = list[float]()
    for step in steps:
        start, end = edge.span[0] / step + 0.25, edge.span[1] / step - 0.25
        found = [k * step for k in range(int(np.ceil(start)), int(np.floor(end)) + 1)]
        if len(found) >= FEWEST:
            break
    return found


def _on(witness: tuple[Point, Point] | None) -> Point:
    if witness is None:
        raise ValueError("a free place must have its nearest points")
    return witness[0]
