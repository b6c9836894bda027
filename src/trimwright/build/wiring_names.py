"""What the entries of a wiring have to agree on: names that are known, each given once."""

from collections.abc import Iterator
from functools import partial
from typing import Any

from trimwright.build.entry import Entry, keys_of
from trimwright.build.fault import Fault
from trimwright.build.known import nearest
from trimwright.build.stranger import Say
from trimwright.build.walk import held
from trimwright.build.whole import Build
from trimwright.build.wiring import Signal, Wiring, WiringPlace
from trimwright.build.wiring_phrase import facts, phrase
from trimwright.build.wiring_reading import meter_names
from trimwright.build.wiring_sense import senseless
from trimwright.build.wiring_stop import NAMED, NoStopError, devices, stop
from trimwright.build.wiring_trunk import trunk_faults
from trimwright.build.wiring_unit import ControlUnit

COLOURS = ("BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "TQ", "GD", "SR")
RESERVED = ("battery", "alternator")
PLACED = ("at", "start", "end")
LOADS = ("wiring.loads",)


def wiring_faults(build: Build, say: Say) -> Iterator[Fault]:
    """Yield a fault for every name of the wiring that is not known, or given twice.

    `say` makes a fault of an entry, its field, what was found, what was expected, an example.
    """
    wiring = build.wiring
    if wiring is None:
        return
    yield from _own_names(wiring, say)
    yield from _places(wiring, say)
    yield from trunk_faults(wiring, say)
    yield from _paths(wiring, say)
    yield from _rules(wiring, say)
    yield from _ends(wiring, say)
    yield from _working(wiring, say)
    yield from _units(wiring, say)
    yield from _readings(wiring, say)
    yield from senseless(wiring, say)


def _own_names(wiring: Wiring, say: Say) -> Iterator[Fault]:
    """Refuse two devices, places or paths of one name."""
    for group in (tuple(devices(wiring)), wiring.places, wiring.paths, wiring.bought_cables):
        taken = set[str](RESERVED)
        for one in group:
            if one.name in taken:
                yield say(one, "name", f'"{one.name}" a second time', "a name of its own")
            taken.add(one.name)


def _places(wiring: Wiring, say: Say) -> Iterator[Fault]:
    """Refuse places that nobody wrote down."""
    names = [one.name for one in wiring.places]
    for _, _, one in held(wiring):
        if isinstance(one, WiringPlace | Signal):
            continue
        for field in PLACED:
            told = one.__dict__.get(field)
            if isinstance(told, str) and told not in names:
                near = partial(nearest, told, names)
                expected = "a place listed under places"
                yield say(one, field, f'"{told}"', expected, near, among=("wiring.places",))


def _paths(wiring: Wiring, say: Say) -> Iterator[Fault]:
    """Refuse paths of fewer than two stops, stops that nobody knows, colours that are none."""
    for path in wiring.paths:
        if len(path.goes) < 2:  # noqa: PLR2004  a wire has two ends
            yield say(path, "goes", f"{len(path.goes)} stops", "two stops at least", "fuse 7, lamp")
        yield from _understood(path, "goes", say, stop, wiring)
        if path.colour and not _is_colour(path.colour):
            yield say(path, "colour", f'"{path.colour}"', "one or two IEC 60757 codes", "BKRD")


def _understood(
    entry: Entry,
    field: str,
    say: Say,
    read: Any,  # noqa: ANN401  stop or phrase
    wiring: Wiring,
) -> Iterator[Fault]:
    """Yield a fault for each text of a list that cannot be read as what it should be."""
    for item, text in enumerate(getattr(entry, field)):
        try:
            read(text, wiring)
        except NoStopError as error:
            expected, example = error.expected, error.example
            yield say(entry, field, f'"{text}"', expected, example, item=item, among=NAMED)


def _is_colour(text: str) -> bool:
    """Return whether a text is one or two colours.

    Examples
    --------
    >>> _is_colour("BKRD"), _is_colour("RD"), _is_colour("RED")
    (True, True, False)
    """
    pair = (text[:2], text[2:])
    return pair[0] in COLOURS and (not pair[1] or pair[1] in COLOURS)


def _rules(wiring: Wiring, say: Say) -> Iterator[Fault]:
    """Refuse rules about a load that nobody wrote down, of no load or two, of unknown states."""
    loads = [one.name for one in wiring.loads]
    for rule in wiring.rules:
        told = [name for name in (rule.never, rule.always) if name]
        if len(told) != 1:
            found = "both never and always" if told else "neither never nor always"
            on = keys_of(rule, "always")
            yield say(rule, "never", found, "one of the two", "never: fuel pump", on=on)
        for field, name in (("never", rule.never), ("always", rule.always)):
            if name and name not in loads:
                near = partial(nearest, name, loads)
                expected = "a load of this wiring"
                yield say(rule, field, f'"{name}"', expected, near, among=LOADS)
        for field in ("when", "excepting"):
            yield from _understood(rule, field, say, phrase, wiring)


def _ends(wiring: Wiring, say: Say) -> Iterator[Fault]:
    """Refuse signal leads between things that are no loads."""
    loads = [one.name for one in wiring.loads]
    for signal in wiring.signals:
        for field in ("start", "end"):
            name = getattr(signal, field)
            if name not in loads:
                near = partial(nearest, name, loads)
                expected = "a load of this wiring"
                yield say(signal, field, f'"{name}"', expected, near, among=LOADS)


def _working(wiring: Wiring, say: Say) -> Iterator[Fault]:
    """Refuse loads that something else than a switch is to work."""
    switches = {one.name for one in wiring.switches}
    others = {*RESERVED, *(one.name for one in devices(wiring))} - switches
    for load in wiring.loads:
        if load.worked_by in others:
            found, expected, among = f'"{load.worked_by}"', "a switch, there or not", NAMED
            yield say(load, "worked_by", found, expected, "fog switch", among=among)


def _units(wiring: Wiring, say: Say) -> Iterator[Fault]:
    """Refuse units without a state, and what names a state or a terminal they do not have."""
    for unit in wiring.units:
        for field in ("states", "terminals"):
            told = getattr(unit, field)
            if not told or len(set(told)) < len(told):
                found = "one of them twice" if told else f"no {field}"
                yield say(unit, field, found, f"{field}, each once", "asleep, armed")
        if unit.name in ("key", "engine", *facts(wiring)):
            yield say(unit, "name", f'"{unit.name}"', "a name of its own", "start unit")
        for move in unit.moves:
            for field in ("leaves", "enters"):
                yield from _among(move, field, (unit, "states"), say)
            yield from _understood(move, "when", say, phrase, wiring)
        yield from _outputs(unit, say)


def _outputs(unit: ControlUnit, say: Say) -> Iterator[Fault]:
    """Refuse outputs of one name, in states there are not, between terminals there are not."""
    taken: set[str] = set()
    for output in unit.outputs:
        yield from _among(output, "closed", (unit, "states"), say)
        yield from _among(output, "joins", (unit, "terminals"), say)
        if len(set(output.joins)) != 2 or len(output.joins) != 2:  # noqa: PLR2004  a contact has two sides
            found = ", ".join(output.joins) or "none"
            yield say(output, "joins", found, "two terminals", ", ".join(unit.terminals[:2]))
        if output.name in taken:
            yield say(output, "name", f'"{output.name}" a second time', "a name of its own")
        taken.add(output.name)


def _among(entry: Entry, field: str, of: tuple[ControlUnit, str], say: Say) -> Iterator[Fault]:
    """Yield a fault for each name, one or a list, that is not among a unit's states or terminals."""
    told, known = getattr(entry, field), getattr(*of)
    for item, name in enumerate((told,) if isinstance(told, str) else told):
        if name not in known:
            near = partial(nearest, name, known, 0.0)
            place = None if isinstance(told, str) else item
            expected, on = f"one of {', '.join(known)}", keys_of(*of)
            yield say(entry, field, f'"{name}"', expected, near, item=place, on=on)


def _readings(wiring: Wiring, say: Say) -> Iterator[Fault]:
    """Refuse meter readings at a place that the meter sheet does not name, or twice at one."""
    names, taken = meter_names(wiring), set[str]()
    for one in wiring.readings:
        if one.reading not in names:
            near = partial(nearest, one.reading, names)
            expected = "a place in the words of the meter sheet"
            yield say(one, "reading", f'"{one.reading}"', expected, near, among=NAMED)
        elif one.reading in taken:
            yield say(one, "reading", f'"{one.reading}" a second time', "one reading a place")
        taken.add(one.reading)
