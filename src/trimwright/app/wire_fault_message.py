"""What the sheet 'wire' is told of faults and rules: what can be wrong, and how a rule is broken."""

from pydantic import Field

from trimwright.app.message import Message
from trimwright.app.wire_message import FaultAsked, StateMessage


class FaultSaid(Message):
    """A fault: its kind, what it befalls, and both in words."""

    kind: str
    of: str
    says: str


class PartMessage(Message):
    """A wire or a device, the names it is drawn by, where, and what can be wrong in it.

    `page` is the first of the diagram that shows it; 0 where none does. `worked_by` is the switch,
    door or unit that is put by hand to work it; empty where none is.
    """

    name: str
    worked_by: str
    drawn: tuple[str, ...]
    page: int
    faults: tuple[FaultSaid, ...]


class RuleMessage(Message):
    """A rule in words, what became of it in words, and the single faults that break it.

    `number` counts from 0 in the order of the file; `place` is that of its finding; `page` the
    first of the diagram that shows its load, 0 where none does.
    """

    number: int
    page: int
    place: str
    says: str
    broken: bool
    became: str
    faults: tuple[FaultSaid, ...]


class FaultsMessage(Message):
    """Everything in which something can be wrong, and every rule."""

    version: str
    parts: tuple[PartMessage, ...]
    rules: tuple[RuleMessage, ...]


class ReplayAsked(Message):
    """Which rule is to be broken step by step, and with which fault from the start, if any."""

    rule: int = Field(ge=0, le=10_000)
    fault: FaultAsked | None = None


class FrameMessage(Message):
    """One step: what happens in it, how all stands then, what is lit, and whether the rule breaks."""

    says: str
    stands: tuple[str, ...]
    state: StateMessage
    breaks: bool


class RuleBreakMessage(Message):
    """A rule broken step by step from rest; one state alone where no way to it was found."""

    rule: str
    fault: str
    walked: bool
    frames: tuple[FrameMessage, ...]
