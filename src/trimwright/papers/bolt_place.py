"""The bolts that hold the console down: where they stand, and which panels are above them."""

import numpy as np
from msgspec import Struct

from trimwright.build import Build
from trimwright.cabin import Cabin
from trimwright.car import Unmeasured
from trimwright.drawing import Point
from trimwright.papers.wording import place_along
from trimwright.parts import Panel
from trimwright.quantities import Unit, shown, shown_with_unit
from trimwright.stock import bolt

LOOSE = 1.1  # hole to thread, as ISO 273:1979 has it for M5, M6 and M10, medium series
REACH_MM = 80.0  # from the face a bolt's head is on to the metal; common practice, no source
UPRIGHT = 0.3  # a panel's plan share of its own area, below which a plumb line does not cross it


class BoltPlace(Struct, frozen=True):
    """One bolt, upright in the tunnel: its number, thread, place along and across the car [mm]."""

    number: int
    thread: str
    at: Point
    hole_mm: float

    @property
    def name(self) -> str:
        """What it is called on paper."""
        return f"bolt {self.number}, {self.thread}"

    def where(self, unit: Unit) -> str:
        """Return its place in words."""
        x, y = self.at
        side = "left" if y < 0 else "right"
        across = "in the middle" if y == 0 else f"{shown(abs(y), unit)} {side}"
        return f"{place_along(x, unit)}, {across}"

    def on(self, panel: Panel) -> Point | None:
        """Return where its plumb line crosses a panel's outer face (u, v); None if it misses it.

        A hole that only touches the panel crosses it too.
        """
        from shapely import Point as Spot  # noqa: PLC0415  lazy: costs 0.14 s
        from shapely import Polygon  # noqa: PLC0415  lazy

        frame = panel.frame
        plan = np.array((frame.u[:2], frame.v[:2])).T
        if abs(np.linalg.det(plan)) < UPRIGHT:
            return None
        u, v = (float(one) for one in np.linalg.solve(plan, np.array(self.at) - frame.origin[:2]))
        wood = Polygon(panel.outer, [hole.outline for hole in panel.holes])
        return (u, v) if wood.distance(Spot(u, v)) < self.hole_mm / 2 else None

    def over_metal(self, cabin: Cabin, panel: Panel, spot: Point) -> float | None:
        """Return how far a panel's face is above the bare metal there [mm]; None if not read."""
        if isinstance(cabin.tunnel, Unmeasured):
            return None
        x, y = (np.array([part]) for part in self.at)
        metal = float(cabin.tunnel.under(x, y).z[0, 0])
        face = float(panel.frame.placed(np.array([spot]))[0, 2])
        return face - metal if np.isfinite(metal) else None


class Passed(Struct, frozen=True):
    """Where a bolt passes a panel: its place on the outer face (u, v), and what to do there."""

    bolt: BoltPlace
    spot: Point
    words: str


def passed(cabin: Cabin, panel: Panel) -> tuple[Passed, ...]:
    """Return the bolts that pass a panel: those plumb under it, and near enough to reach it.

    Where the metal is not read it cannot be told whether they reach: they are drawn, and say so.
    """
    found = []
    unit = cabin.build.unit
    for place in bolt_places(cabin.build):
        spot = place.on(panel)
        if spot is None:
            continue
        high = place.over_metal(cabin, panel, spot)
        if high is not None and high > REACH_MM:
            continue
        said = f"{place.name}: hole {shown_with_unit(place.hole_mm, unit, step='fine')}, "
        said += (
            "if it reaches: how far the metal is was not read"
            if high is None
            else f"{shown_with_unit(high, unit)} from this face to the metal"
        )
        found.append(Passed(place, spot, said))
    return tuple(found)


def bolt_places(build: Build) -> tuple[BoltPlace, ...]:
    """Return the bolts of a console, numbered in the order of the file."""
    fixings = build.console.held_by if build.console else ()
    return tuple(
        BoltPlace(
            number,
            one.bolt,
            (one.at.value, one.off_middle.value),
            LOOSE * bolt(one.bolt).diameter_mm,
        )
        for number, one in enumerate(fixings, start=1)
    )
