"""Another name for a part of the wiring, written wherever the file names it."""

from collections.abc import Iterator

from trimwright.build.entry import Entry
from trimwright.build.known_names import NAMES
from trimwright.build.node import Path
from trimwright.build.walk import held
from trimwright.build.whole import Build
from trimwright.build.wiring import Wiring
from trimwright.build.wiring_device import Load
from trimwright.build.wiring_mention import NoNameError, mentions
from trimwright.build.wiring_names import RESERVED
from trimwright.build.wiring_phrase import Said, phrase
from trimwright.build.wiring_reading import meter_names
from trimwright.build.wiring_rename_unit import renamed_in_unit
from trimwright.build.wiring_stop import NoStopError, Stop, devices, stop
from trimwright.findings import Edit

WIRING = "wiring"
DEVICES = (
    "feeds", "grounds", "fuses", "switches", "relays", "units", "plugs", "splices", "loads",
)  # fmt: skip
ALONE = ("places", "paths", "bought cables")  # lists whose names are their own
WORKED_BY = "switches"


def renamed(build: Build, place: Path, name: str) -> tuple[Edit, ...]:
    """Return the edits that give a part of the wiring another name, everywhere it is named.

    Parameters
    ----------
    build : Build
        As it is written.
    place : tuple
        Path of the part: `("wiring", "fuses", 3)`; of a control unit's state or terminal that in its
        list: `("wiring", "units", 0, "states", 1)`.
    name : str
        What it is to be called.

    Raises
    ------
    NoNameError
        If nothing is called by a name there, the name is taken, or would be understood as
        something else.
    """
    wiring, new = build.wiring, " ".join(name.split())
    if wiring is not None and len(place) == 5 and place[:2] == (WIRING, "units"):  # noqa: PLR2004  and which, its list, a number
        return renamed_in_unit(build, wiring, place, new)
    group = str(place[1]) if len(place) == 3 else ""  # noqa: PLR2004  wiring, its list, a number
    if wiring is None or place[:1] != (WIRING,) or group not in (*DEVICES, *ALONE):
        raise NoNameError("a part that has a name")
    entries = getattr(wiring, group.replace(" ", "_"))
    number = place[2]
    if not isinstance(number, int) or not 0 <= number < len(entries):
        raise NoNameError("a part that is there")
    old = entries[number].name
    if new == old:
        return ()
    _refuse_taken(wiring, group, new)
    edits = [Edit((*place, "name"), new)]
    if group in DEVICES:
        edits += _in_texts(wiring, old, new)
        edits += _in_readings(wiring, old, new)
    edits += _in_fields(wiring, group, old, new)
    if group in DEVICES:
        _refuse_misread(wiring, old, new)
    edits += _in_findings(build, wiring, old, new)
    return tuple(edits)


def _refuse_taken(wiring: Wiring, group: str, new: str) -> None:
    """Refuse no name at all, and one that another part of its kind has."""
    if not new:
        raise NoNameError("a name")
    others = devices(wiring) if group in DEVICES else getattr(wiring, group.replace(" ", "_"))
    if new in RESERVED or new in {one.name for one in others}:
        raise NoNameError("a name that nothing else has")


def _in_texts(wiring: Wiring, old: str, new: str) -> Iterator[Edit]:
    """Yield an edit for every stop, and every state in words, that names a device."""
    for place, text, is_stop in mentions(wiring):
        told = _stop_text if is_stop else _phrase_text
        after = told(text, wiring, old, new)
        if after != text:
            yield Edit((WIRING, *place), after)


def _stop_text(text: str, wiring: Wiring, old: str, new: str) -> str:
    """Return a stop with its device called otherwise."""
    words = text.strip()
    return new + words[len(old) :] if stop(words, wiring).device == old else text


def _phrase_text(text: str, wiring: Wiring, old: str, new: str) -> str:
    """Return a state in words with a device called otherwise."""
    parts = text.strip().split(" and ")
    after = [_part_text(part, wiring, old, new) for part in parts]
    return text if after == parts else " and ".join(after)


def _part_text(part: str, wiring: Wiring, old: str, new: str) -> str:
    """Return one thing that is said of a state, with a device called otherwise."""
    words = " ".join(part.split())
    no = "not " if words.startswith("not ") else ""
    words = words.removeprefix("not ")
    said = phrase(words, wiring)[0]
    if said.sort == "terminal":
        named = _stop_of(words, wiring).device == old
    else:
        named = said.name == old and said.sort not in ("fact", "key", "engine")
    return f"{no}{new}{words[len(old) :]}" if named else part


