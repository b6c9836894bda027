"""The covered outside of the carcass: points on its faces and how the covers lift them."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import World
from trimwright.fit.pieces import crossings
from trimwright.fit.source import Scene
from trimwright.parts import Carcass, Panel

Floats = NDArray[np.float64]


def is_deck(panel: Panel) -> bool:
    """Return whether a panel is part of the deck."""
    return panel.name.split()[0] == "deck"


def side_of(panel: Panel) -> str:
    """Return 'left' or 'right' for a wall, else nothing."""
    words = panel.name.split()
    return words[0] if words[0] in ("left", "right") and "wall" in words else ""


def cover_mm(world: World, panel: Panel) -> Floats:
    """Return the thickness of what is glued on a panel's outer face, shape (rows,) [mm]."""
    covers = world.build.covers
    if is_deck(panel):
        cover = covers.deck
    elif side_of(panel):
        cover = covers.walls
    else:
        return np.zeros(world.rows)
    return world.read(cover, "foam") + world.read(cover, "leather")


def turned_in_mm(world: World) -> Floats:
    """Return what the deck's leather takes from an opening on each side, shape (rows,) [mm].

    The leather is turned in over the edge, the foam is cut flush with it: common practice, no
    source.
    """
    return world.read(world.build.covers.deck, "leather")


def thicker_mm(world: World) -> Floats:
    """Return how much thicker the sheet is than written, shape (rows,) [mm]."""
    console = world.build.console
    if console is None:
        raise ValueError("world.build must have a console")
    return world.read(console.sheet, "thickness") - console.sheet.thickness.value


def grows_mm(world: World, panel: Panel) -> Floats:
    """Return how far a panel's outer face stands out because the sheet is thicker, (rows,) [mm].

    Walls that run through stand on a deck cut to its nominal width; a deck that runs through lies
    on walls cut to their nominal height.
    """
    console = world.build.console
    through = console.walls.runs_through if console else "walls"
    stands_out = is_deck(panel) if through == "deck" else bool(side_of(panel))
    return thicker_mm(world) if stands_out else np.zeros(world.rows)


def outside(world: World, panel: Panel) -> Floats:
    """Return how far the covered face lies outside the bare design, shape (rows,) [mm]."""
    return cover_mm(world, panel) + grows_mm(world, panel)


class Patch(Struct, frozen=True, eq=False):
    """Points on the outer face of one panel.

    Attributes
    ----------
    panel : Panel
        The panel they lie on.
    points : ndarray, shape (n, 3)
        On the bare face at the design place [mm].
    """

    panel: Panel
    points: Floats


def covered(patches: tuple[Patch, ...], scene: Scene) -> Floats:
    """Return the points of some patches on their covers, where the console rests, (rows, n, 3)."""
    counts = [len(patch.points) for patch in patches]
    points = np.concatenate([patch.points for patch in patches])
    ways = np.repeat([patch.panel.frame.n for patch in patches], counts, axis=0)
    off = np.stack([outside(scene.world, patch.panel) for patch in patches], axis=-1)
    return scene.placed_off(points, ways, np.repeat(off, counts, axis=1))


def face_patch(
    panel: Panel,
    span: tuple[float, float],
    counts: tuple[int, int],
    heights: tuple[float, float] | None = None,
) -> Patch | None:
    """Return points over the part of a panel's outer face between two places along the car.

    Parameters
    ----------
    panel : Panel
        A wall or a piece of the deck.
    span : tuple of float
        Places along the car [mm].
    counts : tuple of int
        Points along and across.
    heights : tuple of float, optional
        Heights between which they lie, for a wall [mm].

    Returns
    -------
    Patch or None
        None where the panel does not reach into the span, or between the heights.
    """
    outline = np.array(panel.outer)
    along = panel.frame.placed(outline)[:, 0]
    low, high = max(span[0], float(along.min())), min(span[1], float(along.max()))
    if low >= high:
        return None
    # u runs along the car on walls and deck, forward or rearward; x is linear in it on the face
    order = np.argsort(along)
    ends = np.interp([low, high], along[order], outline[order, 0])
    first, last = float(outline[:, 0].min()), float(outline[:, 0].max())
    u = np.clip(np.linspace(ends[0], ends[1], counts[0]), first, last)
    v = crossings(outline, u)
    if heights is not None:
        up = panel.frame.placed(np.stack([u, np.zeros_like(u)], axis=-1))[:, 2]
        band = np.sort((np.array(heights) - up[:, None]) / panel.frame.v[2], axis=1)
        v = np.stack([np.maximum(v[:, 0], band[:, 0]), np.minimum(v[:, 1], band[:, 1])], axis=-1)
        u, v = u[v[:, 0] <= v[:, 1]], v[v[:, 0] <= v[:, 1]]
        if not len(u):
            return None
    share = np.linspace(0.0, 1.0, counts[1])
    across = v[:, :1] + share * (v[:, 1:] - v[:, :1])
    flat = np.stack([np.broadcast_to(u[:, None], across.shape), across], axis=-1)
    return Patch(panel, panel.frame.placed(flat.reshape(-1, 2)))


def decks(carcass: Carcass) -> tuple[Panel, ...]:
    """Return the panels of the deck, front to rear."""
    return tuple(panel for panel in carcass.panels if is_deck(panel))


def walls(carcass: Carcass, side: str) -> tuple[Panel, ...]:
    """Return the walls of a side, front to rear."""
    return tuple(panel for panel in carcass.panels if side_of(panel) == side)


def console_span(build: Build, carcass: Carcass) -> tuple[float, float]:
    """Return the front and rear of the deck [mm along]."""
    del build
    x = np.concatenate([panel.outer_points()[:, 0] for panel in decks(carcass)])
    return float(x.min()), float(x.max())
