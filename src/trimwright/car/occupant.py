"""What moves beside and on the tunnel: seats through their travel, the handbrake."""

from typing import Final, Literal

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Seat
from trimwright.car.world import World, of_cars

Floats = NDArray[np.float64]

BEYOND: Final = 60.0  # mm above and below the two heights read that a seat's edge is run on
SWING_STEPS: Final = 8  # steps of the handbrake's swing


class SeatSide(Struct, frozen=True, eq=False):
    """One seat's inner edge in every world, over all of its travel.

    `low`, `high` (rows, 2): out from the middle, up [mm]; `start`, `end` (rows,): along [mm].
    """

    side: Literal["left", "right"]
    low: Floats
    high: Floats
    start: Floats
    end: Floats

    @property
    def heights(self) -> tuple[float, float]:
        """Heights [mm] between which the inner edge is given."""
        ends = sorted((float(np.median(self.low[:, 1])), float(np.median(self.high[:, 1]))))
        return ends[0] - BEYOND, ends[1] + BEYOND

    def inner(self, z: Floats) -> Floats:
        """Return how far off the middle [mm] the edge is at heights (n,) or (rows, n), (rows, n).

        The edge runs on straight beyond `heights`, where nobody has read it.
        """
        rise = self.high[:, 1:] - self.low[:, 1:]
        tall = np.abs(rise) > 1.0
        slope = np.where(tall, (self.high[:, :1] - self.low[:, :1]) / np.where(tall, rise, 1.0), 0)
        return np.asarray(self.low[:, :1] + slope * (z - self.low[:, 1:]))


@of_cars
def seats(world: World) -> tuple[SeatSide, ...]:
    """Return the seats that were read, left first."""
    both = world.build.car.seats
    if both is None:
        return ()
    found = []
    sides: tuple[tuple[Literal["left", "right"], Seat | None], ...] = (
        ("left", both.left),
        ("right", both.right),
    )
    for side, seat in sides:
        if seat is None:
            continue
        low, high = (
            np.stack([world.read(edge, "out"), world.read(edge, "up")], axis=-1)
            for edge in (seat.low, seat.high)
        )
        slides = world.read(seat, "slides")
        start, end = world.read(seat, "start"), world.read(seat, "end")
        rearmost = seat.reading_at == "rearmost"
        start, end = (start - slides, end) if rearmost else (start, end + slides)
        found.append(SeatSide(side, low, high, start, end))
    return tuple(found)


class BrakeSwing(Struct, frozen=True, eq=False):
    """The handbrake as round bars through its swing, released first.

    `starts`, `ends`: (rows, k, 3) [mm]; `radius` (rows,). The tip lies ahead of the pivot.
    """

    angles_deg: Floats  # (rows, k) above level
    starts: Floats
    ends: Floats
    radius: Floats


@of_cars
def handbrake(world: World) -> BrakeSwing | None:
    """Return the handbrake through its swing in every world, None where it was not read."""
    bar = world.build.car.handbrake
    if bar is None:
        return None
    pivot = np.stack(
        [world.read(bar.pivot, name) for name in ("behind", "off_middle", "up")], axis=-1
    )
    down, up = world.read(bar, "down"), world.read(bar, "up")
    share = np.linspace(0, 1, SWING_STEPS + 1)
    angles = down[:, None] + share * (up - down)[:, None]
    radius = world.read(bar, "thick") / 2
    reach = (world.read(bar, "long") - radius)[:, None]  # the round end is part of the length
    turned = np.radians(angles)
    out = np.stack([-np.cos(turned), np.zeros_like(turned), np.sin(turned)], axis=-1)
    starts = np.broadcast_to(pivot[:, None], out.shape)
    return BrakeSwing(angles, starts, starts + reach[..., None] * out, radius)
