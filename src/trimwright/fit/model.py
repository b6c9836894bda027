"""All gaps of a build as one function of the scores of its doubts."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import Tunnel, Unmeasured, World
from trimwright.chance import Ledger
from trimwright.fit.bed import Bed
from trimwright.fit.body import body_gaps
from trimwright.fit.daylight import daylight
from trimwright.fit.first_guess import FirstGuess, Rests, Start, joined
from trimwright.fit.footing import footing_of
from trimwright.fit.gap import Gap, GapTable, Unknown
from trimwright.fit.handbrake import handbrake_gap
from trimwright.fit.knob import knob_gaps
from trimwright.fit.lever_bulkhead import lever_bulkheads
from trimwright.fit.lever_opening import lever_opening
from trimwright.fit.nose import nose
from trimwright.fit.pair import own_pieces, resting
from trimwright.fit.pose import Pose
from trimwright.fit.pose_facts import PoseFacts, pose_facts
from trimwright.fit.rest import Rest, full_squeeze
from trimwright.fit.seat import beside
from trimwright.fit.source import Scene, Source
from trimwright.parts import Carcass

__all__ = ["GapModel", "GapTable", "gap_model"]

Floats = NDArray[np.float64]
BLOCK = 512  # rows at a time: their arrays stay small beside the processor's cache


class GapModel(Struct, frozen=True, eq=False):
    """Every gap of a build, row by row of scores.

    Attributes
    ----------
    gaps : tuple of Gap
        In the order of the columns of `evaluate`.
    unknown : tuple of Unknown
        Gaps that cannot be evaluated, with what they miss.
    build, ledger : Build, Ledger
        Whose figures and doubts these are.
    rest : Rest or None
        The console on its carpet; None where that cannot be evaluated, and then no gap can.
    carcass : Carcass or None
        The console, where its rest can be evaluated.
    stands : tuple of Scene and Pose, or None
        The nominal row with the console at rest, as designed where it tips, and its pose.
    """

    gaps: tuple[Gap, ...]
    unknown: tuple[Unknown, ...]
    build: Build
    ledger: Ledger
    rest: Rest | None
    sources: tuple[Source, ...]
    guess: FirstGuess | None
    carcass: Carcass | None = None
    stands: tuple[Scene, Pose] | None = None

    def evaluate(self, scores: Floats, other: Rests | None = None) -> GapTable:
        """Return every gap in every row.

        Parameters
        ----------
        scores : ndarray, shape (rows, factors)
            Standard normal scores; a row of zeros stands for the figures as written.
        other : Rests, optional
            Where another console, such as this one uncut, comes to rest in the same rows: nearer
            to where this one does than any guess.

        Returns
        -------
        GapTable
            The witness points are those of the first row.

        Raises
        ------
        ValueError
            If the columns are not the ledger's, or there is no row.
        """
        if len(scores) < 1:
            raise ValueError("scores must have at least 1 row, got 0")
        off = self.ledger.deviations(scores)
        parts = [slice(k, k + BLOCK) for k in range(0, len(off), BLOCK)]
        beside = self.guess.beside(other) if self.guess and other else None
        starts = [beside.rows(part) if beside else self.guess for part in parts]
        worlds = [World(self.build, self.ledger, off[part]) for part in parts]
        blocks = [self._block(*one) for one in zip(worlds, starts, strict=True)]
        return GapTable(
            np.concatenate([block.values for block in blocks]),
            np.concatenate([block.poses for block in blocks]),
            np.concatenate([block.tips for block in blocks]),
            np.concatenate([block.lifts for block in blocks]),
            np.concatenate([block.full for block in blocks]),
            np.concatenate([block.settled for block in blocks]),
            blocks[0].witness,
            joined([block.rests for block in blocks]),
        )

    def _block(self, world: World, start: Start | None) -> GapTable:
        """Return the gaps in some worlds."""
        if self.rest is None:
            none, empty = np.zeros(world.rows, dtype=bool), np.zeros((world.rows, 0))
            return GapTable(empty, np.full((world.rows, 3), np.nan), none, none, none, none)
        return self._gaps(self.rest, *_scene(self.rest, world, start))

    def _gaps(self, rest: Rest, scene: Scene, pose: Pose) -> GapTable:
        """Return the gaps with the console in a pose."""
        squeeze = np.where(pose.tips[:, None], 0.0, pose.squeeze)
        found = [source.found(scene) for source in self.sources]
        values = np.concatenate([one.values for one in found], axis=1)
        return GapTable(
            np.where(pose.tips[:, None], np.nan, values),
            pose.motion,
            pose.tips,
            (rest.lifted(squeeze) > 0) & ~pose.tips,
            full_squeeze(scene.soft, squeeze) & ~pose.tips,
            pose.settled,
            tuple(pair for one in found for pair in one.witness),
            None if self.guess is None else self.guess.rests(pose),
        )

    def nominal(self) -> GapTable:
        """Return every gap with all figures as written, in one row."""
        if self.rest is None or self.stands is None:
            return self._block(World.nominal(self.build, self.ledger), None)
        return self._gaps(self.rest, *self.stands)

    def scene(self) -> Scene | None:
        """Return the nominal row with the console at rest, None where it has none."""
        return None if self.guess is None or self.stands is None else self.stands[0]

    def pose_facts(self) -> PoseFacts | None:
        """Return where the console rests loose and done up, and what its bolts do to the nose."""
        if self.rest is None:
            return None
        return pose_facts(self.rest, World.nominal(self.build, self.ledger))


def gap_model(
    build: Build, ledger: Ledger, tunnel: Tunnel | Unmeasured, carcass: Carcass
) -> GapModel:
    """Return the gap model of a build.

    Parameters
    ----------
    build : Build
        With a console.
    ledger : Ledger
        Its doubts.
    tunnel : Tunnel or Unmeasured
        The car's, or what it misses.
    carcass : Carcass
        The console as designed.

    Returns
    -------
    GapModel
        Without gaps where the console's rest cannot be evaluated; `unknown` says why.
    """
    world = World.nominal(build, ledger)
    footing, unknown = footing_of(world, tunnel, carcass)
    if footing is None or isinstance(tunnel, Unmeasured):
        return GapModel((), unknown, build, ledger, None, (), None)
    rest = footing.rest
    scene, pose = _scene(rest, world, footing.near)
    sources, missing = _sources(build, tunnel, carcass, scene, footing.seen)
    gaps = tuple(gap for source in sources for gap in source.gaps)
    guess, unknown = rest.first_guess(world, pose), (*unknown, *missing)
    stands = scene, pose
    return GapModel(gaps, unknown, build, ledger, rest, sources, guess, carcass, stands)


def _scene(rest: Rest, world: World, start: Start | None) -> tuple[Scene, Pose]:
    """Return some worlds with the console at rest, or as designed where it tips, and its pose."""
    pose = rest.pose(world, tight=True, start=start)
    return Scene.of(world, np.where(pose.tips[:, None], 0.0, pose.motion), rest.about), pose


def _sources(
    build: Build, tunnel: Tunnel, carcass: Carcass, scene: Scene, seen: tuple[Bed | None, ...]
) -> tuple[tuple[Source, ...], tuple[Unknown, ...]]:
    """Return every family of gaps that can be evaluated, and what the others miss."""
    found: list[Source] = []
    unknown: list[Unknown] = []
    under, missing = nose(build, carcass, scene)
    found += [under] if under is not None else []
    unknown += missing
    for part, gone in (
        beside(build, carcass, scene.world),
        knob_gaps(build, carcass, scene),
        daylight(build, tunnel, seen),
    ):
        found += part
        unknown += gone
    opening, missing = lever_opening(build, carcass, scene)
    found += [opening] if opening is not None else []
    found += lever_bulkheads(build, carcass, scene)
    unknown += missing
    near = build.car.handbrake or build.car.bodies
    own = resting(own_pieces(carcass, scene.world), scene) if near else None
    brake = handbrake_gap(build, own, scene) if own else None
    if brake is None:
        missing = (Unknown("handbrake", ("where the handbrake is",), ("car.handbrake",)),)
        unknown += missing
    else:
        found.append(brake)
    found += body_gaps(build, own, scene) if own else ()
    return tuple(found), tuple(unknown)
