"""What a test fit with bare wood said, and what it teaches about every doubt."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trimwright.build import Build, Cover, Covers, Probe
from trimwright.car import World
from trimwright.chance import ProbeReading, condition
from trimwright.fit.card import CardPlace, card_daylight, card_place
from trimwright.fit.model import GapModel
from trimwright.quantities import Quantity

Floats = NDArray[np.float64]
FEELER_SIGMA_MM = 0.5  # a folded card or a drill shank, where no doubt is written; common practice


@dataclass(frozen=True, slots=True)
class Taught:
    """Scores after the test fit, and how well the model explains each reading.

    Attributes
    ----------
    names : tuple of str
        Probes that were understood, in the order of the readings.
    surprise : tuple of float
        Standardised residual of each reading given all the others.
    against : tuple of float
        Standardised residual of each reading given only what was measured before.
    puzzle : str
        The reading the model cannot explain, or empty.
    unknown : tuple of str
        Probes that name no gap of this build.
    """

    names: tuple[str, ...]
    surprise: tuple[float, ...]
    against: tuple[float, ...]
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
    said = probe.said
    if said is None:
        return ProbeReading(0.0, FEELER_SIGMA_MM, "at most")
    sigma = said.doubt.sigma if said.doubt else FEELER_SIGMA_MM
    if probe.reads is not None:
        return ProbeReading(said.value, sigma)
    return ProbeReading(said.value, sigma, "at least" if probe.at_least else "at most")


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
    named = [(probe, probed(probe, bare)) for probe in build.test_fit]
    unknown = tuple(probe.probe for probe, what in named if what is None)
    known = [(probe, what) for probe, what in named if what is not None]
    if not known:
        return scores, Taught((), (), (), "", unknown) if unknown else None
    forecast = _Forecast(bare, tuple(what for _, what in known))
    said, before = [reading(probe) for probe, _ in known], forecast.of(scores)
    learned = condition(scores, before, said, seed=seed, evaluate=forecast.of)
    puzzle = "" if learned.unexplained is None else known[learned.unexplained][0].probe
    names = tuple(probe.probe for probe, _ in known)
    against = tuple(map(_against, said, before.T))
    return learned.scores, Taught(names, tuple(learned.surprise), against, puzzle, unknown)


def _against(said: ProbeReading, forecast: Floats) -> float:
    """Return how far a reading lies from its forecast before any test fit, in its deviations."""
    spread = float(np.hypot(forecast.std(), said.sigma))
    off = (said.value - float(forecast.mean())) / spread
    return {"is": off, "at least": max(0.0, off), "at most": min(0.0, off)}[said.sense]


def probed(probe: Probe, model: GapModel) -> str | CardPlace | None:
    """Return what a probe means: a gap's name, a place under a card gauge, or nothing known."""
    if model.rest is None:
        return None
    place = card_place(probe.probe, model.build.unit)
    return place if place is not None else probe_gap(probe, model)


@dataclass(frozen=True, slots=True)
class _Forecast:
    """What each probe would read in any rows of scores."""

    bare: GapModel
    what: tuple[str | CardPlace, ...]

    def of(self, scores: Floats) -> Floats:
        """Return the forecast readings [mm], shape (rows, probes)."""
        names = [gap.name for gap in self.bare.gaps]
        gapped = any(isinstance(one, str) for one in self.what)
        values = self.bare.evaluate(scores).values if gapped else None
        columns = [
            self._card(scores, one)
            if isinstance(one, CardPlace) or values is None
            else values[:, names.index(one)]
            for one in self.what
        ]
        found = np.stack(columns, axis=1)
        # a row that tips forecasts nothing: it takes the mean and so pulls neither way
        return np.where(np.isfinite(found), found, np.nanmean(found, axis=0))

    def _card(self, scores: Floats, place: str | CardPlace) -> Floats:
        """Return the daylight under a card in every row."""
        bare = self.bare
        if bare.rest is None or isinstance(place, str):
            raise ValueError("a card gauge needs a tunnel and a place")
        world = World(bare.build, bare.ledger, bare.ledger.deviations(scores))
        return card_daylight(bare.rest.tunnel, world, place)
