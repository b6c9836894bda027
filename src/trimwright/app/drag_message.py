"""What is said of a drag while it goes on."""

from pydantic import Field

from trimwright.app.message import EditMessage, Message, Reach, Spot, Step, ViewsMessage


class MoveMessage(Message):
    """By how much a figure is dragged [mm]."""

    path: tuple[Step, ...] = Field(min_length=1, max_length=20)
    by_mm: Reach


class Seen(Message):
    """What of the views is looked at: where the section is [mm], between which points the detail."""

    at_mm: Reach | None = None
    gap: tuple[Spot, Spot] | None = None


class DragAsked(Message):
    """What is dragged, unwritten, and whether figures go in whole steps (5 mm, 1/4 in).

    With `seen` the views are drawn too, which takes longer than the figures.
    """

    moves: tuple[MoveMessage, ...] = Field(min_length=1, max_length=20)
    whole: bool = False
    seen: Seen | None = None


class LiveGap(Message):
    """A gap before and with a drag, all figures as written; `short_mm` is less than 0 if it clears."""

    name: str
    before: str
    figure: str
    wanted: str
    short_mm: float


class DragMessage(Message):
    """The edits a drag would write, and the gaps that it changes, the shortest of room first.

    `cannot` says why no gap can be told: what is dragged can then not be made or does not stand.
    """

    version: str
    edits: tuple[EditMessage, ...]
    gaps: tuple[LiveGap, ...]
    cannot: str
    views: ViewsMessage | None = None
