"""Gaps 'daylight left wall' and 'daylight right wall': what can be seen under a lower edge."""

from typing import Literal

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import Tunnel
from trimwright.fit.bed import Bed, beds, feet
from trimwright.fit.gap import Gap, Unknown
from trimwright.fit.shell import side_of
from trimwright.fit.source import Found, Scene, point
from trimwright.fit.strip import Strip
from trimwright.parts import Carcass

Floats = NDArray[np.float64]
Over = Literal["carpet", "tunnel"]
SIDES = ("left", "right")
POINTS = 17  # along each wall's visible edge


class Daylight(Struct, frozen=True, eq=False):
    """The visible lower edge of one side over the carpet.

    Attributes
    ----------
    gap : Gap
        Wanted at most.
    bed : Bed
        Points on the outer line of the edges over the tunnel.
    tunnel : Tunnel
        For the layers.
    over : {'carpet', 'tunnel'}
        Whether it is seen over the loose carpet, or over the metal with its layers.
    """

    gap: Gap
    bed: Bed
    tunnel: Tunnel
    over: Over = "carpet"

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """The one gap."""
        return (self.gap,)

    def found(self, scene: Scene) -> Found:
        """Return the widest opening, straight up; below 0 it is sunk in."""
        soft = scene.soft.loose * (1.0 if self.over == "carpet" else 0.0)
        contact = self.bed.contact(scene.world, self.tunnel, soft, scene.about)
        above = self.bed.climb(scene.motion, scene.about) - contact.overlap
        widest = int(np.argmax(above[0]))
        edge = scene.nominal(self.bed.points[widest : widest + 1])[0]
        under = (float(edge[0]), float(edge[1]), float(edge[2] - above[0, widest]))
        return Found(above.max(axis=1)[:, None], ((point(edge), under),))


def visible_lines(carcass: Carcass) -> tuple[tuple[Strip, ...], tuple[Strip, ...]]:
    """Return points along what is seen of the left and of the right walls' lower edges."""
    left, right = (
        tuple(
            _line(edge.outer, edge.panel)
            for edge in carcass.lower_edges
            if edge.panel in {panel.name for panel in carcass.panels if side_of(panel) == side}
        )
        for side in SIDES
    )
    return left, right


def daylight(
    build: Build, tunnel: Tunnel, under: tuple[Bed | None, ...]
) -> tuple[tuple[Daylight, ...], tuple[Unknown, ...]]:
    """Return the visible gap under each side's walls, and what is missing for them.

    Parameters
    ----------
    build : Build
        For the wanted gap.
    tunnel : Tunnel
        For the layers.
    under : tuple of Bed or None
        The bed under the `visible_lines` of the left and of the right side.
    """
    found, unknown = [], []
    for side, over in zip(SIDES, under, strict=True):
        name = f"daylight {side} wall"
        if over is None:
            missing = (f"the tunnel under the {side} wall",)
            unknown.append(Unknown(name, missing, ("car.tunnel",)))
            continue
        says = "straight up from the loose carpet to the wall's lower edge outside, at its widest"
        on = ("car.tunnel", "car.carpet", "car.layers", "console.scribe")
        wanted = build.wanted.daylight.value
        gap = Gap(name, says, (f"{side} wall", "carpet"), wanted, on, sense="at most")
        found.append(Daylight(gap, over, tunnel))
    return tuple(found), tuple(unknown)


def daylight_at(
    gap: Gap, place: Floats, panel: str, tunnel: Tunnel, scene: Scene, over: Over
) -> Daylight | None:
    """Return the opening under one point of an edge, None where no tunnel was read under it.

    Parameters
    ----------
    gap : Gap
        What it is called.
    place : ndarray, shape (3,)
        On the edge, at the design place [mm].
    panel : str
        The panel whose edge it is.
    tunnel : Tunnel
        Under it.
    scene : Scene
        The nominal row, with the console at rest.
    over : {'carpet', 'tunnel'}
        As in `Daylight`.
    """
    strip = Strip(place[None], np.ones(1), np.zeros(1, int), panel)
    low = scene.nominal(place[None])
    (under,) = beds(((strip,),), tunnel, feet(tunnel, low))
    return None if under is None else Daylight(gap, under, tunnel, over)


def _line(line: Floats, panel: str) -> Strip:
    """Return evenly chosen points of an edge's outer line, both ends included."""
    pick = np.unique(np.linspace(0, len(line) - 1, min(POINTS, len(line))).round().astype(int))
    return Strip(line[pick], np.ones(len(pick)), np.arange(len(pick)), panel)
