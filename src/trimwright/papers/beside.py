"""What is kept beside a build file and stands on its papers."""

from msgspec import Struct

from trimwright.build import Build, Noted, Version
from trimwright.drawing import fits_last_change


class Beside(Struct, frozen=True):
    """History, notes and photos of a build.

    `versions` is the history, oldest first; empty where none was kept. `last` is the version that
    the file holds, None where it holds one that was never kept.
    """

    versions: tuple[Version, ...] = ()
    notes: tuple[Noted, ...] = ()
    last: Version | None = None


NOTHING = Beside()


def last_change(build: Build, last: Version | None) -> str:
    """Return what was changed last: the last edit in words, else the revision in the file.

    Where the words are longer than their field, the number they have in the build book.
    """
    if last is None:
        return f"revision {build.console.revision if build.console else 'A'}"
    return last.says if fits_last_change(last.says) else f"change {last.number} of the history"
