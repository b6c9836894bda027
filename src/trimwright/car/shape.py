"""From a section as the builder wrote it to points that follow its readings."""

from dataclasses import dataclass

import numpy as np

from trimwright.build import Car, Corner, Entry, Section, said
from trimwright.car.bite import joined
from trimwright.car.section import SectionShape, Term
from trimwright.quantities import Quantity

SHOULDER_SHARE = 0.2  # of the height: how far the shoulder lies below the top, if not read
SHOULDER = (0.35, 0.65, 0.85, 1.0)  # shares of the shoulder's half width; drop goes with the cube
SIDE = (0.25, 0.5, 0.75, 1.0)  # shares of the straight side
TOP_APART = 5.0  # mm: a point nearer the middle than this is the top


class Unmeasured(ValueError):  # noqa: N818  it says what is not there; nothing went wrong
    """Something cannot be computed because it has not been read; `missing` names the keys."""

    def __init__(self, says: str, missing: tuple[str, ...]) -> None:
        super().__init__(says)
        self.missing = missing


@dataclass(frozen=True, slots=True)
class Sum:
    """A figure as a sum of readings: (key, reading, times), and a fixed part."""

    fixed: float = 0.0
    parts: tuple[tuple[str, float, float], ...] = ()

    def plus(self, other: "Sum", times: float = 1.0) -> "Sum":
        """Return this and `times` the other."""
        more = tuple((key, reading, part * times) for key, reading, part in other.parts)
        return Sum(self.fixed + times * other.fixed, self.parts + more)

    @property
    def value(self) -> float:
        """The figure as read."""
        return self.fixed + sum(reading * times for _, reading, times in self.parts)


Place = tuple[Sum, Sum]  # y, z


def read(entry: Entry, field: str) -> Sum:
    """Return one reading of an entry as a sum."""
    figure: Quantity = getattr(entry, field)
    key, times = said(entry, field)
    return Sum(0.0, ((key, figure.value / times, times),))


def layers_over(car: Car, over: str, at_mm: float) -> Sum:
    """Return the thickness between the metal and what a reading was taken over, at a place.

    Raises
    ------
    Unmeasured
        If what it was taken over is unknown there.
    """
    total = Sum()
    if over == "bare metal":
        return total
    for layer in car.layers:
        if layer.start.value <= at_mm <= layer.end.value:
            total = total.plus(read(layer, "thick"))
        if layer.name == over:
            return total
    if over == "carpet" and car.carpet is not None and car.carpet.loose is not None:
        return total.plus(read(car.carpet, "loose"))
    raise Unmeasured(f"thickness of '{over}' is not known", ("car.carpet.loose", "car.layers"))


def floor_height(car: Car) -> Sum | None:
    """Return the floor's height above the datum level, None where nothing says it."""
    if car.floor_below_string is not None and car.datum is not None and car.datum.string:
        return read(car.datum, "string").plus(read(car, "floor_below_string"), -1)
    sections = [one for one in car.tunnel if one.height_above_floor or one.top_from == "floor"]
    if not sections:
        return None
    nearest = min(sections, key=lambda one: abs(one.at.value))
    height = "height_above_floor" if nearest.height_above_floor else "top"
    level = Sum(0.0, ((LEVEL, 0.0, nearest.at.value / 1000),))
    return level.plus(read(nearest, height), -1)


LEVEL = "assumed:tunnel level"  # mm per metre rearward


def top_height(car: Car, section: Section) -> Sum:
    """Return the height of the tunnel's top at a section, over what it was taken over."""
    if section.top is not None and section.top_from == "string":
        if car.datum is None or car.datum.string is None:
            says = "a top read below the string needs the string's height above the tunnel"
            raise Unmeasured(says, ("car.datum.string above tunnel",))
        return read(car.datum, "string").plus(read(section, "top"), -1)
    floor = floor_height(car)
    height = "top" if section.top is not None else "height_above_floor"
    if floor is not None and getattr(section, height) is not None:
        return floor.plus(read(section, height))
    # the top is at 0 at the datum; elsewhere it is taken to run level
    return Sum(0.0, ((LEVEL, 0.0, section.at.value / 1000),))


def shape_of(car: Car, index: int) -> SectionShape:
    """Return section `index` of the car as points that follow its readings.

    Raises
    ------
    Unmeasured
        If there are not enough readings for a curve, or what it was taken over is unknown.
    """
    section = car.tunnel[index]
    top = top_height(car, section)
    places = _places(section, top)
    if len(places) < 3:  # noqa: PLR2004  left, top, right
        says = f"a section at {section.at.text or section.at.value} has fewer than 3 points"
        raise Unmeasured(says, (f"{section.key}.down ...",))
    over = layers_over(car, section.over, section.at.value)
    fixed, terms = _affine(places, over)
    middle = np.array([0.0, top.value])
    values = fixed + sum(term.value * term.share for term in terms)
    around = np.stack([middle[1] - values[:, 1], values[:, 0]], axis=-1) / 100
    rigid = (
        Term(set_up("sideways", section.key), 0.0, np.tile([1.0, 0.0], (len(fixed), 1))),
        Term(set_up("tilt", section.key), 0.0, around),
    )
    corners = tuple(sorted({_corner(section, values, top.value, one) for one in section.corners}))
    at_key = said(section, "at").key
    return SectionShape(section.at.value, at_key, fixed, (*terms, *rigid), corners)


