"""Where to start looking for the rest in a world: from the nominal rest, or from another's."""

from collections.abc import Sequence
from typing import Protocol

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.fit.pose import Contact, Pose

Floats = NDArray[np.float64]
LEAST = 1e-6  # share of the mean spring that a point out of touch still counts


class Start(Protocol):
    """Where to start in some worlds."""

    def motions(self, contact: Contact, full: Floats) -> tuple[Floats, Floats]:
        """Return a guess of the rest at small angles (rows, 3), and what the true turn adds to it.

        `full` (rows,) is the carpet's full squeeze [mm].
        """


class Rests(Struct, frozen=True, eq=False):
    """Where a console comes to rest in some worlds.

    Attributes
    ----------
    small, true : ndarray, shape (rows, 3)
        Its motion at small angles, and with the true turn put in; NaN where it tips.
    nominal : ndarray, shape (2, 3)
        Both in the nominal world.
    about : ndarray, shape (3,)
        The point it turns about [mm].
    """

    small: Floats
    true: Floats
    nominal: Floats
    about: Floats

    def rows(self, which: NDArray[np.intp] | slice) -> "Rests":
        """Return the rests of some of the rows."""
        return Rests(self.small[which], self.true[which], self.nominal, self.about)


class Beside(Struct, frozen=True, eq=False):
    """A start from where another console came to rest: `small` and what the turn adds, (rows, 3)."""

    small: Floats
    turn: Floats

    def motions(self, contact: Contact, full: Floats) -> tuple[Floats, Floats]:
        """Return the start."""
        del contact, full
        return self.small, self.turn

    def rows(self, which: slice) -> "Beside":
        """Return the start of some of the rows."""
        return Beside(self.small[which], self.turn[which])


class FirstGuess(Struct, frozen=True, eq=False):
    """The motion that squeezes each point by the nominal share of the carpet's give.

    Attributes
    ----------
    share : ndarray, shape (n,)
        Nominal squeeze over full squeeze.
    answer : ndarray, shape (3, n)
        Motion per mm of height of each point, by least squares with the nominal springs.
    nominal, about : ndarray, shape (2, 3), (3,)
        As in `Rests`.
    """

    share: Floats
    answer: Floats
    nominal: Floats
    about: Floats

    @classmethod
    def of(
        cls, contact: Contact, pose: Pose, springs: Floats, full: Floats, about: Floats
    ) -> "FirstGuess":
        """Return the guess from a nominal contact, its rest and its springs (n,)."""
        weight = springs + LEAST * max(float(springs.mean()), LEAST)
        lift = contact.lift()
        normal = np.einsum("ni,n,nk->ik", lift, weight, lift)
        answer = np.linalg.solve(normal, (lift * weight[:, None]).T)
        nominal = np.concatenate([pose.small, pose.motion])
        share = pose.squeeze[0] / full[0]
        return cls(share, np.asarray(answer, dtype=np.float64), nominal, about)

    def motions(self, contact: Contact, full: Floats) -> tuple[Floats, Floats]:
        """Return the guess in every world, shape (rows, 3), with no true turn."""
        wanted = full[:, None] * self.share / contact.upright
        small = np.einsum("rn,kn->rk", contact.overlap - wanted, self.answer)
        return np.asarray(small), np.zeros(3)

    def rests(self, pose: Pose) -> Rests:
        """Return a pose for another console to start from."""
        return Rests(pose.small, pose.motion, self.nominal, self.about)

    def beside(self, other: Rests) -> Beside:
        """Return a start as far from the nominal rest as another console's rests are from its own.

        A row in which that one tips starts at the nominal rest.
        """
        x, y = (self.about - other.about)[:2]
        moved = []
        for rests, theirs, own in zip(
            (other.small, other.true), other.nominal, self.nominal, strict=True
        ):
            change = np.nan_to_num(rests - theirs)
            change[:, 0] += y * change[:, 2] - x * change[:, 1]
            moved.append(own + change)
        small, true = moved
        return Beside(small, true - small)


def resumed(pose: Pose) -> Beside | None:
    """Return a start from a pose of the same console found before, None where that tips."""
    return None if pose.tips.any() else Beside(pose.small, pose.motion - pose.small)


def joined(parts: Sequence[Rests | None]) -> Rests | None:
    """Return the rests of one console in rows after rows; None if some are not known."""
    known = [part for part in parts if part is not None]
    if len(known) < len(parts) or not known:
        return None
    small = np.concatenate([part.small for part in known])
    true = np.concatenate([part.true for part in known])
    return replace(known[0], small=small, true=true)
