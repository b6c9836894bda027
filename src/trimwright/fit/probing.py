"""What a test fit with bare wood said, and what it teaches about every doubt."""

from collections.abc import Callable

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.build import (
    CARD,
    Build,
    Cover,
    Covers,
    Probe,
    can_be_cut,
    cut_then,
    probe_place,
)
from trimwright.car import World
from trimwright.chance import ProbeReading, condition
from trimwright.fit.card import CardPlace, card_daylight
from trimwright.fit.cut import replaced
from trimwright.fit.free_place import NotThere, source_at
from trimwright.fit.model import GapModel
from trimwright.fit.probed_edge import probed_edges
from trimwright.fit.source import Source
from trimwright.quantities import Quantity

Floats = NDArray[np.float64]
FEELER_SIGMA_MM = 0.5  # a folded card or a drill shank, where no doubt is written; common practice


class Taught(Struct, frozen=True):
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
    unknown : tuple of NotThere
        Probes that mean nothing of this build.
    """

    names: tuple[str, ...]
    surprise: tuple[float, ...]
    against: tuple[float, ...]
    puzzle: str
    unknown: tuple[NotThere, ...]


def uncovered(build: Build) -> Build:
    """Return the build as it stands at a test fit: bare wood, nothing glued on."""
    bare = Cover(foam=Quantity(0.0), leather=Quantity(0.0))
    return build.model_copy(update={"covers": Covers(deck=bare, walls=bare)})


def as_read(build: Build, probe: Probe) -> Build:
    """Return the build as a reading was taken on it: bare, and cut as it was then."""
    read = uncovered(build)
    if build.console is None or probe.cut_then is None:
        return read
    fields = can_be_cut(build.console)
    for then in cut_then(probe.cut_then):
        read = replaced(read, ("console", *fields[then.key]), then.was)
    return read


def models_as_read(build: Build, model_of: Callable[[Build], GapModel]) -> tuple[GapModel, ...]:
    """Return for every reading the model of what it was taken on, alike ones made once."""
    builds = [as_read(build, probe) for probe in build.test_fit]
    models = {one: model_of(one) for one in dict.fromkeys(builds)}
    return tuple(models[one] for one in builds)


def reading(probe: Probe) -> ProbeReading:
    """Return a probe's reading as a figure, its sigma [mm] and its sense."""
    said = probe.said
    if said is None:
        return ProbeReading(0.0, FEELER_SIGMA_MM, "at most")
    sigma = said.doubt.sigma if said.doubt else FEELER_SIGMA_MM
    if probe.reads is not None:
        return ProbeReading(said.value, sigma)
    return ProbeReading(said.value, sigma, "at least" if probe.at_least else "at most")


def taught(
    build: Build, bares: tuple[GapModel, ...], scores: Floats, seed: int
) -> tuple[Floats, Taught | None]:
    """Return the scores updated by the test fit's readings, and what was learned.

    Parameters
    ----------
    build : Build
        With its test fit readings.
    bares : tuple of GapModel
        For every reading, of the uncovered build as it was cut then; all on the same ledger.
    scores : ndarray, shape (rows, factors)
        Prior draws.
    seed : int
        Where chance starts.
    """
    named = [(p, bare, probed(p, bare)) for p, bare in zip(build.test_fit, bares, strict=True)]
    unknown = tuple(what for *_, what in named if isinstance(what, NotThere))
    asked = [(bare, what) for _, bare, what in named if not isinstance(what, NotThere)]
    known = [probe for probe, _, what in named if not isinstance(what, NotThere)]
    if not known:
        return scores, Taught((), (), (), "", unknown) if unknown else None
    said, before = [reading(probe) for probe in known], _forecast(asked, scores)
    if not np.isfinite(before).all():
        says = "the console tips in every draw: nothing is known of where it stands"
        lost = tuple(NotThere(probe.probe, says) for probe in known)
        return scores, Taught((), (), (), "", (*unknown, *lost))
    usual = before.mean(axis=0)

    def again(moved: Floats) -> Floats:
        # where the readings lead to worlds in which it tips in every draw, they lead nowhere
        found = _forecast(asked, moved)
        return np.where(np.isfinite(found), found, usual)

    learned = condition(scores, before, said, seed=seed, evaluate=again)
    puzzle = "" if learned.unexplained is None else known[learned.unexplained].probe
    names = tuple(probe.probe for probe in known)
    against = tuple(map(_against, said, before.T))
    return learned.scores, Taught(names, tuple(learned.surprise), against, puzzle, unknown)


