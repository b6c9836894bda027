"""The stages in order, each kept by its frozen inputs."""

from functools import cached_property, lru_cache
from typing import TYPE_CHECKING

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright import car, parts
from trimwright.build import Build
from trimwright.build import Car as CarEntry
from trimwright.chance import Ledger
from trimwright.fit import (
    Again,
    Cut,
    GapModel,
    Outcome,
    Plan,
    PoseFacts,
    Single,
    Unknown,
    WorthProbing,
    cuts,
    effects,
    gap_model,
    least_cut,
    measure_next,
    outcome,
    singles,
    uncovered,
    worth_probing,
)

if TYPE_CHECKING:
    from trimwright.wiring import WiringOutcome

MOST_PROBES = 6  # free places offered for a test fit: a quarter of an hour with a card
Ridges = tuple[car.Ridge, ...]
KEPT = 64  # builds that a session of edits goes back and forth between


@lru_cache(maxsize=KEPT)
def _tunnel(entry: CarEntry) -> car.Tunnel | car.Unmeasured:
    try:
        return car.tunnel(entry)
    except car.Unmeasured as unmeasured:
        return unmeasured


@lru_cache(maxsize=KEPT)
def _ledger(build: Build) -> Ledger:
    return car.ledger(build)


@lru_cache(maxsize=KEPT)
def _carcass(build: Build) -> parts.Carcass | None:
    tunnel = _tunnel(build.car)
    if build.console is None or isinstance(tunnel, car.Unmeasured):
        return None
    return parts.console(build, tunnel)


@lru_cache(maxsize=KEPT)
def _over(metal: car.Tunnel, ridges: Ridges) -> car.Tunnel:
    return replace(metal, ridges=ridges) if ridges else metal


@lru_cache(maxsize=KEPT)
def _model(build: Build, ledger: Ledger, ridges: Ridges) -> GapModel:
    carcass, tunnel = _carcass(build), _tunnel(build.car)
    if carcass is None or isinstance(tunnel, car.Unmeasured):
        raise ValueError("build must have a console and a tunnel")
    if carcass.unbuildable:
        return GapModel((), (), build, ledger, None, (), None)  # of what cannot be made no gap is
    return gap_model(build, ledger, _over(tunnel, ridges), carcass)


@lru_cache(maxsize=KEPT)
def _pose(build: Build, ridges: Ridges) -> PoseFacts | None:
    return _model(build, _ledger(build), ridges).pose_facts()


@lru_cache(maxsize=KEPT)
def _nominal(build: Build, ridges: Ridges) -> tuple[float, ...]:
    return tuple(_model(build, _ledger(build), ridges).nominal().values[0].tolist())


@lru_cache(maxsize=KEPT)
def _outcome(build: Build, ridges: Ridges) -> Outcome:
    ledger = _ledger(build)
    return outcome(build, ledger, lambda one: _model(one, ledger, ridges))


@lru_cache(maxsize=KEPT)
def _buildable(build: Build) -> bool:
    tunnel = _tunnel(build.car)
    if build.console is None or isinstance(tunnel, car.Unmeasured):
        return False
    return parts.buildable(build, tunnel)


@lru_cache(maxsize=KEPT)
def _cuts(build: Build) -> tuple[Cut, ...]:
    return cuts(build, _buildable)


@lru_cache(maxsize=KEPT)
def _works(build: Build, ridges: Ridges) -> NDArray[np.float64]:
    ledger = _ledger(build)
    found = effects(build, _cuts(build), lambda one: _model(one, ledger, ridges))
    found.setflags(write=False)
    return found


@lru_cache(maxsize=KEPT)
def _plan(build: Build, ridges: Ridges) -> Plan | None:
    ledger, found = _ledger(build), _outcome(build, ridges)
    if found.joint is None or found.joint.value >= found.wanted:
        return None
    works = _works(build, ridges)
    return least_cut(build, found, _cuts(build), works, lambda one: _model(one, ledger, ridges))


