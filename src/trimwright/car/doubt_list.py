"""Every doubt of a build, one factor each, in the order of the file and then of the model."""

from functools import lru_cache
from typing import Final, Literal

from trimwright.build import Build, Reading, readings, value
from trimwright.car.pile import CURVE, HAND, LATH
from trimwright.car.shape import LEVEL, Unmeasured, set_up
from trimwright.car.shift_lever import PIVOT
from trimwright.car.skin import TAPER, between_key, tunnel
from trimwright.car.wording import reading_words, section_words
from trimwright.car.world import CLAMP, NUT_FACTOR
from trimwright.chance import Factor, Ledger
from trimwright.quantities import Doubt
from trimwright.stock import way

TILT: Final = 0.3  # mm per 100 mm, for each mm of a way's set-up doubt; common practice, no source
BENCH: Final = "steel rule"  # what small things are read with
SMALL: Final = frozenset({
    "thick", "loose", "squeezed by hand", "knob", "shaft",
    "sheet", "foam", "leather",
})  # fmt: skip
LAST_SHARE: Final = {"weight": 0.02, "torque": 0.25}  # of the reading; common practice, no source
CURVE_DOUBLINGS: Final = 2.0  # reaches from a locking law to a power law, through two readings
DEGREES: Final = 2.0  # common practice, no source
NEW_MINUTES: Final = 15.0  # to read a section more; common practice, no source


def normal(half_width: float) -> Doubt:
    """Return a normal doubt of a 19-to-1 half width."""
    return Doubt("normal", half_width, half_width)


Kind = Literal["reading", "assumed"]


def default_doubt(reading: Reading) -> Doubt:
    """Return the doubt of a reading that was written without one, by its way and what it is."""
    last = reading.key.rpartition(".")[2]
    if last in LAST_SHARE:
        return normal(LAST_SHARE[last] * reading.quantity.value)
    if reading.key == "car.lever knob.across":
        return way(BENCH).doubt
    if reading.key in ("car.handbrake.down", "car.handbrake.up"):
        return normal(DEGREES)
    return way(BENCH if last in SMALL else reading.way).doubt


def _reading_factor(build: Build, reading: Reading) -> Factor | None:
    own = way(reading.way)
    default = default_doubt(reading)
    written = value(build, reading.key).doubt
    doubt = written if reading.assumed else written or default
    if doubt is None or doubt.sigma == 0:
        return None
    again = min(max(doubt.minus, doubt.plus), default.plus)
    words = reading_words(build, reading)
    kind: Kind = "assumed" if reading.assumed else "reading"
    return Factor(reading.key, words, doubt, kind, own.minutes, again)


def _set_ups(build: Build) -> list[Factor]:
    found = []
    for section in build.car.tunnel:
        own = way(section.by or "tape")
        half = own.setup_mm
        words = section_words(build, section)
        for what, size, says in (
            ("sideways", half, f"sideways place of the whole {words}"),
            ("tilt", TILT * half, f"tilt of the whole {words}, mm per 100 mm"),
        ):
            key = set_up(what, section.key)
            found.append(Factor(key, says, normal(size), "set-up", own.minutes, size))
        if section.rows:
            half = section.depth_doubt_mm
            key, says = set_up("depth", section.key), f"depth of all rows of {words}"
            found.append(Factor(key, says, normal(half), "set-up", own.minutes, half))
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
            normal(float(half)),
            "between sections",
            NEW_MINUTES,
            float(half) / 4,
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
        found.append(Factor(LEVEL, says, normal(40.0), "assumed", NEW_MINUTES, 10.0))
    if alone:
        says = "how the tunnel widens along the car, mm per metre a side"
        found.append(Factor(TAPER, says, normal(60.0), "assumed", NEW_MINUTES, 15.0))
    for section in car.tunnel:
        if section.touched or not section.height_above_floor:
            continue
        half = 0.1 * section.height_above_floor.value
        says = f"how far the shoulder lies below the top at {section_words(build, section)}"
        key = f"assumed:shoulder {section.key}"
        found.append(Factor(key, says, normal(half), "assumed", 2.0, 2.0))
    if car.carpet is not None and car.carpet.pressed:
        half = car.carpet.lath_doubt_mm
        says = "how wide the lath on the carpet is"
        found.append(Factor(LATH, says, normal(half), "assumed", 2.0, half))
    if car.lever is not None:
        says = "how low the lever's pivot lies"
        found.append(Factor(PIVOT, says, normal(60.0), "assumed", 0.0, 60.0))
    return found


def _model(build: Build) -> list[Factor]:
    found = [
        Factor(
            "model:friction",
            "how far friction on the carpet helps to hold it up",
            Doubt("uniform", 0.25, 0.25),
            "model",
            0.0,
            0.25,
        )
    ]
    rug = build.car.carpet
    if rug is not None and rug.loose is not None and (rug.by_hand or rug.pressed):
        if rug.by_hand is not None:
            says = "how hard a hand squeezes the carpet, kPa"
            doubt = Doubt("uniform", 200.0, 200.0)
            found.append(Factor(HAND, says, doubt, "model", 0.0, 200.0))
        says = "how the carpet gives between its readings, doublings of its stiffness"
        found.append(Factor(CURVE, says, normal(CURVE_DOUBLINGS), "model", 5.0, 0.5))
    console = build.console
    half = (NUT_FACTOR.high - NUT_FACTOR.low) / 2
    for number, fixing in enumerate(console.held_by if console is not None else ()):
        says = f"how much of its torque the bolt at {fixing.at.text} turns into pull (nut factor)"
        doubt = Doubt("uniform", half, half)
        found.append(Factor(f"{CLAMP}{number}", says, doubt, "model", 0.0, half))
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


__all__ = ["default_doubt", "ledger"]
