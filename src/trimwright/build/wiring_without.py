"""A part of the wiring taken out of the file, with what would lead nowhere without it."""

from collections.abc import Iterator

from msgspec import Struct

from trimwright.build.fault import InputError
from trimwright.build.known_names import NAMES
from trimwright.build.load import parse
from trimwright.build.node import Path
from trimwright.build.splice import edited
from trimwright.build.walk import held
from trimwright.build.wiring import WirePath, Wiring
from trimwright.build.wiring_phrase import phrase
from trimwright.build.wiring_rename import DEVICES
from trimwright.build.wiring_stop import SOURCES, Stop, stop
from trimwright.findings import Edit

WIRING = "wiring"
LEAST_STOPS = 2
COIL = ("85", "86")


class NotRemovedError(ValueError):
    """A part cannot be taken out as things are: why, as a builder reads it."""


class Without(Struct, frozen=True):
    """A file without a part: the edits, the paths it is taken out of, and those that go with it."""

    edits: tuple[Edit, ...]
    shortened: tuple[str, ...]
    gone: tuple[str, ...]


def without(text: str, place: Path) -> Without:
    """Return the edits that take a part out of the wiring.

    A path whose load or whose relay's coil it is goes with it: joined up it would be a short. Out of
    any other path it is taken as a stop, and its neighbours are joined.

    Parameters
    ----------
    text : str
        The file, which can be used.
    place : tuple
        Path of the part: `("wiring", "fuses", 3)`.

    Raises
    ------
    NotRemovedError
        If nothing is there, or something else names it that has to be changed first.
    """
    wiring = parse(text).build.wiring
    if wiring is None:
        raise NotRemovedError("Nothing is wired.")
    name = _name(wiring, place)
    _refuse_named(wiring, str(place[1]), name)
    edits: list[Edit] = []
    shortened, gone = list[str](), list[int]()
    if place[1] in (*DEVICES, *SOURCES):
        for number, path in enumerate(wiring.paths):
            away, goes = _out_of(wiring, path, name)
            if goes:
                gone.append(number)
            elif away:
                shortened.append(path.name)
                at = (WIRING, "paths", number, "goes")
                edits += [Edit((*at, stop_number), None) for stop_number in reversed(away)]
        edits += [Edit((WIRING, "paths", number), None) for number in reversed(gone)]
        edits += [Edit((WIRING, "readings", n), None) for n in reversed(_read_at(wiring, name))]
    edits.append(Edit(place, None))
    _refuse_unusable(text, edits, name)
    names = tuple(wiring.paths[number].name for number in gone)
    return Without(tuple(edits), tuple(shortened), names)


def _name(wiring: Wiring, place: Path) -> str:
    """Return what is called by a place; empty of what has no name."""
    match place:
        case ("wiring", ("battery" | "alternator") as source) if getattr(wiring, source):
            return source
        case ("wiring", str(group), int(number)):
            entries = getattr(wiring, group.replace(" ", "_"), ())
            if isinstance(entries, tuple) and 0 <= number < len(entries):
                name: str = entries[number].__dict__.get("name", "")
                return name
    raise NotRemovedError("There is no such part.")


def _refuse_named(wiring: Wiring, group: str, name: str) -> None:
    """Refuse to take out what is named where it cannot be left out."""
    by = [*_by_fields(wiring, group, name), *_by_rules(wiring, group, name)]
    if by:
        told = ", ".join(dict.fromkeys(by))
        raise NotRemovedError(f"Named by {told}: change that first.")


def _by_fields(wiring: Wiring, group: str, name: str) -> Iterator[str]:
    """Yield what has a field that has to name an entry of a list."""
    for field, _, entry in held(wiring):
        told = entry.__dict__
        for own in type(entry).model_fields:
            if NAMES.get((type(entry), own)) == group and told[own] == name:
                yield _called(field.replace("_", " ").removesuffix("s"), told)


def _called(one: str, told: dict[str, str]) -> str:
    """Return what an entry is called: by its name, by what it joins, else by what it is."""
    if told.get("name"):
        return told["name"]
    return f"the {one} {told['start']} to {told['end']}" if "start" in told else f"a {one}"


def _by_rules(wiring: Wiring, group: str, name: str) -> Iterator[str]:
    """Yield the rules and control units that look at a device."""
    if group not in DEVICES:
        return
    for rule in wiring.rules:
        if _says_of(wiring, (*rule.when, *rule.excepting), name):
            yield f"the rule {'never' if rule.never else 'always'} {rule.never or rule.always}"
    for unit in wiring.units:
        states = tuple(text for move in unit.moves for text in move.when)
        if unit.name != name and _says_of(wiring, states, name):
            yield unit.name


def _says_of(wiring: Wiring, states: tuple[str, ...], name: str) -> bool:
    """Return whether states in words say anything of a device."""
    told = (said for text in states for said in phrase(text, wiring))
    return any(_device(said.sort, said.name) == name for said in told)


def _device(sort: str, name: str) -> str:
    """Return the device that something said of a state is about."""
    if sort == "terminal":
        return name.rpartition(" ")[0]
    return "" if sort in ("fact", "key", "engine") else name


def _out_of(wiring: Wiring, path: WirePath, name: str) -> tuple[list[int], bool]:
    """Return which stops of a path are at a device, and whether the path goes with them."""
    stops = [stop(text, wiring) for text in path.goes]
    away = [n for n, one in enumerate(stops) if one.device == name]
    if not away:
        return [], False
    too_few = len(stops) - len(away) < LEAST_STOPS
    return away, too_few or any(_is_taker(wiring, stops[n]) for n in away)


def _is_taker(wiring: Wiring, at: Stop) -> bool:
    """Return whether what is met at a stop takes the current: a load, or a relay's coil."""
    if at.device in {one.name for one in wiring.loads}:
        return True
    coil = at.device in {one.name for one in wiring.relays} and {at.comes, at.goes} <= set(COIL)
    return coil and at.comes != at.goes


def _read_at(wiring: Wiring, name: str) -> list[int]:
    """Return which meter readings were taken at a device."""
    told = (one.reading.removeprefix("feed side of ").split(", ")[0] for one in wiring.readings)
    return [n for n, one in enumerate(told) if one == name]


def _refuse_unusable(text: str, edits: list[Edit], name: str) -> None:
    """Refuse what would leave a file that cannot be used."""
    try:
        parse(edited(text, edits))
    except InputError as error:
        first = error.faults[0]
        why = f"found {first.found}, expected {first.expected}"
        raise NotRemovedError(f"Without {name or 'it'} the file cannot be used: {why}.") from None
    except ValueError as error:
        raise NotRemovedError(f"It cannot be taken out of this text: {error}.") from None
