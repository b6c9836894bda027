"""All gaps of a build as one function of the scores of its doubts."""

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import Tunnel, Unmeasured, World, carpet
from trimwright.chance import Ledger
from trimwright.fit.bed import Bed, beds, feet
from trimwright.fit.body import body_gaps
from trimwright.fit.daylight import daylight, visible_lines
from trimwright.fit.first_guess import FirstGuess
from trimwright.fit.gap import Gap, GapTable, Unknown
from trimwright.fit.handbrake import handbrake_gap
from trimwright.fit.knob import knob_gaps
from trimwright.fit.lever_opening import lever_opening
from trimwright.fit.nose import nose
from trimwright.fit.pair import own_pieces, resting
from trimwright.fit.pose import Pose
from trimwright.fit.pose_facts import PoseFacts, pose_facts
from trimwright.fit.rest import Rest, full_squeeze
from trimwright.fit.rigid import placed
from trimwright.fit.screw import screws
from trimwright.fit.seat import beside
from trimwright.fit.source import Scene, Source
from trimwright.fit.strip import ACROSS_BEVELLED, ACROSS_SQUARE, LEAST_ALONG, Strip, edge_strip
from trimwright.parts import Carcass

__all__ = ["GapModel", "GapTable", "gap_model"]

Floats = NDArray[np.float64]
BLOCK = 1024  # rows at a time: their arrays stay small beside the processor's cache
WALL_STEP_MM = (
    80.0  # of wall to a Gauss point; 8 along an edge are true to 0.0001 mm on a smooth bed
)
ALONG_BULKHEAD = 5  # Gauss points; a bulkhead's edge is short and hidden
NEARLY_SQUARE_DEG = 8.0  # on a flatter bed a square edge touches all over
FOOT_ROUNDS = 2  # times the feet are sought again from where the console came to rest
POSE = "resting pose"


@dataclass(frozen=True, slots=True)
class GapModel:
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
    """

    gaps: tuple[Gap, ...]
    unknown: tuple[Unknown, ...]
    build: Build = field(compare=False, repr=False)
    ledger: Ledger = field(compare=False, repr=False)
    rest: Rest | None = field(compare=False, repr=False)
    sources: tuple[Source, ...] = field(compare=False, repr=False)
    guess: FirstGuess | None = field(compare=False, repr=False)
    carcass: Carcass | None = field(default=None, compare=False, repr=False)

    def evaluate(self, scores: Floats) -> GapTable:
        """Return every gap in every row.

        Parameters
        ----------
        scores : ndarray, shape (rows, factors)
            Standard normal scores; a row of zeros stands for the figures as written.

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
        worlds = [
            World(self.build, self.ledger, off[k : k + BLOCK]) for k in range(0, len(off), BLOCK)
        ]
        blocks = [self._block(world) for world in worlds]
        return GapTable(
            np.concatenate([block.values for block in blocks]),
            np.concatenate([block.poses for block in blocks]),
            np.concatenate([block.tips for block in blocks]),
            np.concatenate([block.lifts for block in blocks]),
            np.concatenate([block.full for block in blocks]),
            np.concatenate([block.settled for block in blocks]),
            blocks[0].witness,
        )

    def _block(self, world: World) -> GapTable:
        """Return the gaps in some worlds."""
        none = np.zeros(world.rows, dtype=bool)
        if self.rest is None:
            empty = np.zeros((world.rows, 0))
            return GapTable(empty, np.full((world.rows, 3), np.nan), none, none, none, none)
        pose = self.rest.pose(world, tight=True, guess=self.guess)
        motion = np.where(pose.tips[:, None], 0.0, pose.motion)
        squeeze = np.where(pose.tips[:, None], 0.0, pose.squeeze)
        scene = Scene.of(world, motion, self.rest.about)
        found = [source.found(scene) for source in self.sources]
        values = np.concatenate([one.values for one in found], axis=1)
        return GapTable(
            np.where(pose.tips[:, None], np.nan, values),
            pose.motion,
            pose.tips,
            (self.rest.lifted(squeeze) > 0) & ~pose.tips,
            full_squeeze(scene.soft, squeeze) & ~pose.tips,
            pose.settled,
            tuple(pair for one in found for pair in one.witness),
        )

    def nominal(self) -> GapTable:
        """Return every gap with all figures as written, in one row."""
        return self._block(World.nominal(self.build, self.ledger))

    def scene(self) -> Scene | None:
        """Return the nominal row with the console at rest, None where it has none."""
        if self.rest is None or self.guess is None:
            return None
        return _scene(self.rest, World.nominal(self.build, self.ledger))[0]

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
    footing, unknown = _footing(world, tunnel, carcass)
    if footing is None or isinstance(tunnel, Unmeasured):
        return GapModel((), unknown, build, ledger, None, (), None)
    rest = footing.rest
    scene, pose = _scene(rest, world)
    sources, missing = _sources(build, tunnel, carcass, scene, footing.seen)
    gaps = tuple(gap for source in sources for gap in source.gaps)
    guess = rest.first_guess(world, pose)
    return GapModel(gaps, (*unknown, *missing), build, ledger, rest, sources, guess, carcass)


