"""What the sheet 'wire' is told: the diagram's pages, what can be worked, and what is live then."""

from typing import Annotated

from pydantic import Field

from trimwright.app.message import Message
from trimwright.app.print_message import PageMessage

Short = Annotated[str, Field(max_length=200)]


class HandleMessage(Message):
    """A switch or a door: its name and its positions, the first one at rest."""

    name: str
    positions: tuple[str, ...]


class WireMessage(Message):
    """The wiring of a version; no pages where nothing is wired."""

    version: str
    pages: tuple[PageMessage, ...]
    modes: tuple[str, ...]
    handles: tuple[HandleMessage, ...]


class FaultAsked(Message):
    """One thing that is wrong: a kind of fault, and what it befalls."""

    kind: Short
    of: Short


class StateAsked(Message):
    """A mode of the car, what is not at rest, and the fault that is tried, if one is."""

    mode: Short
    put: Annotated[dict[Short, Short], Field(max_length=200)] = Field(default_factory=dict)
    fault: FaultAsked | None = None


class OnMessage(Message):
    """A load that is on, and the voltage that reaches it, in words; empty where it cannot be told."""

    name: str
    volts: str


class MovedMessage(Message):
    """A load whose voltage a fault moves, from what to what, in words."""

    name: str
    before: str
    after: str


class TriedMessage(Message):
    """What a fault does in a state, beside the same state without it.

    `stopped` are loads that no longer work, `wrongly` those that should not and do; `breaks` are
    rules that it breaks here, `dies` the loads that a blown fuse takes along in any state.
    """

    says: str
    stopped: tuple[str, ...]
    wrongly: tuple[OnMessage, ...]
    moved: tuple[MovedMessage, ...]
    breaks: tuple[str, ...]
    dies: tuple[str, ...]


class StateMessage(Message):
    """What follows: names of what is live and of what current passes, and what works.

    Not `settled` where relays find no rest: then nothing else is told but the fault, if one is on.
    `by_volts` tells, in words, of each relay that does not stand as contacts alone would have it.
    """

    settled: bool
    live: tuple[str, ...]
    carries: tuple[str, ...]
    on: tuple[OnMessage, ...]
    by_volts: tuple[str, ...] = ()
    tried: TriedMessage | None = None
