"""Every doubt of a build, one factor each, in the order of the file and then of the model."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from trimwright.build import Build, Reading, readings
from trimwright.car.pile import CURVE, HAND
from trimwright.car.shape import LEVEL, Unmeasured, set_up
from trimwright.car.shift_lever import PIVOT
from trimwright.car.skin import TAPER, between_key, tunnel
from trimwright.car.wording import reading_words, section_words
from trimwright.chance import Factor, Ledger
from trimwright.quantities import Doubt


@dataclass(frozen=True, slots=True)
class Way:
    """What a way of measuring leaves in doubt, 19 to 1 [mm], and its effort [min] a reading."""

    half_width: float
    minutes: float
    sideways: float  # of a whole section, against the car's middle
    tilt: float  # of a whole section, mm per 100 mm


# common practice, no source
WAYS: Final[dict[str, Way]] = {
    "tape": Way(3.0, 2.0, 3.0, 1.0),
    "contour gauge": Way(1.5, 0.5, 2.0, 0.5),
    "rule": Way(1.0, 1.0, 2.0, 0.5),
    "calliper": Way(0.3, 2.0, 2.0, 0.5),
    "tick stick": Way(2.0, 1.0, 2.0, 0.8),
    "scan": Way(1.0, 0.05, 1.5, 0.3),
}
SECTION_AGAIN: Final = 12.0  # min to set up a section once more; common practice, no source
SECTION_NEW: Final = 15.0  # min to read a section more; common practice, no source
BY_SORT: Final[dict[str, float]] = {"weight": 0.02, "deg": 2.0}  # share of it; degrees


def normal(half_width: float) -> Doubt:
    """Return a normal doubt of a 19-to-1 half width."""
    return Doubt("normal", half_width, half_width)


def way_of(name: str) -> Way:
    """Return a way of measuring by its name; a name we do not know counts as a tape."""
    return WAYS.get(name, WAYS["tape"])


def default_doubt(reading: Reading) -> Doubt:
    """Return the doubt of a reading that was written without one, by its way and what it is."""
    last = reading.key.rpartition(".")[2]
    if last == "weight":
        return normal(BY_SORT["weight"] * reading.quantity.value)
    if last in ("down", "up") and ".handbrake." in reading.key:
        return normal(BY_SORT["deg"])
    if last == "torque":
        return normal(0.25 * reading.quantity.value)
    return normal(way_of(reading.way).half_width)


def _reading_factor(build: Build, reading: Reading) -> Factor | None:
    default = default_doubt(reading)
    doubt = reading.quantity.doubt or default
    if doubt.sigma == 0:
        return None
    return Factor(
        reading.key, reading_words(build, reading), doubt, "reading",
        way_of(reading.way).minutes, max(doubt.minus, doubt.plus),
    )


def _set_ups(build: Build) -> list[Factor]:
    found = []
    for section in build.car.tunnel:
        way = way_of(section.by or "tape")
        words = section_words(build, section)
        for what, half, says in (
            ("sideways", way.sideways, f"sideways place of the whole {words}"),
            ("tilt", way.tilt, f"tilt of the whole {words}, mm per 100 mm"),
        ):
            key = set_up(what, section.key)
            found.append(Factor(key, says, normal(half), "set-up", SECTION_AGAIN, half))
    return found


def _between(build: Build) -> list[Factor]:
    try:
        skin = tunnel(build.car)
    except Unmeasured:
        return []
    ordered = sorted(build.car.tunnel, key=lambda one: one.at.value)
    return [
        Factor(
            between_key(gap),
            f"the tunnel between {section_words(build, ordered[gap])} and "
            f"{section_words(build, ordered[gap + 1])}",
            normal(float(half)), "between sections", SECTION_NEW, float(half) / 4,
        )
        for gap, half in enumerate(skin.doubts)
        if half > 0
    ]


def _assumed(build: Build) -> list[Factor]:
    """Return the doubts of what was assumed about the car's shape; common practice, no source."""
    found = []
    car = build.car
    alone = len(car.tunnel) == 1
    if alone or any(one.top is None for one in car.tunnel):
        says = "how level the tunnel runs, mm per metre"
        found.append(Factor(LEVEL, says, normal(40.0), "assumed", SECTION_NEW, 10.0))
    if alone:
        says = "how the tunnel widens along the car, mm per metre a side"
        found.append(Factor(TAPER, says, normal(60.0), "assumed", SECTION_NEW, 15.0))
    for section in car.tunnel:
        if section.rows or section.points or section.bites or not section.height_above_floor:
            continue
        half = 0.1 * section.height_above_floor.value
        says = f"how far the shoulder lies below the top at {section_words(build, section)}"
        key = f"assumed:shoulder {section.key}"
        found.append(Factor(key, says, normal(half), "assumed", 2.0, 2.0))
    if car.lever is not None:
        says = "how low the lever's pivot lies"
        found.append(Factor(PIVOT, says, normal(60.0), "assumed", 0.0, 60.0))
    return found


def _model(build: Build) -> list[Factor]:
    found = [
        Factor("model:friction", "how far friction on the carpet helps to hold it up",
               Doubt("uniform", 0.25, 0.25), "model", 0.0, 0.25)
    ]
    rug = build.car.carpet
    if rug is not None and rug.loose is not None and (rug.by_hand or rug.pressed):
        if rug.by_hand is not None:
            says = "how hard a hand squeezes the carpet, kPa"
            doubt = Doubt("uniform", 200.0, 200.0)
            found.append(Factor(HAND, says, doubt, "model", 0.0, 200.0))
        half = 1.0 if rug.pressed else 2.0
        says = "how the carpet gives between its readings, doublings of its stiffness"
        found.append(Factor(CURVE, says, normal(half), "model", 5.0, 0.5))
    console = build.console
    for fixing in console.held_by if console is not None else ():
        key = f"model:clamp {fixing.key}"
        says = f"clamp force of the bolt at {fixing.at.text}, share of what its torque gives"
        found.append(Factor(key, says, normal(0.5), "model", 0.0, 0.5))
    return found


@lru_cache(maxsize=8)
def ledger(build: Build) -> Ledger:
    """Return every doubt of a build, in a stable order.

    Readings in the order of the file's schema, with the doubt written or that of their way; then
    the errors that a whole section shares, the tunnel between sections, what was assumed, and
    the model's own doubts.
    """
    found = [_reading_factor(build, one) for one in readings(build)]
    seen = tuple(one for one in found if one is not None)
    return Ledger((*seen, *_set_ups(build), *_between(build), *_assumed(build), *_model(build)))


__all__ = ["Way", "default_doubt", "ledger", "way_of"]