def _stop_of(words: str, wiring: Wiring) -> Stop:
    """Return the terminal that a state in words is of."""
    return stop(words.rsplit(" ", 1)[0], wiring)


def _in_readings(wiring: Wiring, old: str, new: str) -> Iterator[Edit]:
    """Yield an edit for every meter reading that was taken at a device."""
    swapped = _called(wiring, old, new)
    places = dict(zip(meter_names(wiring), meter_names(swapped), strict=True))
    for n, one in enumerate(wiring.readings):
        if places.get(one.reading, one.reading) != one.reading:
            yield Edit((WIRING, "readings", n, "reading"), places[one.reading])


def _in_fields(wiring: Wiring, group: str, old: str, new: str) -> Iterator[Edit]:
    """Yield an edit for every field that has to name a part of its list."""
    for field, number, entry in held(wiring):
        own = (field.replace("_", " "),) if number is None else (field.replace("_", " "), number)
        for name, info in type(entry).model_fields.items():
            aims = NAMES.get((type(entry), name))
            if (type(entry), name) == (Load, "worked_by"):
                aims = WORKED_BY
            if aims == group and entry.__dict__[name] == old:
                yield Edit((WIRING, *own, str(info.alias)), new)


def _called(wiring: Wiring, old: str, new: str) -> Wiring:
    """Return a wiring with a device called otherwise, and nothing that names it changed."""

    def named(one: Entry) -> Entry:
        own = one.__dict__.get("name")
        return one.model_copy(update={"name": new}) if own == old else one

    lists = {group: tuple(named(one) for one in getattr(wiring, group)) for group in DEVICES}
    return wiring.model_copy(update=lists)


def _refuse_misread(wiring: Wiring, old: str, new: str) -> None:
    """Refuse a name by which some stop or state would be understood as another."""
    after = _called(wiring, old, new)
    for _, text, is_stop in mentions(wiring):
        told = (_stop_text if is_stop else _phrase_text)(text, wiring, old, new)
        try:
            if is_stop:
                same = stop(told, after) == _stop_called(stop(text, wiring), old, new)
            else:
                said = tuple(_said_called(one, old, new) for one in phrase(text, wiring))
                same = phrase(told, after) == said
        except NoStopError:
            same = False
        if not same:
            raise NoNameError(f'a name by which "{told}" is not understood as something else')


def _stop_called(at: Stop, old: str, new: str) -> Stop:
    """Return a stop at a device that is called otherwise."""
    return Stop(new, at.comes, at.goes) if at.device == old else at


def _said_called(said: Said, old: str, new: str) -> Said:
    """Return what is said of a device that is called otherwise."""
    if said.sort in ("fact", "key", "engine"):
        return said
    name = said.name
    if said.sort == "terminal":
        device, _, terminal = name.rpartition(" ")
        name = f"{new} {terminal}" if device == old else name
    elif name == old:
        name = new
    return Said(said.sort, name, said.value, said.truth)


def _in_findings(build: Build, wiring: Wiring, old: str, new: str) -> Iterator[Edit]:
    """Yield an edit for every finding, left as it is or noted, whose name names the part.

    Of two parts with one name, such as a load and its path, it is not known which a finding means:
    then it stays.
    """
    names = [one.name for one in devices(wiring)]
    for group in ALONE:
        names += [one.name for one in getattr(wiring, group.replace(" ", "_"))]
    if names.count(old) > 1:
        return
    told = [(("left as is", n), one.finding) for n, one in enumerate(build.left_as_is)]
    noted = ((("notes", n), one.finding) for n, one in enumerate(build.notes))
    told += [(place, finding) for place, finding in noted if finding is not None]
    for place, finding in told:
        after = _finding_called(finding, set(names), old, new)
        if after != finding:
            yield Edit((*place, "finding"), after)


def _finding_called(text: str, names: set[str], old: str, new: str) -> str:
    """Return a finding's name with a part called otherwise; a longer name that holds it stays."""
    words, after, k = text.split(" "), [], 0
    while k < len(words):
        ends = (m for m in range(len(words), k, -1) if " ".join(words[k:m]) in names)
        end = next(ends, k + 1)
        said = " ".join(words[k:end])
        after.append(new if said == old else said)
        k = end
    return " ".join(after)
