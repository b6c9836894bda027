"""Notes of a build as messages, and a new one as edits to its file."""

from pathlib import Path

from trimwright.app.note_message import NewNote, NoteMessage, NotesMessage, PartsMessage
from trimwright.app.standing import NotDoneError
from trimwright.build import MOST_PICTURE_BYTES, Loaded, NoPictureError, Note, picture_bytes
from trimwright.cabin import cabin
from trimwright.drawing import picture_kind
from trimwright.findings import Edit

KINDS = {"JPEG": "image/jpeg", "PNG": "image/png", "WEBP": "image/webp"}


def notes(loaded: Loaded, version: str, path: Path) -> NotesMessage:
    """Return every note of a build in the order of its file."""
    return NotesMessage(
        version=version,
        notes=tuple(_note(n, one, path) for n, one in enumerate(loaded.build.notes)),
        most_bytes=MOST_PICTURE_BYTES,
    )


def parts(loaded: Loaded, version: str) -> PartsMessage:
    """Return the parts that a note can be about: the panels."""
    carcass = cabin(loaded.build).carcass
    names = tuple(panel.name for panel in carcass.panels) if carcass else ()
    return PartsMessage(version=version, parts=names)


def _note(number: int, one: Note, path: Path) -> NoteMessage:
    """Return one note; whether its picture can be shown is looked up."""
    lacks = ""
    if one.photo is not None:
        try:
            shown(path, one.photo)
        except NoPictureError as lacking:
            lacks = str(lacking)
    return NoteMessage(
        number=number,
        kind="part" if one.part else "reading" if one.reading else "finding" if one.finding else "",
        about=one.part or one.reading or one.finding or "",
        says=one.says or "",
        photo=one.photo if one.photo and not lacks else "",
        lacks=lacks,
    )


def shown(path: Path, reference: str) -> tuple[bytes, str]:
    """Return a picture with the kind its bytes tell of.

    Raises
    ------
    NoPictureError
        If it cannot be shown.
    """
    data = picture_bytes(path, reference)
    kind = picture_kind(data)
    if not kind:
        raise NoPictureError(f"{reference} is no picture that a page can show.")
    return data, KINDS[kind]


def note_edits(asked: NewNote, number: int) -> tuple[tuple[Edit, ...], str]:
    """Return the edits that add a note after so many, and what they do in words.

    Raises
    ------
    NotDoneError
        If it says and shows nothing, or does not name what it is about.
    """
    says = " ".join(asked.says.split())
    about = asked.about.strip()
    if not says and not asked.photo:
        raise NotDoneError("Write a few words, or add a photo.")
    if asked.kind and not about:
        raise NotDoneError("Say what the note is about.")
    told: dict[str, str] = {asked.kind: about} if asked.kind else {}
    told |= {name: text for name, text in (("says", says), ("photo", asked.photo)) if text}
    edits = tuple(Edit(("notes", number, name), text) for name, text in told.items())
    what = "Photo" if asked.photo else "Note"
    return edits, f"{what} at {about}" if about else f"{what} added"