def _against(said: ProbeReading, forecast: Floats) -> float:
    """Return how far a reading lies from its forecast before any test fit, in its deviations."""
    spread = float(np.hypot(forecast.std(), said.sigma))
    off = (said.value - float(forecast.mean())) / spread
    return {"is": off, "at least": max(0.0, off), "at most": min(0.0, off)}[said.sense]


class Asked(Struct, frozen=True):
    """A reading that the gap model forecasts: its source, and which of its gaps."""

    source: Source
    column: int = 0


def probed(probe: Probe, model: GapModel) -> Asked | CardPlace | NotThere:
    """Return what a probe means: a gap, a free place, a place under a card, or why nothing."""
    scene = model.scene()
    if model.rest is None or model.carcass is None or scene is None:
        return NotThere(probe.probe, "nothing is known of where the console comes to rest")
    place = probe_place(probe.probe, model.build.unit)
    if place is None:
        return _whole_gap(probe, model)
    if place.what != CARD:
        edges = probed_edges(model.build, model.carcass, model.rest.tunnel, scene)
        found = source_at(probe.probe, place, probe.touches or "", edges, model.build.unit)
        return found if isinstance(found, NotThere) else Asked(found)
    if place.along_mm is None or place.across_mm is None:
        return NotThere(probe.probe, "a card is read at a place along and one across")
    return CardPlace(place.along_mm, place.across_mm)


def _whole_gap(probe: Probe, model: GapModel) -> Asked | NotThere:
    """Return the shortest named gap in whose name all words of a probe stand."""
    words = _words(probe.probe)
    fits = [
        (gap.name, source, column)
        for source in model.sources
        for column, gap in enumerate(source.gaps)
        if words <= _words(gap.name)
    ]
    if not fits:
        names = tuple(gap.name for gap in model.gaps)
        return NotThere(probe.probe, f"no gap of this build is called '{probe.probe}'", names)
    _, source, column = min(fits, key=lambda one: len(one[0]))
    return Asked(source, column)


def _words(text: str) -> frozenset[str]:
    return frozenset(text.lower().replace(",", " ").split())


class Forecast(Struct, frozen=True):
    """What each probe would read in any rows of scores; only what was probed is evaluated."""

    bare: GapModel
    what: tuple[Asked | CardPlace, ...]

    def of(self, scores: Floats) -> Floats:
        """Return the forecast readings [mm], shape (rows, probes)."""
        sources = tuple(one.source for one in self.what if isinstance(one, Asked))
        gaps = tuple(gap for source in sources for gap in source.gaps)
        model = replace(self.bare, sources=sources, gaps=gaps)
        values = model.evaluate(scores).values if sources else np.zeros((len(scores), 0))
        columns, first = [], 0
        for one in self.what:
            if isinstance(one, CardPlace):
                columns.append(self._card(scores, one))
            else:
                columns.append(values[:, first + one.column])
                first += len(one.source.gaps)
        found = np.stack(columns, axis=1)
        stands = np.isfinite(found)
        count = stands.sum(axis=0)
        mean = np.where(stands, found, 0.0).sum(axis=0) / np.where(count, count, np.nan)
        # a row that tips forecasts nothing: it takes the mean and so pulls neither way
        return np.where(stands, found, mean)

    def _card(self, scores: Floats, place: CardPlace) -> Floats:
        """Return the daylight under a card in every row."""
        bare = self.bare
        if bare.rest is None:
            raise ValueError("a card gauge needs a tunnel")
        world = World(bare.build, bare.ledger, bare.ledger.deviations(scores))
        return card_daylight(bare.rest.tunnel, world, place)


def _forecast(asked: list[tuple[GapModel, Asked | CardPlace]], scores: Floats) -> Floats:
    """Return what every reading would be, each on the model of what it was taken on [mm]."""
    found = np.empty((len(scores), len(asked)))
    for model in {id(bare): bare for bare, _ in asked}.values():
        places = [place for place, (bare, _) in enumerate(asked) if bare is model]
        what = tuple(asked[place][1] for place in places)
        found[:, places] = Forecast(model, what).of(scores)
    return found
