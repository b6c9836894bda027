"""What the server and the page say to each other; the page's types are made from these."""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Step = str | int
Place = tuple[float, float]
# mm; no cabin is longer
Reach = Annotated[float, Field(ge=-10_000, le=10_000, allow_inf_nan=False)]
Spot = tuple[Reach, Reach, Reach]
Drawn = Literal["covered", "test fit", "as cut", "engine moved"]


class Message(BaseModel):
    """A message: every field named, none beyond."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class EditMessage(Message):
    """One change to the file: the text at a path becomes a value; none takes it out."""

    path: tuple[Step, ...] = Field(min_length=1, max_length=20)
    value: str | None = Field(default=None, max_length=2000)


class Patch(Message):
    """Edits made to a version of the file, with what they do in words.

    `mark` is the page's own name for them: sent again, they are not made again.
    """

    base: str = Field(max_length=64)
    mark: str = Field(default="", max_length=64)
    edits: tuple[EditMessage, ...] = Field(min_length=1, max_length=200)
    says: str = Field(min_length=1, max_length=200)


class OtherWay(Message):
    """Edits that meet another hand's, made to the version that shows what that wrote."""

    base: str = Field(max_length=64)
    edits: tuple[EditMessage, ...] = Field(min_length=1, max_length=1000)


class BesideMessage(Message):
    """Another way of a build: its name on the shelf, and its file in the same folder."""

    name: str
    file: str


class KeptPatch(Message):
    """Edits that a page kept while it could not reach the server, with what they do in words."""

    mark: str = Field(default="", max_length=64)
    edits: tuple[EditMessage, ...] = Field(min_length=1, max_length=200)
    says: str = Field(min_length=1, max_length=200)


class Replay(Message):
    """All that a page kept, in its order, made to the last version it had seen."""

    base: str = Field(max_length=64)
    patches: tuple[KeptPatch, ...] = Field(min_length=1, max_length=200)


class Trial(Message):
    """Edits to try without writing them."""

    edits: tuple[EditMessage, ...] = Field(max_length=200)


class FaultMessage(Message):
    """One thing wrong with the file, or with an edit."""

    line: int
    path: tuple[Step, ...]
    found: str
    expected: str
    example: str
    readings: tuple[str, ...]


class StandingMessage(Message):
    """What a build's file says now."""

    name: str
    title: str
    unit: Literal["mm", "in"]
    version: str
    last: str
    can_undo: bool
    can_redo: bool
    faults: tuple[FaultMessage, ...]


class OnShelf(Message):
    """A build on the shelf: its name, what locks next and what stands against it.

    `stops` is none where the file cannot be used, and where its findings are still worked out
    (`waits`): an event 'reckoned' tells when they are.
    """

    name: str
    title: str
    next_lock: str
    stops: int | None
    waits: bool


class RemedyMessage(Message):
    """What can be done, and the edits that write it down (none: by hand)."""

    says: str
    edits: tuple[EditMessage, ...]


class FindingMessage(Message):
    """One finding; `number` is 0 where it is good. Figures in words and, for the scale, in mm."""

    number: int
    rule: str
    place: str
    zone: str
    grade: Literal["stop", "change", "look", "good"]
    says: str
    lock: str
    figure: str
    limit: str
    sure: str
    figure_mm: float | None
    limit_mm: float | None
    spare_mm: float | None
    low_mm: float | None
    high_mm: float | None
    at: tuple[float, float, float] | None
    on: tuple[float, float, float] | None
    missing: tuple[str, ...]
    remedies: tuple[RemedyMessage, ...]
    source: str
    why: tuple[str, ...]


class TestMessage(Message):
    """One test before a lock: what it takes and saves on average, in words and hours.

    `place` is that of the finding that tells of it, empty for trying it in the car. Hours that
    nobody wrote are none, and what follows from them as well.
    """

    says: str
    place: str
    why: str
    takes: str
    takes_h: float | None
    saves: str
    saves_h: float | None


class BeforeMessage(Message):
    """The tests before a lock, the most hours saved first; what doing it again takes, as typed."""

    lock: str
    redoing: str
    tests: tuple[TestMessage, ...]


