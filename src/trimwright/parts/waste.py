"""What is cut away between two states of a carcass, and where the saw runs."""

from typing import Literal

import numpy as np
from msgspec import Struct

from trimwright.parts.carcass import Carcass
from trimwright.parts.panel import Outline, Panel

CRUMB = 0.01  # mm2; less is rounding
MITRE_LIMIT = 10.0  # how far a sharp corner may be drawn out, in offsets


class Waste(Struct, frozen=True):
    """Wood to take off one face of a panel, as polygons in the axes of the panel before."""

    panel: str
    face: Literal["outer", "inner"]
    polygons: tuple[Outline, ...]
    area_mm2: float


def waste(before: Carcass, after: Carcass) -> tuple[Waste, ...]:
    """Return what must be cut off each panel to turn one carcass into another.

    Parameters
    ----------
    before, after : Carcass
        Panels as they are, and as wanted. A panel that `after` lacks is left out.

    Returns
    -------
    tuple of Waste
        Panel by panel, outer face first; faces without waste are left out. A panel is compared
        where it stands: what is wanted is projected square to it, and so what must be added
        (a longer panel) does not show.
    """
    wanted = {panel.name: panel for panel in after.panels}
    found = []
    for panel in before.panels:
        if panel.name in wanted:
            found += _faces(panel, wanted[panel.name])
    return tuple(found)


def _faces(panel: Panel, wanted: Panel) -> list[Waste]:
    """Compare both faces of a panel."""
    from shapely import Polygon, get_parts  # noqa: PLC0415  lazy: costs 0.14 s

    found = []
    pairs: tuple[tuple[Literal["outer", "inner"], Outline, Outline, float], ...] = (
        ("outer", panel.outer, wanted.outer, 0.0),
        ("inner", panel.inner, wanted.inner, wanted.thickness),
    )
    for face, mine, theirs, depth in pairs:
        target = panel.frame.flat(wanted.frame.placed(np.array(theirs), depth))
        left = Polygon(mine).difference(Polygon(target))
        parts = [p for p in get_parts(left) if isinstance(p, Polygon) and p.area > CRUMB]
        rings = tuple(tuple((float(u), float(v)) for u, v in p.exterior.coords[:-1]) for p in parts)
        if rings:
            area = float(sum(part.area for part in parts))
            found.append(Waste(panel.name, face, rings, area))
    return found


def saw_line(outline: Outline, kerf_mm: float) -> Outline:
    """Return where the middle of the blade runs, so that the outline stays whole.

    Parameters
    ----------
    outline : tuple of (u, v)
        Counter-clockwise outline of a face [mm].
    kerf_mm : float
        Width of the cut [mm].

    Returns
    -------
    tuple of (u, v)
        The outline, half a kerf further out, counter-clockwise.

    Examples
    --------
    >>> from shapely import Polygon
    >>> Polygon(saw_line(((0.0, 0.0), (10.0, 0.0), (10.0, 5.0), (0.0, 5.0)), 2.0)).bounds
    (-1.0, -1.0, 11.0, 6.0)
    """
    from shapely import Polygon  # noqa: PLC0415  lazy: costs 0.14 s
    from shapely.geometry.polygon import orient  # noqa: PLC0415  lazy

    grown = Polygon(outline).buffer(kerf_mm / 2, join_style="mitre", mitre_limit=MITRE_LIMIT)
    return tuple((float(u), float(v)) for u, v in orient(grown).exterior.coords[:-1])
