"""What a bench holds and says: a file's text with its version, and why something is not done."""

from pathlib import Path

from msgspec import Struct

from trimwright.build import MOST_BYTES, InputError, Loaded, fingerprint
from trimwright.findings import Edit

NAME_LENGTH = 16  # signs of a fingerprint that name a version
Said = dict[tuple[str | int, ...], str | None]  # by path; None where nothing is said


class Standing(Struct, frozen=True, eq=False):
    """What a bench holds.

    Attributes
    ----------
    version : str
        Names what the file holds, whoever wrote it, or why nothing can be read.
    text : str
        What the file says; of a file that cannot be used, nothing.
    good : Loaded or None
        The last of its texts that can be used; None where there was none.
    fault : InputError or None
        Why the text as it is cannot be used.
    """

    version: str
    text: str
    good: Loaded | None
    fault: InputError | None

    @property
    def usable(self) -> "Standing | None":
        """The last standing that could be used: this one, unless its text cannot be."""
        if self.fault is None or self.good is None:
            return self if self.good else None
        return Standing(version_of(self.good.text), self.good.text, self.good, None)


class Account(Struct, frozen=True):
    """What a bench holds, with the last thing done to it and where one can go from there."""

    now: Standing
    last: str
    can_undo: bool
    can_redo: bool


class ClashError(Exception):
    """An edit meets what another changed since the version it was made to.

    Parameters
    ----------
    theirs : Said
        What the file says now where the edit would write, by path; None where it says nothing.
    """

    def __init__(self, theirs: Said) -> None:
        self.theirs = theirs
        super().__init__(f"{len(theirs)} of the places were changed by another hand")


class Sent(Struct, frozen=True):
    """Edits that a page sent, what they do in words, and its own name for them, if it has one."""

    edits: tuple[Edit, ...]
    says: str
    mark: str = ""


class Refused(Struct, frozen=True):
    """One of several patches that did not go in, counted from 0, with what it met or its fault."""

    number: int
    theirs: Said
    fault: InputError | None


class NotDoneError(Exception):
    """What was asked cannot be done; why, in one line."""


def version_of(text: str) -> str:
    """Return the short name of a text."""
    return fingerprint(text.encode("utf-8"))[:NAME_LENGTH]


def on_disk(path: Path) -> str:
    """Return a name of what a file holds, or of why it cannot be read."""
    try:
        with path.open("rb") as file:
            return fingerprint(file.read(MOST_BYTES + 1))[:NAME_LENGTH]
    except OSError as refused:
        return type(refused).__name__


def typed_in(path: Path) -> str:
    """Return what is typed in a file, faults and all; empty where it is no text, or too long."""
    try:
        data = path.read_bytes() if path.stat().st_size <= MOST_BYTES else b""
        return data.decode("utf-8")
    except (OSError, UnicodeDecodeError):
        return ""
