"""What a test fit with bare wood said, and what it teaches about every doubt."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trimwright.build import Build, Cover, Covers, Probe
from trimwright.chance import ProbeReading, condition
from trimwright.fit.gap_model import GapModel
from trimwright.quantities import Quantity

Floats = NDArray[np.float64]
FEELER_SIGMA_MM = 0.5  # a folded card or a drill shank, where no doubt is written; common practice


@dataclass(frozen=True, slots=True)
class Taught:
    """Scores after the test fit, and how well the model explains each reading.

    Attributes
    ----------
    names : tuple of str
        Gaps that were probed, in the order of the readings.
    surprise : tuple of float
        Standardised residual of each reading given all the others.
    puzzle : str
        The reading the model cannot explain, or empty.
    unknown : tuple of str
        Probes that name no gap of this build.
    """

    names: tuple[str, ...]
    surprise: tuple[float, ...]
    puzzle: str
    unknown: tuple[str, ...]


def uncovered(build: Build) -> Build:
    """Return the build as it stands at a test fit: bare wood, nothing glued on."""
    bare = Cover(foam=Quantity(0.0), leather=Quantity(0.0))
    return build.model_copy(update={"covers": Covers(deck=bare, walls=bare)})


def probe_gap(probe: Probe, model: GapModel) -> str | None:
    """Return the name of the gap a probe means: all its words stand in the gap's name."""
    words = set(probe.probe.lower().replace(",", " ").split())
    fits = [
        gap.name for gap in model.gaps if words <= set(gap.name.lower().replace(",", " ").split())
    ]
    return min(fits, key=len) if fits else None


def reading(probe: Probe) -> ProbeReading:
    """Return a probe's reading as a figure, its sigma [mm] and its sense."""
    if probe.touches is not None:
        return ProbeReading(0.0, FEELER_SIGMA_MM, "at most")
    said = probe.reads if probe.reads is not None else probe.at_least
    if said is None:
        raise ValueError("probe must read something or touch something")
    sigma = said.doubt.sigma if said.doubt else FEELER_SIGMA_MM
    return ProbeReading(said.value, sigma, "is" if probe.reads is not None else "at least")


def taught(build: Build, bare: GapModel, scores: Floats, seed: int) -> tuple[Floats, Taught | None]:
    """Return the scores updated by the test fit's readings, and what was learned.

    Parameters
    ----------
    build : Build
        With its test fit readings.
    bare : GapModel
        Of the uncovered build, on the same ledger.
    scores : ndarray, shape (rows, factors)
        Prior draws.
    seed : int
        Where chance starts.
    """
    named = [(probe, probe_gap(probe, bare)) for probe in build.test_fit]
    unknown = tuple(probe.probe for probe, name in named if name is None)
    known = [(probe, name) for probe, name in named if name is not None]
    if not known:
        return scores, Taught((), (), "", unknown) if unknown else None
    names = [gap.name for gap in bare.gaps]
    columns = [names.index(name) for _, name in known]

    def predicted(rows: Floats) -> Floats:
        return np.asarray(bare.evaluate(rows).values[:, columns])

    learned = condition(
        scores,
        predicted(scores),
        [reading(probe) for probe, _ in known],
        seed=seed,
        evaluate=predicted,
    )
    puzzle = "" if learned.unexplained is None else known[learned.unexplained][0].probe
    return learned.scores, Taught(
        tuple(name for _, name in known), tuple(learned.surprise), puzzle, unknown
    )
