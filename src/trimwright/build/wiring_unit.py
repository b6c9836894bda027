"""Control units in the wiring: the states they stand in, what moves them, what they join."""

from trimwright.build.entry import Entry
from trimwright.build.field import key, maybe, several
from trimwright.build.kind import ChosenTime


class UnitMove(Entry):
    """A control unit goes from one of its states to another."""

    leaves: str = key("from", "The state it leaves.", "asleep")
    enters: str = key("to", "The state it enters.", "armed")
    when: tuple[str, ...] = key("when", "While any of these is so.", "[start unit fob live]")
    waits: ChosenTime | None = maybe("waits", "How long it waits first, if it does.", "2 s")


class UnitOutput(Entry):
    """A contact inside a control unit."""

    name: str = key("name", "What it is called.", "starter output")
    joins: tuple[str, ...] = key("joins", "The two terminals it joins.", "[30, 50]")
    closed: tuple[str, ...] = key("in", "The states in which it is closed.", "[cranking]")


class ControlUnit(Entry):
    """A control unit as a table of states. A path names its terminal: `start unit 50`."""

    name: str = key("name", "What it is called in paths and rules.", "start unit")
    at: str | None = maybe("at", "Its place, by name.", "dash middle")
    terminals: tuple[str, ...] = key("terminals", "Its terminals.", "[30, 31, 50, fob, clutch]")
    states: tuple[str, ...] = key("states", "Its states, first the one it wakes in.", "[asleep]")
    moves: tuple[UnitMove, ...] = several("moves", "What moves it.", "{from: asleep, to: armed}")
    outputs: tuple[UnitOutput, ...] = several("outputs", "Its contacts.", "{joins: [30, 50]}")