def set_up(what: str, key: str) -> str:
    """Return the key of an error that a whole section shares."""
    return f"set-up:{what} {key}"


def _affine(places: list[Place], over: Sum) -> tuple[np.ndarray, tuple[Term, ...]]:
    """Return the fixed points and one term a reading, in order of first use."""
    fixed = np.array([[y.fixed, z.fixed] for y, z in places])
    readings: dict[str, float] = {}
    shares: dict[str, np.ndarray] = {}
    for row, place in enumerate(places):
        for axis, one in enumerate(place):
            for key, reading, times in one.parts:
                readings[key] = reading
                shares.setdefault(key, np.zeros_like(fixed))[row, axis] += times
    lifts: dict[str, float] = {}
    for key, reading, times in over.parts:
        readings.setdefault(key, reading)
        lifts[key] = lifts.get(key, 0.0) + times
    blank = np.zeros_like(fixed)
    return fixed, tuple(
        Term(key, value, shares.get(key, blank), lifts.get(key, 0.0))
        for key, value in readings.items()
    )


def _places(section: Section, top: Sum) -> list[Place]:
    if section.bites:
        return _bite_places(section, top)
    if section.points:
        own = [
            (read(point, "off_middle"), top.plus(read(point, "down"), -1))
            for point in section.points
        ]
        return _with_top(own, top)
    if section.rows:
        return _row_places(section, top)
    if section.width_at_shoulder and section.width_at_floor and section.height_above_floor:
        return _width_places(section, top)
    return []


def _row_places(section: Section, top: Sum) -> list[Place]:
    rows = sorted(section.rows, key=lambda row: row.down.value)
    right = [(read(row, "right"), top.plus(read(row, "down"), -1)) for row in rows if row.right]
    left = [
        (Sum().plus(read(row, "left"), -1), top.plus(read(row, "down"), -1))
        for row in reversed(rows)
        if row.left
    ]
    return [*left, (Sum(), top), *right]


def _with_top(places: list[Place], top: Sum) -> list[Place]:
    """Return the points with the top among them, unless one of them is the top."""
    if any(abs(y.value) < TOP_APART for y, _ in places):
        return places
    left = [place for place in places if place[0].value < 0]
    return [*left, (Sum(), top), *places[len(left) :]]


def _width_places(section: Section, top: Sum) -> list[Place]:
    """Return a smooth section from three widths and heights; its shoulder is assumed.

    From the top the half section falls with the cube of the distance to the shoulder, then runs
    straight to the floor.
    """
    shoulder, floor = read(section, "width_at_shoulder"), read(section, "width_at_floor")
    height = read(section, "height_above_floor")
    drop = Sum(0.0, ((f"assumed:shoulder {section.key}", SHOULDER_SHARE * height.value, 1.0),))
    right: list[Place] = [
        (Sum().plus(shoulder, share / 2), top.plus(drop, -(share**3))) for share in SHOULDER
    ]
    for share in SIDE:
        y = Sum().plus(shoulder, (1 - share) / 2).plus(floor, share / 2)
        right.append((y, top.plus(drop, share - 1).plus(height, -share)))
    left = [(Sum().plus(y, -1), z) for y, z in reversed(right)]
    return [*left, (Sum(), top), *right]


def _bite_places(section: Section, top: Sum) -> list[Place]:
    bites = [
        [(p.letter, p.off_middle.value, -p.down.value) for p in bite.points]
        for bite in section.bites
    ]
    placed = joined(bites)
    entries = [point for bite in section.bites for point in bite.points]
    places: list[Place] = []
    for entry, (y, z), first in zip(entries, placed.points, placed.kept, strict=True):
        if first:
            across, down = read(entry, "off_middle"), read(entry, "down")
            high = Sum(float(z) + down.value).plus(down, -1)
            places.append((Sum(float(y) - across.value).plus(across), top.plus(high)))
    return _with_top(places, top)


def _corner(section: Section, values: np.ndarray, top_mm: float, corner: Corner) -> int:
    """Return the number of the point that a corner names."""
    down, side = corner.down.value, -1.0 if corner.side == "left" else 1.0
    off = np.abs(values[:, 1] - (top_mm - down)) + np.where(values[:, 0] * side > 0, 0.0, 1e6)
    nearest = int(np.argmin(off))
    if off[nearest] > 1.0 or nearest in (0, len(values) - 1):
        raise Unmeasured(
            f"the corner 'down {down:g} {corner.side}' is no inner reading of its section",
            (f"{section.key}.corners",),
        )
    return nearest
