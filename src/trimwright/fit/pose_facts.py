"""Where the console rests, in a builder's words."""

from math import isfinite

from msgspec import Struct

from trimwright.car import World
from trimwright.fit.rest import Grip, Rest
from trimwright.quantities import Unit, shown_with_unit

NEVER_MM = 0.05  # less than this is no movement worth a word


class PoseFacts(Struct, frozen=True):
    """The nominal rest.

    Attributes
    ----------
    loose, tight : tuple of float
        Rise [mm], pitch [rad, nose up], roll [rad, right side up], before and after the bolts are
        done up; NaN where it tips.
    nose_loose_mm, nose_tight_mm : float
        How much higher than designed the nose stands.
    about : tuple of float
        The place along and across that it turns about [mm].
    grips : tuple of Grip
        How the nose answers to each bolt.
    """

    loose: tuple[float, float, float]
    tight: tuple[float, float, float]
    nose_loose_mm: float
    nose_tight_mm: float
    about: tuple[float, float]
    grips: tuple[Grip, ...]

    def up_mm(self, x: float, y: float) -> float:
        """Return how much higher than designed it stands at a place in plan, done up [mm]."""
        up, pitch, roll = self.tight
        return up - pitch * (x - self.about[0]) + roll * (y - self.about[1])

    def says(self, unit: Unit) -> str:
        """Return what the bolts do to the nose, as a sentence's second half."""
        change = self.nose_tight_mm - self.nose_loose_mm
        if not isfinite(change):
            return "as written it tips, loose or done up, and there is no figure."
        if not self.grips:
            return "no bolt is given."
        words = [f"done up, the nose stands {_moved(change, unit)} than loose"]
        for grip in self.grips:
            place = _moved(-10 * grip.up_per_mm, unit)
            harder = _moved(grip.up_per_100_n, unit)
            step, pull = shown_with_unit(10.0, unit), f"{grip.pull_n:.0f} N"
            words.append(
                f"the {grip.screw} (about {pull}) set {step} further forward leaves it {place}, "
                f"100 N more of pull {harder}"
            )
        return "; ".join(words) + "."


def _moved(up_mm: float, unit: Unit) -> str:
    """Return a movement of the nose in words."""
    if abs(up_mm) < NEVER_MM:
        return "no higher"
    return f"{shown_with_unit(abs(up_mm), unit)} {'higher' if up_mm > 0 else 'lower'}"


def pose_facts(rest: Rest, world: World) -> PoseFacts:
    """Return the nominal rest loose and done up, and what each bolt does to the nose.

    Parameters
    ----------
    rest : Rest
        The console on its carpet.
    world : World
        The nominal world.
    """
    nose_x = float(rest.bed.points[:, 0].min())
    poses = [rest.pose(world, tight=tight).motion[0] for tight in (False, True)]
    nose = [float(m[0] - m[1] * (nose_x - rest.about[0])) for m in poses]
    about = (float(rest.about[0]), float(rest.about[1]))
    loose, tight = ((float(m[0]), float(m[1]), float(m[2])) for m in poses)
    return PoseFacts(loose, tight, nose[0], nose[1], about, rest.grips(world, nose_x))
