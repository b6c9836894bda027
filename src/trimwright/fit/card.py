"""The daylight seen under a card gauge that is offered up to the tunnel."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.car import Tunnel, World

Floats = NDArray[np.float64]
ALONG_CARD = 41  # places at which a card may touch; 10 mm apart on a wide tunnel
SIDE = 0.96  # of the half width: beyond it a card stands on nothing


class CardPlace(Struct, frozen=True):
    """Where daylight was seen: the card's place along the car, and a place across it [mm]."""

    at_mm: float
    across_mm: float


def card_daylight(tunnel: Tunnel, world: World, place: CardPlace) -> Floats:
    """Return the daylight seen at a place, in every world [mm], shape (rows,).

    The card is cut to the skin as read. In a world where the skin is otherwise it comes to stand
    where the skin is higher by most, and elsewhere the difference is seen, its part along the
    skin's normal. The card is lowered straight down and not turned.

    Parameters
    ----------
    tunnel : Tunnel
        The tunnel as lofted.
    world : World
        Deviations.
    place : CardPlace
        Where the card stands and where one looks.
    """
    outline = tunnel.section(place.at_mm)
    low, high = SIDE * float(outline[:, 0].min()), SIDE * float(outline[:, 0].max())
    y = np.append(np.linspace(low, high, ALONG_CARD), min(max(place.across_mm, low), high))
    x = np.full_like(y, place.at_mm)
    plumb = tunnel.plumb(x, y)
    higher = plumb.hit(world).z - plumb.z
    return np.asarray((higher.max(axis=1) - higher[:, -1]) * plumb.normal[-1, 2])
