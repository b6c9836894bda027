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


class StateAsked(Message):
    """A mode of the car, and what is not at rest."""

    mode: Short
    put: Annotated[dict[Short, Short], Field(max_length=200)] = Field(default_factory=dict)


class OnMessage(Message):
    """A load that is on, and the voltage that reaches it, in words; empty where it cannot be told."""

    name: str
    volts: str


class StateMessage(Message):
    """What follows: names of what is live and of what current passes, and what works.

    Not `settled` where relays find no rest: then nothing else is told.
    """

    settled: bool
    live: tuple[str, ...]
    carries: tuple[str, ...]
    on: tuple[OnMessage, ...]
