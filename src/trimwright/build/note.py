"""What the builder writes down about a part, a reading or a finding, with or without a picture."""

from collections.abc import Iterator
from pathlib import PurePosixPath, PureWindowsPath

from trimwright.build.entry import keys_of
from trimwright.build.fault import Fault, quoted
from trimwright.build.stranger import Say
from trimwright.build.whole import Build

PICTURES = (".jpg", ".jpeg", ".png", ".webp")
PICTURE = "the name of a picture in the build's own folder"
EXAMPLE = "photos/nose.jpg"
SUBJECTS = ("part", "reading", "finding")


def useless_notes(build: Build, say: Say) -> Iterator[Fault]:
    """Yield a fault for every note that says nothing, is about two things, or has a picture elsewhere.

    `say` makes a fault of an entry, its field, what was found, what was expected, an example.
    """
    for note in build.notes:
        about = [name for name in SUBJECTS if getattr(note, name)]
        if len(about) > 1:
            found, on = f"both {' and '.join(about)}", keys_of(note, *about)
            yield say(note, about[1], found, "one of them, or none", on=on)
        if note.says is None and note.photo is None:
            found, on = "no says and no photo", keys_of(note, "photo")
            yield say(note, "says", found, "one of the two", "says: glue it first", on=on)
        if note.photo is not None and not in_own_folder(note.photo):
            yield say(note, "photo", quoted(note.photo), PICTURE, EXAMPLE)


def in_own_folder(reference: str) -> bool:
    r"""Return whether a reference names a picture in the build's folder or one below it.

    Examples
    --------
    >>> in_own_folder("photos/nose.jpg"), in_own_folder("../nose.jpg"), in_own_folder("/nose.jpg")
    (True, False, False)
    >>> in_own_folder("C:nose.jpg"), in_own_folder("..\\nose.jpg"), in_own_folder("build.yaml")
    (False, False, False)
    """
    path = PurePosixPath(reference)
    return (
        reference.isprintable()
        and path.suffix.lower() in PICTURES
        and not path.is_absolute()
        and ".." not in path.parts
        and "\\" not in reference
        and not PureWindowsPath(reference).drive
    )
