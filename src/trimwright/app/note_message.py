"""What the server and the page say to each other of notes and photos."""

from typing import Literal

from pydantic import Field

from trimwright.app.message import Message

Subject = Literal["part", "reading", "finding", ""]


class NoteMessage(Message):
    """A note, counted from 0 in its file; `about` names what of its kind it is about.

    `photo` names the picture that can be shown, empty without one; `lacks` says why there is none
    where there should be.
    """

    number: int
    kind: Subject
    about: str
    says: str
    photo: str
    lacks: str


class NotesMessage(Message):
    """Every note of a version, and how large a picture may be."""

    version: str
    notes: tuple[NoteMessage, ...]
    most_bytes: int


class PartsMessage(Message):
    """The parts of a version that a note can be about."""

    version: str
    parts: tuple[str, ...]


class NewNote(Message):
    """A note to write: what it is about, its words, its picture if one was sent before."""

    kind: Subject = ""
    about: str = Field(default="", max_length=300)
    says: str = Field(default="", max_length=400)
    photo: str = Field(default="", max_length=100)


class PhotoMessage(Message):
    """A picture that was taken in: the name under which a note can show it, and its size [px]."""

    photo: str
    width: int
    height: int
