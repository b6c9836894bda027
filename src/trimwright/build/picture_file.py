"""Pictures in files beside a build: put there under names of our own, read back from no further."""

from collections.abc import Iterator
from pathlib import Path

from trimwright.build.disk import fingerprint, write_whole
from trimwright.build.document import Document
from trimwright.build.fault import Fault
from trimwright.build.note import EXAMPLE, PICTURE, in_own_folder
from trimwright.build.whole import Build

FOLDER = "photos"
MOST_PICTURE_BYTES = 12 * 1024 * 1024  # of one picture, sent or kept; phones make 3 to 8
NAME_LENGTH = 32  # signs of a fingerprint that name a picture


class NoPictureError(Exception):
    """There is no picture to show; why, in one line."""


def picture_name(data: bytes, ending: str) -> str:
    """Return the reference under which a picture is kept: its content names it."""
    return f"{FOLDER}/{fingerprint(data)[:NAME_LENGTH]}{ending}"


def keep_picture(build: Path, data: bytes, ending: str) -> str:
    """Write a picture beside a build file and return the reference to it.

    Its name is its content's: the same picture twice is one file. Nothing is ever taken away.

    Raises
    ------
    NoPictureError
        If the folder for pictures, or what has that name in it, leads elsewhere.
    OSError
        If it cannot be written.
    """
    reference = picture_name(data, ending)
    path = build.parent / reference
    if path.is_symlink() or not _stays(build, path):
        raise NoPictureError(f"The folder {FOLDER} leads out of the build's own: nothing is kept.")
    path.parent.mkdir(exist_ok=True)
    if not path.is_file() or path.read_bytes() != data:
        write_whole(path, data)
    return reference


def picture_bytes(build: Path, reference: str) -> bytes:
    """Return a picture that a build file names.

    Raises
    ------
    NoPictureError
        If it is not there, is too large, or lies outside the build's folder.
    """
    path = build.parent / reference
    if not in_own_folder(reference) or not _stays(build, path):
        raise NoPictureError(f"{reference} leads out of the build's folder and is left alone.")
    try:
        if not path.is_file():
            raise NoPictureError(f"The picture {reference} is not there.")
        with path.open("rb") as file:
            data = file.read(MOST_PICTURE_BYTES + 1)
    except OSError as refused:
        why = refused.strerror or str(refused)
        raise NoPictureError(f"The picture {reference} cannot be read: {why}.") from None
    if len(data) > MOST_PICTURE_BYTES:
        most = MOST_PICTURE_BYTES // 1024**2
        raise NoPictureError(f"The picture {reference} has more than {most} MiB.")
    return data


def strays(build: Build, where: Document, path: Path) -> Iterator[Fault]:
    """Yield a fault for every picture that a link leads out of the build's folder."""
    for note in build.notes:
        if note.photo is None or not in_own_folder(note.photo):
            continue  # what names no picture here is told as such
        if not _stays(path, path.parent / note.photo):
            number = int(note.key.rpartition(".")[2])
            line = where.line(f"{note.key}.photo")
            found = f'"{note.photo}", a link that leads elsewhere'
            yield Fault(line, ("notes", number, "photo"), found, PICTURE, EXAMPLE)


def seen(build: Build, path: Path) -> tuple[tuple[str, int, int], ...]:
    """Return each picture's reference with when it was changed and its size, 0 for what is not there."""
    found = []
    for reference in sorted({note.photo for note in build.notes if note.photo}):
        file = path.parent / reference
        try:
            state = file.stat()
            found.append((reference, state.st_mtime_ns, state.st_size))
        except OSError:
            found.append((reference, 0, 0))
    return tuple(found)


def _stays(build: Path, path: Path) -> bool:
    """Return whether a path, all links followed, lies in the folder of a build file."""
    try:
        end = path.resolve()
        # from Python 3.13 on links in a ring do not raise, and are left as they are
        return end.is_relative_to(build.parent.resolve()) and not end.is_symlink()
    except (OSError, RuntimeError):  # links in a ring
        return False
