"""Where to start looking for the rest in a world, from the nominal rest."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from trimwright.fit.pose import Contact, Pose

Floats = NDArray[np.float64]
LEAST = 1e-6  # share of the mean spring that a point out of touch still counts


@dataclass(frozen=True, slots=True)
class FirstGuess:
    """The motion that squeezes each point by the nominal share of the carpet's give.

    Attributes
    ----------
    share : ndarray, shape (n,)
        Nominal squeeze over full squeeze.
    answer : ndarray, shape (3, n)
        Motion per mm of height of each point, by least squares with the nominal springs.
    """

    share: Floats = field(compare=False)
    answer: Floats = field(compare=False)

    @classmethod
    def of(cls, contact: Contact, pose: Pose, springs: Floats, full: Floats) -> "FirstGuess":
        """Return the guess from a nominal contact, its rest and its springs (n,)."""
        weight = springs + LEAST * max(float(springs.mean()), LEAST)
        lift = contact.lift()
        normal = np.einsum("ni,n,nk->ik", lift, weight, lift)
        answer = np.linalg.solve(normal, (lift * weight[:, None]).T)
        return cls(pose.squeeze[0] / full[0], np.asarray(answer, dtype=np.float64))

    def motion(self, contact: Contact, full: Floats) -> Floats:
        """Return the guess in every world, shape (rows, 3)."""
        wanted = full[:, None] * self.share / contact.upright
        return np.asarray(np.einsum("rn,kn->rk", contact.overlap - wanted, self.answer))
