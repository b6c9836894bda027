"""From a section as the builder wrote it to points that follow its readings."""

import numpy as np

from trimwright.build import Car, Corner, Section, said
from trimwright.car.reading_sum import Place, Sum, read
from trimwright.car.section import SectionShape, Term
from trimwright.car.touched import places_of


class Unmeasured(ValueError):  # noqa: N818  it says what is not there; nothing went wrong
    """Something cannot be computed because it has not been read; `missing` names the keys."""

    def __init__(self, says: str, missing: tuple[str, ...]) -> None:
        super().__init__(says)
        self.missing = missing


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
    places = places_of(section, top)
    if len(places) < 3:  # noqa: PLR2004  left, top, right
        says = f"a section at {section.at.text or section.at.value} has fewer than 3 points"
        raise Unmeasured(says, (f"{section.key}.down ...",))
    over = layers_over(car, section.over, section.at.value)
    fixed, terms = affine(places, over)
    middle = np.array([0.0, top.value])
    values = fixed + sum(term.value * term.share for term in terms)
    around = np.stack([middle[1] - values[:, 1], values[:, 0]], axis=-1) / 100
    rigid: tuple[Term, ...] = (
        Term(set_up("sideways", section.key), 0.0, np.tile([1.0, 0.0], (len(fixed), 1))),
        Term(set_up("tilt", section.key), 0.0, around),
    )
    if section.rows:  # its depths are set on the gauge, counted from the top: all are off alike
        sunk = np.stack([np.zeros(len(values)), -1.0 * (values[:, 0] != 0)], axis=-1)
        rigid += (Term(set_up("depth", section.key), 0.0, sunk),)
    corners = tuple(sorted({_corner(section, values, top.value, one) for one in section.corners}))
    at_key = said(section, "at").key
    return SectionShape(section.at.value, at_key, fixed, (*terms, *rigid), corners)


def set_up(what: str, key: str) -> str:
    """Return the key of an error that a whole section shares."""
    return f"set-up:{what} {key}"


def affine(places: list[Place], over: Sum) -> tuple[np.ndarray, tuple[Term, ...]]:
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
