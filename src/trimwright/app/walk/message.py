"""What the server and the page say to each other on the measuring walk, and when a build begins."""

from typing import Literal

from pydantic import Field

from trimwright.app.message import (
    Area,
    EditMessage,
    Label,
    Message,
    Place,
    Ring,
    Step,
    Stroke,
)


class NewBuild(Message):
    """What is asked before a build begins."""

    title: str = Field(min_length=1, max_length=120)
    unit: Literal["mm", "in"]
    driver: Literal["left", "right"]


class Taped(Message):
    """The dimension that is read: its line, where its figure stands, and where to read it."""

    line: tuple[Place, ...]
    across: bool
    figure_at: Place
    read_at: Place
    read_says: str
    plus: str


class PictureMessage(Message):
    """One drawing of where the tape goes, in mm, y down; its last `tape_strokes` lie over the tape."""

    says: str
    extent: tuple[float, float, float, float]
    strokes: tuple[Stroke, ...]
    tape_strokes: int
    areas: tuple[Area, ...]
    rings: tuple[Ring, ...]
    labels: tuple[Label, ...]
    taped: Taped | None


class OverMessage(Message):
    """What readings of a group were taken over: where that is written, and what it may be.

    Where the file holds none of the group yet, it goes in with the first of them.
    """

    path: tuple[Step, ...]
    alone: bool
    choices: tuple[str, ...]
    now: str


class WalkStep(Message):
    """One reading of the walk.

    `asked` says why: one of the first, once again, or one more. `figure` and `side` are what the
    file says already, `tail` stands after every figure. `sides` are the two ways a place may lie.
    `needs` names the readings without which the file cannot hold it, `gives` what it lets us check,
    in words. Notes name it as one of `called`, new ones as the first.
    """

    asked: Literal["first", "again", "more"]
    path: tuple[Step, ...]
    heading: str
    says: str
    words: bool
    choices: tuple[str, ...]
    written: str
    figure: str
    side: str
    sides: tuple[str, ...]
    tail: str
    measured: bool
    needs: tuple[tuple[Step, ...], ...]
    gives: str
    over: OverMessage | None
    at_mm: float | None
    picture: PictureMessage | None
    called: tuple[str, ...]


class ReadBy(Message):
    """A way of reading: its name, its doubt in either unit, and whether it has to be written."""

    name: str
    mm: str
    inch: str
    written: bool


class WalkMessage(Message):
    """The walk of a version: its steps in order, and the places along the car that have readings."""

    version: str
    unit: Literal["mm", "in"]
    read_by: tuple[ReadBy, ...]
    stations: tuple[float, ...]
    steps: tuple[WalkStep, ...]


class Entered(Message):
    """A reading as entered on the walk, with those entered before that the file cannot hold yet.

    `meant` says that a figure far from what is usual is what the tape reads.
    """

    base: str = Field(max_length=64)
    reading: EditMessage
    meant: bool = False
    held: tuple[EditMessage, ...] = Field(default=(), max_length=30)


class SlipMessage(Message):
    """A reading that does not fit the others, named while the tape is out.

    `instead` are others of which one may be wrong in its place, the likelier first.
    """

    path: tuple[Step, ...]
    says: str
    instead: tuple[str, ...]


class TakenMessage(Message):
    """What became of readings: written with a new version, or held for what they need.

    `path` is where the last of them is asked for now.
    """

    version: str
    path: tuple[Step, ...]
    held: tuple[EditMessage, ...]
    waits_for: tuple[str, ...]
    slips: tuple[SlipMessage, ...]


class ProbeMessage(Message):
    """One line of the test-fit sheet: its words as entered, how to probe, what is expected."""

    words: str
    where: str
    tool: str
    expected: str
    reads: str


class ProbesMessage(Message):
    """The readings to take at the car, and those that are written."""

    version: str
    missing: str
    probes: tuple[ProbeMessage, ...]
    written: tuple[ProbeMessage, ...]


class ProbeReading(Message):
    """A reading at the car: what was probed, and what it read, or 'touches'."""

    base: str = Field(max_length=64)
    words: str = Field(min_length=1, max_length=200)
    reads: str = Field(min_length=1, max_length=100)


class Learned(Message):
    """How one gap's certainty moved; `span` is where it lies nine times in ten now."""

    gap: str
    written: str
    span: str
    before: str
    after: str


class LearnedMessage(Message):
    """What a reading at the car changed, and what it says beside what was measured before."""

    version: str
    before: str
    after: str
    gaps: tuple[Learned, ...]
    told: str
    puzzle: str