class Cabin(Struct, frozen=True, dict=True):
    """One build and everything computed from it, each part when it is first asked for."""

    build: Build

    @cached_property
    def _still(self) -> Build:
        """The build without what no fit rests on, so that an edit of its wiring computes no fit."""
        if self.build.wiring is None:
            return self.build
        return self.build.model_copy(update={"wiring": None})

    @property
    def wiring(self) -> "WiringOutcome | None":
        """Everything computed of the wiring, None where there is none."""
        own = self.build.wiring
        if own is None:
            return None
        from trimwright.wiring import wiring_outcome  # noqa: PLC0415  nobody else waits for it

        return wiring_outcome(own, self.build.unit)

    @cached_property
    def ridges(self) -> Ridges:
        """What lies on the metal under the carpet, as far as the wiring says."""
        own = self.build.wiring
        if own is None or not any(one.under_carpet for one in own.trunks):
            return ()
        from trimwright.wiring import ridges, wiring_outcome  # noqa: PLC0415  nobody else waits for it

        return tuple(one.ridge for one in ridges(wiring_outcome(own, self.build.unit)))

    def pose_over(self, ridges: Ridges) -> PoseFacts | None:
        """Return where the console would come to rest with other ridges under the carpet."""
        return None if self.model is None else _pose(self._still, ridges)

    def nominal_over(self, ridges: Ridges) -> tuple[float, ...]:
        """Return every gap as written [mm] with other ridges under the carpet."""
        return () if self.model is None else _nominal(self._still, ridges)

    @property
    def ledger(self) -> Ledger:
        """Every doubt of the build."""
        return _ledger(self._still)

    @property
    def tunnel(self) -> car.Tunnel | car.Unmeasured:
        """The tunnel's surface, or what it misses."""
        return _tunnel(self.build.car)

    @property
    def carcass(self) -> parts.Carcass | None:
        """The console as trimmed and built, None without a console or a tunnel."""
        return _carcass(self._still)

    @property
    def model(self) -> GapModel | None:
        """The gaps, None where there is no console or it cannot be made."""
        carcass = self.carcass
        if carcass is None or carcass.unbuildable:
            return None
        return _model(self._still, self.ledger, self.ridges)

    @property
    def unbuildable(self) -> tuple[parts.Unbuildable, ...]:
        """Why the console cannot be made, if it cannot."""
        return () if self.carcass is None else self.carcass.unbuildable

    @property
    def unknown(self) -> tuple[Unknown, ...]:
        """Gaps that could not be evaluated, with what they miss."""
        if self.build.console is None:
            return (Unknown("the console", ("its height, width and two ends",), ("console",)),)
        if isinstance(self.tunnel, car.Unmeasured):
            return (Unknown("every gap", (str(self.tunnel),), self.tunnel.missing),)
        return () if self.model is None else self.model.unknown

    @property
    def outcome(self) -> Outcome | None:
        """How sure each gap is and all together, None where no gap could be evaluated."""
        model = self.model
        return _outcome(self._still, self.ridges) if model is not None and model.gaps else None

    @property
    def bare(self) -> Outcome | None:
        """The same with nothing glued on, as the console stands at a test fit."""
        return None if self.outcome is None else _outcome(uncovered(self._still), self.ridges)

    @property
    def plan(self) -> Plan | None:
        """The least cut before covering, None where none is needed or known."""
        return None if self.outcome is None else _plan(self._still, self.ridges)

    @cached_property
    def singles(self) -> tuple[Single, ...]:
        """Single cuts that would do for one gap each."""
        found = self.outcome
        if found is None or all(one.sure.value >= found.wanted for one in found.gaps):
            return ()
        works, ledger, ridges = _works(self._still, self.ridges), self.ledger, self.ridges
        return singles(
            self._still, found, _cuts(self._still), works, lambda one: _model(one, ledger, ridges)
        )

    @cached_property
    def again(self) -> tuple[Again, ...]:
        """Readings worth taking again, the most worth first."""
        found = self.outcome
        return () if found is None else measure_next(self._still, self.ledger, found)

    @cached_property
    def probes(self) -> tuple[WorthProbing, ...]:
        """Free places worth probing at a test fit, the most worth first."""
        found = self.outcome
        if found is None:
            return ()
        return worth_probing(
            _model(uncovered(self._still), self.ledger, self.ridges), found, MOST_PROBES
        )

    @property
    def pose(self) -> PoseFacts | None:
        """Where the console comes to rest before and after tightening."""
        return None if self.model is None else _pose(self._still, self.ridges)

    @property
    def nominal(self) -> tuple[float, ...]:
        """Every gap with all figures as written [mm], in the model's order."""
        return () if self.model is None else _nominal(self._still, self.ridges)


def cabin(build: Build) -> Cabin:
    """Return the cabin of a build; nothing is computed before it is asked for.

    Notes are left out: no figure rests on them, and one more of them computes nothing anew.
    """
    return Cabin(build.model_copy(update={"notes": ()}) if build.notes else build)
