"""What the sheet 'wire' is told of a meter: where it is read, what is expected, what was read."""

from typing import Literal

from trimwright.app.message import Message
from trimwright.app.wire_fault_message import FaultSaid


class LikelyMessage(Message):
    """A fault that a wrong reading speaks of, what it would show, how well that fits, its chance."""

    fault: FaultSaid
    shows: str
    fits: str
    chance: str


class ReadingMessage(Message):
    """One place to read at.

    Attributes
    ----------
    name : str
        As it is entered.
    of, page : str, int
        The device that is read, and the first page of the diagram that shows it; 0 where none does.
    red, black : str
        Where the probes go.
    mode, put, stands
        How the car stands: as the sheet is put, and in words.
    expected : str
        In words; `low_v`, `sound_v` and `high_v` the same [V].
    chosen : bool
        Whether it is one of the fewest that see every fault that stops a load.
    reads : str
        What was read, as typed; empty where nothing was.
    reads_v : float or None
        The same [V].
    index : int or None
        Its item in the list of readings.
    verdict : {'', 'good', 'wrong'}
        Empty where nothing was read.
    likely : tuple of LikelyMessage
        The likeliest first; none where no single fault explains it.
    tied, more : int
        How many of the first are not ruled out, and how many more there are.
    following : str
        The reading that parts these best; empty where none does.
    nothing, other : str
        How likely it is that nothing is wrong, or something that is not in the list.
    """

    name: str
    of: str
    page: int
    red: str
    black: str
    mode: str
    put: dict[str, str]
    stands: tuple[str, ...]
    expected: str
    low_v: float
    sound_v: float
    high_v: float
    chosen: bool
    reads: str
    reads_v: float | None
    index: int | None
    verdict: Literal["", "good", "wrong"]
    likely: tuple[LikelyMessage, ...]
    tied: int
    more: int
    following: str
    nothing: str
    other: str


class MeterMessage(Message):
    """Every place to read at, in the order of the work; none where no voltage can be computed.

    `count` is how many readings the file holds, `lost` those of them at which nothing is expected.
    """

    version: str
    readings: tuple[ReadingMessage, ...]
    count: int
    lost: tuple[str, ...]
