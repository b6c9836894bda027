"""The kinds of value a field may hold: how each is read, and whether it carries a doubt.

A *measured* field was read off the car or the bench and carries a doubt; a *chosen* field is the
builder's wish and has none. Every reader gets the text as typed and the build's unit.
"""

import re
from collections.abc import Callable
from functools import lru_cache
from typing import Annotated, Any, Literal

from msgspec import Struct
from msgspec.structs import replace
from pydantic import BeforeValidator, ValidationInfo

from trimwright.quantities import (
    Quantity,
    QuantityError,
    Unit,
    across,
    along,
    angle,
    charge,
    count,
    current,
    duration,
    hours,
    length,
    mass,
    meter_voltage,
    power,
    price,
    resistance,
    share,
    torque,
    upward,
    voltage,
    warmth,
    wire_size,
)

Reader = Callable[[str, Unit], Quantity]


class Role(Struct, frozen=True):
    """Whether a field is measured or chosen, and what sort of value it is."""

    role: Literal["measured", "chosen"]
    sort: str


def _unit(info: ValidationInfo) -> Unit:
    """Return the build's unit, handed down while a file is read."""
    unit: Unit = info.context["unit"] if info.context else "mm"
    return unit


def _text(value: object) -> str:
    """Return the text as typed; anything else was built wrongly by a programmer."""
    if not isinstance(value, str):
        raise QuantityError(f"{value!r}", "text as a builder types it", "15 ± 1", ())
    return value


@lru_cache(maxsize=8192)
def _read(read: Reader, text: str, unit: Unit) -> Quantity:
    """Return what a reader makes of a text; the same text is read once."""
    return read(text, unit)


def _measured(read: Reader) -> BeforeValidator:
    def before(value: Any, info: ValidationInfo) -> Quantity:  # noqa: ANN401  pydantic hands anything
        return value if isinstance(value, Quantity) else _read(read, _text(value), _unit(info))

    return BeforeValidator(before)


def _chosen(read: Reader) -> BeforeValidator:
    def before(value: Any, info: ValidationInfo) -> Quantity:  # noqa: ANN401  pydantic hands anything
        if isinstance(value, Quantity):
            return value
        found = _read(read, _text(value), _unit(info))
        if found.doubt is not None:
            bare = re.split(r"±|\+/-|\+-", _text(value))[0].strip()
            raise QuantityError(
                _text(value), "a figure you choose, which carries no doubt", bare or "6", ()
            )
        return found

    return BeforeValidator(before)


def _keyed(read: Reader, word: str) -> Reader:
    """Return a reader for a key that already says which way: 'up: 60' is 60 up."""

    def reader(text: str, unit: Unit) -> Quantity:
        try:
            found = read(f"{text} {word}", unit)
        except QuantityError:
            return read(text, unit)
        return replace(found, text=text.strip())

    return reader


def _always(read: Callable[[str], Quantity]) -> Reader:
    """Return a reader for what names its unit whatever the build's is."""

    def reader(text: str, unit: Unit) -> Quantity:
        del unit
        return read(text)

    return reader


_angle, _torque, _share = _always(angle), _always(torque), _always(share)
_up, _left, _right = _keyed(upward, "up"), _keyed(across, "left"), _keyed(across, "right")

MeasuredLength = Annotated[Quantity, Role("measured", "length"), _measured(length)]
MeasuredAlong = Annotated[Quantity, Role("measured", "place along"), _measured(along)]
MeasuredAcross = Annotated[Quantity, Role("measured", "place across"), _measured(across)]
MeasuredLeft = Annotated[Quantity, Role("measured", "place across"), _measured(_left)]
MeasuredRight = Annotated[Quantity, Role("measured", "place across"), _measured(_right)]
MeasuredUp = Annotated[Quantity, Role("measured", "height"), _measured(_up)]
MeasuredMass = Annotated[Quantity, Role("measured", "weight"), _measured(mass)]
MeasuredTorque = Annotated[Quantity, Role("measured", "torque"), _measured(_torque)]
MeasuredAngle = Annotated[Quantity, Role("measured", "angle"), _measured(_angle)]
ChosenLength = Annotated[Quantity, Role("chosen", "length"), _chosen(length)]
ChosenAlong = Annotated[Quantity, Role("chosen", "place along"), _chosen(along)]
ChosenAcross = Annotated[Quantity, Role("chosen", "place across"), _chosen(across)]
ChosenAngle = Annotated[Quantity, Role("chosen", "angle"), _chosen(_angle)]
ChosenHours = Annotated[Quantity, Role("chosen", "time"), _chosen(_always(hours))]
ChosenShare = Annotated[Quantity, Role("chosen", "share"), _chosen(_share)]
ChosenCurrent = Annotated[Quantity, Role("chosen", "current"), _chosen(_always(current))]
ChosenVoltage = Annotated[Quantity, Role("chosen", "voltage"), _chosen(_always(voltage))]
MeterVoltage = Annotated[Quantity, Role("chosen", "voltage"), _chosen(_always(meter_voltage))]
ChosenPower = Annotated[Quantity, Role("chosen", "power"), _chosen(_always(power))]
ChosenResistance = Annotated[Quantity, Role("chosen", "resistance"), _chosen(_always(resistance))]
ChosenCharge = Annotated[Quantity, Role("chosen", "capacity"), _chosen(_always(charge))]
ChosenTime = Annotated[Quantity, Role("chosen", "time"), _chosen(_always(duration))]
ChosenWarmth = Annotated[Quantity, Role("chosen", "temperature"), _chosen(_always(warmth))]
ChosenWireSize = Annotated[Quantity, Role("chosen", "wire size"), _chosen(_always(wire_size))]
ChosenUp = Annotated[Quantity, Role("chosen", "height"), _chosen(_up)]
ChosenPrice = Annotated[Quantity, Role("chosen", "price"), _chosen(_always(price))]
ChosenCount = Annotated[Quantity, Role("chosen", "number"), _chosen(_always(count))]