def _scene(rest: Rest, world: World) -> tuple[Scene, Pose]:
    """Return a world with the console at rest, or as designed where it tips, and its pose."""
    pose = rest.pose(world, tight=True)
    return Scene.of(world, np.where(pose.tips[:, None], 0.0, pose.motion), rest.about), pose


@dataclass(frozen=True, slots=True)
class _Footing:
    """The console on its carpet, and the beds under what is seen of its left and right walls."""

    rest: Rest
    seen: tuple[Bed | None, ...]


def _footing(
    world: World, tunnel: Tunnel | Unmeasured, carcass: Carcass
) -> tuple[_Footing | None, tuple[Unknown, ...]]:
    """Return what the console stands on, or what is missing for it."""
    if isinstance(tunnel, Unmeasured):
        return None, (Unknown(POSE, (str(tunnel),), tunnel.missing),)
    try:
        carpet(world)
    except Unmeasured as gone:
        return None, (Unknown(POSE, (str(gone),), gone.missing),)
    groups = (_strips(carcass), *visible_lines(carcass))
    flat = [strip.points for group in groups for strip in group]
    points = np.concatenate(flat) if flat else np.zeros((0, 3))
    foot = feet(tunnel, points)
    under, *seen = beds(groups, tunnel, foot, as_read=True)
    if under is None:
        missing = ("the tunnel under the console's lower edges",)
        return None, (Unknown(POSE, missing, ("car.tunnel",)),)
    held, centre = screws(world.build), np.array(carcass.centre_mm)
    rest = Rest(under, tunnel, carcass.mass_kg, centre, held, under.points.mean(axis=0))
    for left in reversed(range(FOOT_ROUNDS)):
        # the metal bends away under an edge that rises far: the feet are sought from where it rests
        foot = feet(tunnel, _lowered(rest, world, points), foot)
        closer, *seen = beds(groups, tunnel, foot, as_read=left > 0)
        if closer is None:  # it comes to rest beside all that was read
            under, *seen = beds(groups, tunnel, feet(tunnel, points))
            return None if under is None else _Footing(replace(rest, bed=under), tuple(seen)), ()
        rest = replace(rest, bed=closer)
    return _Footing(rest, tuple(seen)), ()


def _lowered(rest: Rest, world: World, points: Floats) -> Floats:
    """Return points of the console (n, 3) where they nearly come to rest."""
    pose = rest.pose(world, tight=True)
    motion = np.where(pose.tips[:, None], 0.0, pose.motion)
    return np.asarray(placed(points, motion, rest.about)[0])


def _strips(carcass: Carcass) -> tuple[Strip, ...]:
    """Return the Gauss points on every lower edge."""
    found = []
    for edge in carcass.lower_edges:
        wall = "wall" in edge.panel.split()
        long = float(np.linalg.norm(np.ptp(edge.outer, axis=0)[:2]))
        count = max(LEAST_ALONG, round(long / WALL_STEP_MM)) if wall else ALONG_BULKHEAD
        steep = edge.form == "square" and float(np.max(edge.slope_deg)) > NEARLY_SQUARE_DEG
        across = ACROSS_SQUARE if steep else ACROSS_BEVELLED
        strip = edge_strip(edge.inner, edge.outer, across=across, along=count)
        found.append(replace(strip, panel=edge.panel))
    return tuple(found)


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
