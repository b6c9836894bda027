"""Trunks across a hinge: how the bundle lies from closed to open, and what it would need."""

from functools import cached_property

from msgspec import Struct

from trimwright.build import Hinge
from trimwright.stock import Factor, flex_strand
from trimwright.stock import Wire as StockWire
from trimwright.wiring.bundle import Bend, Bundle, tightest_moving
from trimwright.wiring.bundling import Bundling, bundlings, wrapped
from trimwright.wiring.loom import Wire, free_mm, lead_of, swing_of
from trimwright.wiring.made_of import made_of
from trimwright.wiring.outcome import WiringOutcome
from trimwright.wiring.swing import (
    Lead,
    Lying,
    NoShapeError,
    Swing,
    bears,
    lyings,
    needed_mm,
    tightest,
)

MM_PER_M = 1000.0


class Coarse(Struct, frozen=True):
    """A wire whose strands are thicker than those of a flexible conductor of its area."""

    wire: Wire
    strand_mm: float
    finest: Factor


class Crossing(Struct, frozen=True, eq=False, dict=True):
    """What crosses a hinge in one trunk.

    Attributes
    ----------
    own : Bundling
        What lies in the trunk.
    hinge : Hinge
        As in the build.
    swing, lead : Swing, Lead
        The same as geometry.
    free_mm : float
        The loom's length between the holes [mm]: where it is not written the longest straight way.
    slack : float
        What the builder adds to the length of a wire, as a share.
    coarse : tuple of Coarse
        Its wires whose strands are too thick for one that moves, as they are sold.
    """

    own: Bundling
    hinge: Hinge
    swing: Swing
    lead: Lead
    free_mm: float
    slack: float
    coarse: tuple[Coarse, ...]

    @property
    def longest_mm(self) -> float:
        """The furthest that the holes are ever apart, straight [mm]."""
        return self.swing.straight_mm(self.swing.longest_deg)

    @property
    def closest_mm(self) -> float:
        """The closest that the holes ever are, straight [mm]."""
        return self.swing.straight_mm(self.swing.closest_deg)

    @property
    def stiffest(self) -> Bundle | None:
        """What has to bear the bend: the bundle, of loose wires the thickest; None if not known."""
        packed = self.own.bundle
        if packed is None or self.hinge.wires == "wrapped":
            return packed
        return wrapped((max(packed.diameters_mm),))

    @property
    def bend(self) -> Bend | None:
        """The tightest bend it bears as it moves, inside; None if not known."""
        return None if self.stiffest is None else tightest_moving(self.stiffest)

    @property
    def limit_mm(self) -> float | None:
        """The least radius of its middle line that it bears [mm]; None if not known."""
        if self.stiffest is None or self.bend is None:
            return None
        return self.bend.radius_mm + self.stiffest.diameter_mm / 2

    @cached_property
    def lyings(self) -> tuple[Lying, ...]:
        """How it lies from closed to open; nothing where it is stretched, or no shape is found."""
        if not self.free_mm > self.longest_mm:
            return ()
        try:
            return lyings(self.swing, self.lead, self.free_mm)
        except NoShapeError:
            return ()

    @property
    def tightest(self) -> Lying | None:
        """Where it bends the tightest; None without a shape."""
        return tightest(self.lyings) if self.lyings else None

    @property
    def needed_mm(self) -> float | None:
        """The shortest length that is nowhere stretched or bent too tight [mm]; None if none is."""
        limit = self.limit_mm
        return None if limit is None else needed_mm(self.swing, self.lead, limit, self.slack)

    def bears(self, free_mm: float) -> bool:
        """Return whether with another length [mm] it would nowhere be stretched or bent too tight."""
        limit = self.limit_mm
        return limit is not None and bears(self.swing, self.lead, limit, free_mm)


def crossings(found: WiringOutcome) -> tuple[Crossing, ...]:
    """Return what crosses a hinge in each trunk that does, in the order of the file."""
    sold = {name: own.stock for name, own in made_of(found).items()}
    return tuple(
        Crossing(
            own,
            hinge,
            swing_of(hinge),
            lead_of(hinge),
            free_mm(hinge),
            found.wiring.slack.value / MM_PER_M,
            _coarse(own, hinge, sold),
        )
        for own in bundlings(found)
        if (hinge := own.trunk.hinge) is not None
    )


def _coarse(own: Bundling, hinge: Hinge, sold: dict[str, StockWire | None]) -> tuple[Coarse, ...]:
    """Return the wires of a trunk whose strands are too thick, where fine ones are not taken."""
    if hinge.strands == "fine":
        return ()
    told = []
    for wire in own.wires:
        copper = sold[wire.name]
        if copper is None:
            continue
        finest = flex_strand(copper.conductor.area_mm2)
        if copper.strand_mm > finest.value:
            told.append(Coarse(wire, copper.strand_mm, finest))
    return tuple(told)
