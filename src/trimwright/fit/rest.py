"""The console at rest on the carpet in every world, loose and with its screws done up."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Fixing
from trimwright.car import CarpetBed, Tunnel, World, carpet
from trimwright.fit.bed import Bed
from trimwright.fit.first_guess import FirstGuess, Start
from trimwright.fit.pose import Contact, Load, Pose, give, resting_pose
from trimwright.fit.rigid import placed
from trimwright.fit.sampled import SampledLaw

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
NEARLY_MM = 0.05  # how near the small-angle rest must come before the true turn is put in
MOST_TURN = 0.15  # rad: nearly 9 degrees, 100 mm over a console 700 mm long
GRAVITY = 9.80665  # standard gravity, m/s2 (3rd CGPM 1901)


class Screw(Struct, frozen=True, eq=False):
    """A screw that holds the console down.

    Its place [mm], its pull per torque [N / (N m)], the key of the model's doubt of that, and the
    entry with its torque.
    """

    name: str
    x: float
    y: float
    n_per_n_m: float
    doubt_key: str
    fixing: Fixing

    def pull(self, world: World) -> Floats:
        """Return its pull, shape (rows,) [N]; a tail below 0 is a loose screw, not a push."""
        pull = (
            self.n_per_n_m
            * world.read(self.fixing, "torque")
            * (1 + world.deviation(self.doubt_key))
        )
        return np.maximum(pull, 0.0)


class Grip(Struct, frozen=True):
    """How the nose answers to one screw: by moving it rearward, and by doing it up harder.

    `up_per_mm` is mm of nose per mm of place, `up_per_100_n` mm of nose per 100 N of pull, both
    at the nominal rest; `pull_n` is its nominal pull.
    """

    screw: str
    pull_n: float
    up_per_mm: float
    up_per_100_n: float


class Rest(Struct, frozen=True, eq=False):
    """Everything the rest depends on besides the world.

    Attributes
    ----------
    bed : Bed
        The contact points over the tunnel.
    tunnel : Tunnel
        For the layers.
    mass_kg : float
        Of the carcass.
    centre : ndarray, shape (3,)
        Its centre of gravity [mm].
    screws : tuple of Screw
        What holds it down.
    about : ndarray, shape (3,)
        The point it turns about: the middle of the contact points [mm].
    """

    bed: Bed
    tunnel: Tunnel
    mass_kg: float
    centre: Floats
    screws: tuple[Screw, ...]
    about: Floats

    def pulls(self, world: World) -> Floats:
        """Return the pull of each screw, shape (rows, screws) [N]."""
        pulls = [screw.pull(world) for screw in self.screws]
        return np.stack(pulls, axis=-1) if pulls else np.zeros((world.rows, 0))

    def load(self, pulls: Floats) -> Load:
        """Return weight and pulls as one force and its place."""
        weight = self.mass_kg * GRAVITY
        force = weight + pulls.sum(axis=-1)
        at = np.array([[s.x - self.about[0], s.y - self.about[1]] for s in self.screws])
        moment = weight * (self.centre - self.about)[:2] + pulls @ at.reshape(-1, 2)
        place = moment / force[:, None]
        return Load(force, place[:, 0], place[:, 1])

    def pose(self, world: World, *, tight: bool, start: Start | None = None) -> Pose:
        """Return the rest, with the small-angle rest corrected once for the true turn.

        A row that would turn further than `MOST_TURN` tips: it is levered out of its place, and
        neither the small angles nor the carpet it was scribed to hold there.
        """
        soft = carpet(world)
        law = SampledLaw.of(soft)
        pulls = self.pulls(world) * (1.0 if tight else 0.0)
        load = self.load(pulls)
        contact = self.bed.contact(world, self.tunnel, soft.loose, self.about)
        begun, turn = (None, 0.0) if start is None else start.motions(contact, soft.full)
        first = resting_pose(contact, load, law, begun, still_mm=NEARLY_MM)
        exact, moved = self._true_turn(contact, load, first)
        near = np.where(first.tips[:, None], 0.0, first.motion)
        again = resting_pose(exact, moved, law, near + turn)
        turned = np.abs(np.nan_to_num(again.motion[:, 1:])).max(axis=1)
        tips = first.tips | again.tips | (turned > MOST_TURN)
        gone = tips[:, None]
        return Pose(
            np.where(gone, np.nan, again.motion),
            tips,
            again.settled & ~tips,
            np.where(gone, np.nan, again.squeeze),
            first.motion,
        )

    def first_guess(self, world: World, pose: Pose) -> FirstGuess | None:
        """Return where to start in other worlds, from the nominal pose; None where that tips."""
        if pose.tips[0]:
            return None
        soft = carpet(world)
        contact = self.bed.contact(world, self.tunnel, soft.loose, self.about)
        springs = contact.bearing * contact.upright * soft.stiffness(pose.squeeze)
        return FirstGuess.of(contact, pose, springs[0], soft.full, self.about)

    def _true_turn(self, contact: Contact, load: Load, pose: Pose) -> tuple[Contact, Load]:
        """Return contact and load as they are with the console really turned to a pose."""
        motion = np.where(pose.tips[:, None], 0.0, pose.motion)
        # the small angles have lifted each point by this already
        linear = motion @ contact.lift().T
        overlap = contact.overlap - (self.bed.climb(motion, self.about) - linear)
        exact = Contact(contact.x, contact.y, overlap, contact.upright, contact.bearing)
        # the weight goes with the console, the screws stay where they are in the tunnel
        sway = placed(self.centre[None], motion, self.about)[:, 0] - self.centre
        share = self.mass_kg * GRAVITY / load.force_n
        return exact, Load(load.force_n, load.x + share * sway[:, 0], load.y + share * sway[:, 1])

    def lifted(self, squeeze: Floats) -> Floats:
        """Return the share of places along the edges that have lifted off, shape (rows,)."""
        _, first = np.unique(self.bed.station, return_index=True)
        best = np.maximum.reduceat(squeeze, first, axis=-1)
        return np.asarray((best < 0).mean(axis=-1))

    def grips(self, world: World, nose_x: float) -> tuple[Grip, ...]:
        """Return how the nose's height answers to each screw, at the nominal rest; none if it tips.

        The rest moves by dq = -H^-1 d(pull of the load), H the bed's stiffness there.
        """
        pose = self.pose(world, tight=True)
        if pose.tips[0]:
            return ()  # it has no rest for a screw to change
        pulls = self.pulls(world)[0]
        soft = carpet(world)
        contact = self.bed.contact(world, self.tunnel, soft.loose, self.about)
        nose = np.array([1.0, -(nose_x - self.about[0]), 0.0])
        answer = -nose @ give(contact, SampledLaw.of(soft), pose)[0]
        found = []
        for screw, pull in zip(self.screws, pulls, strict=True):
            down = np.array([1.0, -(screw.x - self.about[0]), screw.y - self.about[1]])
            along = np.array([0.0, -float(pull), 0.0])
            found.append(
                Grip(screw.name, float(pull), float(answer @ along), 100 * float(answer @ down))
            )
        return tuple(found)


def full_squeeze(soft: CarpetBed, squeeze: Floats) -> Flags:
    """Return whether the carpet is squeezed flat anywhere, shape (rows,)."""
    return np.asarray((squeeze > soft.full[:, None]).any(axis=-1))
