"""What the server and the page say to each other of notes and photos."""

from typing import Literal

from pydantic import Field

from trimwright.app.message import Message

Subject = Literal["part", "reading", "finding", ""]


class NoteMessage(Message):
    """A note, counted from 0 in its file; `about` names what of its kind it is about.

    `photo` is the address of its picture below the build's, empty without one; `lacks` says why it
    has none to show where it should.
    """

    number: int
    kind: Subject
    about: str
    says: str
    photo: str
    lacks: str


class NotesMessage(Message):
    """Every note of a version, the parts that one can be about, and how large a picture may be."""

    version: str
    notes: tuple[NoteMessage, ...]
    parts: tuple[str, ...]
    most_bytes: int


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
