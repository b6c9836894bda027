"""Another name for a state or a terminal of a control unit, wherever the file names it."""

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from trimwright.build.node import Path
from trimwright.build.whole import Build
from trimwright.build.wiring import Wiring
from trimwright.build.wiring_mention import NoNameError, mentions
from trimwright.build.wiring_phrase import Said, phrase
from trimwright.build.wiring_stop import NoStopError, Stop, stop
from trimwright.build.wiring_unit import ControlUnit
from trimwright.findings import Edit

SORTS = {"states": "state", "terminals": "terminal"}


class _Word(Struct, frozen=True):
    """A state or terminal of a unit, what it was called and what it is to be called."""

    unit: ControlUnit
    sort: str
    old: str
    new: str

    def called(self, name: str) -> str:
        """Return a name of the unit's table, the new one where it is the old."""
        return self.new if name == self.old else name

    @property
    def names(self) -> dict[str, str]:
        """How a finding names it, and how it is to."""
        link = " is " if self.sort == "state" else " "
        return {f"{self.unit.name}{link}{self.old}": f"{self.unit.name}{link}{self.new}"}


def renamed_in_unit(build: Build, wiring: Wiring, place: Path, new: str) -> tuple[Edit, ...]:
    """Return the edits that give a state or a terminal of a control unit another name.

    Parameters
    ----------
    build, wiring : Build, Wiring
        As they are written.
    place : tuple
        Its path: `("wiring", "units", 0, "terminals", 2)`.
    new : str
        What it is to be called.

    Raises
    ------
    NoNameError
        If there is none, the name is taken, or would be understood as something else.
    """
    word = _word(wiring, place, new)
    if word.old == new:
        return ()
    if not new:
        raise NoNameError("a name")
    if new in getattr(word.unit, str(place[3])):
        raise NoNameError(f"a name that no other {word.sort} of {word.unit.name} has")
    edits = [Edit(place, new), *_in_table(word, place[:3])]
    after = _called(wiring, word)
    for at, text, is_stop in mentions(wiring):
        told = _stop_text(text, wiring, word) if is_stop else _phrase_text(text, wiring, word)
        _refuse_misread(text, told, (wiring, after), word, is_stop=is_stop)
        if told != text:
            edits.append(Edit(("wiring", *at), told))
    return (*edits, *_in_findings(build, word))


def _word(wiring: Wiring, place: Path, new: str) -> _Word:
    """Return which state or terminal stands at a path."""
    number, field, item = place[2:]
    units = wiring.units
    if isinstance(number, int) and 0 <= number < len(units) and str(field) in SORTS:
        names: tuple[str, ...] = getattr(units[number], str(field))
        if isinstance(item, int) and 0 <= item < len(names):
            return _Word(units[number], SORTS[str(field)], names[item], new)
    raise NoNameError("a part that is there")


def _in_table(word: _Word, unit: Path) -> Iterator[Edit]:
    """Yield an edit for every move and output of the unit that names it."""
    if word.sort == "state":
        for n, move in enumerate(word.unit.moves):
            for key, name in (("from", move.leaves), ("to", move.enters)):
                if name == word.old:
                    yield Edit((*unit, "moves", n, key), word.new)
    for n, output in enumerate(word.unit.outputs):
        key, names = ("in", output.closed) if word.sort == "state" else ("joins", output.joins)
        for k, name in enumerate(names):
            if name == word.old:
                yield Edit((*unit, "outputs", n, key, k), word.new)


def _called(wiring: Wiring, word: _Word) -> Wiring:
    """Return a wiring whose unit lists the new name, and nothing that names it changed."""
    field = f"{word.sort}s"
    names = tuple(word.called(one) for one in getattr(word.unit, field))
    own = word.unit.model_copy(update={field: names})
    units = tuple(own if one is word.unit else one for one in wiring.units)
    return wiring.model_copy(update={"units": units})


def _stop_text(text: str, wiring: Wiring, word: _Word) -> str:
    """Return a stop with its terminals called otherwise."""
    words = text.strip()
    unit = word.unit
    if word.sort != "terminal" or stop(words, wiring).device != unit.name:
        return text
    said = words.removeprefix(unit.name).strip()
    ends = [said] if said in unit.terminals else said.split("-")
    told = "-".join(map(word.called, ends))
    return text if told == said else f"{unit.name} {told}"


def _phrase_text(text: str, wiring: Wiring, word: _Word) -> str:
    """Return a state in words with a state or terminal called otherwise."""
    parts = text.strip().split(" and ")
    after = [_part_text(part, wiring, word) for part in parts]
    return text if after == parts else " and ".join(after)


def _part_text(part: str, wiring: Wiring, word: _Word) -> str:
    """Return one thing that is said of a state, with a state or terminal called otherwise."""
    words = " ".join(part.split())
    no = "not " if words.startswith("not ") else ""
    words = words.removeprefix("not ")
    said = phrase(words, wiring)[0]
    if said.sort == "terminal":
        node, _, value = words.rpartition(" ")
        told = _stop_text(node, wiring, word)
        return part if told == node else f"{no}{told} {value}"
    if said != _said_called(said, word):
        return f"{no}{word.unit.name} is {word.new}"
    return part


def _refuse_misread(
    text: str, told: str, wirings: tuple[Wiring, Wiring], word: _Word, *, is_stop: bool
) -> None:
    """Refuse a name by which some stop or state would be understood as another."""
    before, after = wirings
    try:
        if is_stop:
            same = stop(told, after) == _stop_called(stop(text, before), word)
        else:
            meant = tuple(_said_called(one, word) for one in phrase(text, before))
            same = phrase(told, after) == meant
    except NoStopError:
        same = False
    if not same:
        raise NoNameError(f'a name by which "{told}" is not understood as something else')


def _stop_called(at: Stop, word: _Word) -> Stop:
    """Return a stop whose terminals are called otherwise."""
    if word.sort != "terminal" or at.device != word.unit.name:
        return at
    return Stop(at.device, word.called(at.comes), word.called(at.goes))


def _said_called(said: Said, word: _Word) -> Said:
    """Return what is said of a state, with a state or terminal called otherwise."""
    if word.sort == "state" and (said.sort, said.name) == ("unit", word.unit.name):
        return replace(said, value=word.called(said.value))
    if word.sort == "terminal" and said.sort == "terminal":
        return replace(said, name=word.names.get(said.name, said.name))
    return said


def _in_findings(build: Build, word: _Word) -> Iterator[Edit]:
    """Yield an edit for every finding, left as it is or noted, whose name names it."""
    told = [(("left as is", n), one.finding) for n, one in enumerate(build.left_as_is)]
    noted = ((("notes", n), one.finding) for n, one in enumerate(build.notes))
    told += [(place, finding) for place, finding in noted if finding is not None]
    ((before, after),) = word.names.items()
    for place, finding in told:
        said = f" {finding} ".replace(f" {before} ", f" {after} ").strip()
        if said != finding:
            yield Edit((*place, "finding"), said)
