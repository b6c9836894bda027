"""The console's bolts as pulls, from their threads and torques."""

from trimwright.build import Build, Fixing
from trimwright.fit.clamp import clamp_force_n
from trimwright.fit.rest import Screw
from trimwright.stock import bolt, nut_factor

FINISH = "zinc plated"  # what hardware shops sell


def screws(build: Build) -> tuple[Screw, ...]:
    """Return the bolts that hold the console down.

    Pull = torque / (K d), K in the middle of its range for the finish as 1/K; the wide doubt of
    that is a factor of the ledger.

    Raises
    ------
    ValueError
        If a bolt's thread is in no table.
    """
    return tuple(_screw(fixing) for fixing in (build.console.held_by if build.console else ()))


def _screw(fixing: Fixing) -> Screw:
    """Return one bolt as a pull."""
    spread = nut_factor(FINISH)
    middle = 2 / (1 / spread.low + 1 / spread.high)
    return Screw(
        f"bolt at {fixing.at.text}",
        fixing.at.value,
        fixing.off_middle.value,
        clamp_force_n(1.0, middle, bolt(fixing.bolt).diameter_mm),
        f"model:clamp {fixing.key}",
        fixing,
    )