class FitMessage(Message):
    """Every finding of a version, in the order of the work, and how sure all of it together is.

    `before` holds what is worth doing before each lock, `trying` the hours of trying it in the
    car, as typed.
    """

    version: str
    together: str
    before: tuple[BeforeMessage, ...]
    trying: str
    findings: tuple[FindingMessage, ...]


class GradeChange(Message):
    """A finding whose grade an edit changes; empty where it comes or goes."""

    place: str
    before: str
    after: str
    worse: bool


class TrialMessage(Message):
    """What edits would change, worse first, and how sure all together would be."""

    together: str
    changes: tuple[GradeChange, ...]


class RefusalMessage(Message):
    """Why what was asked is not done, in one line."""

    detail: str


class ClashMessage(Message):
    """What another hand wrote where an edit would write."""

    theirs: tuple[EditMessage, ...]


class RefusedPatch(Message):
    """A kept patch (counted from 0) that did not go in: what it met, or what is wrong with it."""

    number: int
    theirs: tuple[EditMessage, ...]
    faults: tuple[FaultMessage, ...]


class ReplayMessage(Message):
    """What the file says after a replay, and what did not go in."""

    standing: StandingMessage
    refused: tuple[RefusedPatch, ...]


class Stroke(Message):
    """A line through places [mm on the view, y down], drawn with a pen of the drawing room."""

    pen: str
    points: tuple[Place, ...]
    closed: bool


class Area(Message):
    """An area without an outline: hatched or toned."""

    fill: str
    points: tuple[Place, ...]


class Ring(Message):
    """A circle."""

    pen: str
    centre: Place
    radius: float


class Label(Message):
    """Words that name what is at a place; the page finds room for them beside it."""

    words: str
    at: Place


class SizeMark(Message):
    """A dimension between two places, `off` steps beside them; with a key it can be typed over."""

    words: str
    a: Place
    b: Place
    off: float
    path: tuple[Step, ...]
    typed: str


class Zones(Message):
    """Where the zones that findings name begin and end on the view: 1, 2 .. along, A, B .. down."""

    along: tuple[float, ...]
    down: tuple[float, ...]


class PullMessage(Message):
    """One figure that a handle moves: its path, what it is [mm], its way on the view for each mm."""

    path: tuple[Step, ...]
    now_mm: float
    way: Place


class HandleMessage(Message):
    """Something that can be dragged: its name, its place on the view, what it moves."""

    name: str
    at: Place
    pulls: tuple[PullMessage, ...]


class ViewMessage(Message):
    """One view at true size, with what the page has to find room for beside it.

    `axes` are the axes of the car that go right and up on it.
    """

    name: str
    axes: tuple[int, int]
    extent: tuple[float, float, float, float]
    strokes: tuple[Stroke, ...]
    areas: tuple[Area, ...]
    rings: tuple[Ring, ...]
    labels: tuple[Label, ...]
    sizes: tuple[SizeMark, ...]
    zones: Zones | None
    datum: Place | None
    handles: tuple[HandleMessage, ...] = ()


class DetailMessage(Message):
    """The place of one gap, cut open: the view, its middle and radius on it, the plane in words."""

    place: str
    middle: Place
    radius: float
    view: ViewMessage


class ViewsMessage(Message):
    """The views of a version: side, plan, and the section at a place along the car [mm]."""

    version: str
    at_mm: float
    span_mm: tuple[float, float]
    place: str
    missing: tuple[str, ...]
    views: tuple[ViewMessage, ...]
    detail: DetailMessage | None


class ViewsAsked(Message):
    """Views of a build with edits made to it, unwritten; the detail between two points of a gap.

    They are drawn covered and at rest on the carpet, bare as at a test fit, as cut and designed,
    or covered with the lever as the engine moves it.
    """

    edits: tuple[EditMessage, ...] = Field(default=(), max_length=200)
    at_mm: Reach | None = None
    gap: tuple[Spot, Spot] | None = None
    drawn: Drawn = "covered"


class DeedsMessage(Message):
    """What was done to a build, oldest first, where among it the file stands, and what is left.

    `at` counts from 0; -1 where nothing was kept yet. `left` names the findings that a reason is
    written for, in the order of the file, `locked` what is done and can no longer be undone easily, `locks` all there is of
    that, in the order of the work.
    """

    steps: tuple[str, ...]
    at: int
    left: tuple[str, ...]
    locked: tuple[str, ...]
    locks: tuple[str, ...]
