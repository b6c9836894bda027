"""The console's bolts as pulls, from their threads and torques."""

from trimwright.build import Build, Fixing, said
from trimwright.fit.clamp import clamp_force_n
from trimwright.fit.gap import Unknown
from trimwright.fit.rest import Screw
from trimwright.stock import bolt, nut_factor

FINISH = "zinc plated"  # what hardware shops sell


def screws(build: Build) -> tuple[tuple[Screw, ...], tuple[Unknown, ...]]:
    """Return the bolts that hold the console down, and those whose pull is not known.

    Pull = torque / (K d), K in the middle of its range for the finish as 1/K; the wide doubt of
    that is a factor of the ledger.
    """
    found, unknown = [], []
    for fixing in build.console.held_by if build.console else ():
        name = f"bolt at {fixing.at.text}"
        try:
            diameter = bolt(fixing.bolt).diameter_mm
        except ValueError as fault:
            unknown.append(Unknown(f"pull of the {name}", (str(fault),), (f"{fixing.key}.bolt",)))
            continue
        found.append(_screw(fixing, name, diameter))
    return tuple(found), tuple(unknown)


def _screw(fixing: Fixing, name: str, diameter_mm: float) -> Screw:
    """Return one bolt as a pull."""
    spread = nut_factor(FINISH)
    middle = 2 / (1 / spread.low + 1 / spread.high)
    return Screw(
        name,
        fixing.at.value,
        fixing.off_middle.value,
        clamp_force_n(1.0, middle, diameter_mm),
        said(fixing, "torque").key,
        f"model:clamp {fixing.key}",
    )
