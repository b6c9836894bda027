"""Notes with what they are about found in the file, and their pictures from beside it."""

from pathlib import Path

from msgspec import Struct

from trimwright.build.document import dotted
from trimwright.build.key_name import called
from trimwright.build.load import Loaded
from trimwright.build.node import scalars
from trimwright.build.picture_file import NoPictureError, picture_bytes
from trimwright.build.wanted import Note


class Noted(Struct, frozen=True):
    """A note, the dotted key of the reading it is about, and its picture.

    `key` is empty where it is about no reading, or none of that name is written. `lacks` says why
    there is no picture where there should be one.
    """

    note: Note
    key: str = ""
    picture: bytes = b""
    lacks: str = ""


def album(loaded: Loaded, path: Path) -> tuple[Noted, ...]:
    """Return every note of a build in the order of its file, pictures read from beside it.

    Parameters
    ----------
    loaded : Loaded
        The build with its text.
    path : Path
        Its file.
    """
    if not loaded.build.notes:
        return ()
    keys = reading_keys(loaded)
    return tuple(_noted(note, keys, path) for note in loaded.build.notes)


def reading_keys(loaded: Loaded) -> dict[str, str]:
    """Return the dotted key of everything that is written, by each name it answers to."""
    root = loaded.document.root
    found: dict[str, str] = {}
    for path, _ in scalars(root):
        for name in called(root, path):
            found.setdefault(name.casefold(), dotted(path))
    return found


def _noted(note: Note, keys: dict[str, str], path: Path) -> Noted:
    """Return one note with what belongs to it."""
    key = keys.get(note.reading.strip().casefold(), "") if note.reading else ""
    if note.photo is None:
        return Noted(note, key)
    try:
        return Noted(note, key, picture_bytes(path, note.photo))
    except NoPictureError as lacking:
        return Noted(note, key, lacks=str(lacking))
