"""Another way of a build: a file of its own beside it, never over one that is there."""

import re
from collections.abc import Iterator
from pathlib import Path

from trimwright.app.standing import NotDoneError
from trimwright.build import History, write_new

ENDING = "-other-way"
MOST = 99  # other ways of one build; nobody tells more of them apart
_ENDED = re.compile(rf"{ENDING}(-\d+)?")


def name_of(path: Path) -> str:
    """Return what a build file is called: as its folder where it is that folder's `build.yaml`.

    Examples
    --------
    >>> name_of(Path("larkspur.yaml")), name_of(Path("/car/larkspur/build-other-way.yaml"))
    ('larkspur', 'larkspur-other-way')
    """
    rest = path.stem.removeprefix("build")
    if path.stem == "build" or (rest != path.stem and _ENDED.fullmatch(rest)):
        return f"{path.resolve().parent.name}{rest}"
    return path.stem


def put_beside(path: Path, data: bytes) -> Path:
    """Write another way of a build beside its file, under the next free name; return its file.

    An other way that holds the very same already is not written again. A name whose history is
    still kept is not free: undo would lead into another file's past.

    Raises
    ------
    NotDoneError
        If the folder does not take it, or all names are taken.
    """
    try:
        for one in _names(path):
            if _holds(one, data):
                return one
            if not History(one).folder.exists() and _written(one, data):
                return one
    except OSError as refused:
        raise NotDoneError(f"It cannot be kept beside {path.name}: {refused.strerror}.") from None
    raise NotDoneError(f"There are {MOST} other ways beside {path.name}: take one away first.")


def _names(path: Path) -> Iterator[Path]:
    """Yield the names of other ways of a build, of one that is itself another way the same."""
    stem = re.sub(f"{_ENDED.pattern}$", "", path.stem) + ENDING
    for number in range(1, MOST + 1):
        yield path.with_name(f"{stem}.yaml" if number == 1 else f"{stem}-{number}.yaml")


def _holds(path: Path, data: bytes) -> bool:
    """Return whether a file is there and holds the same, to the byte."""
    if path.is_symlink() or not path.is_file() or path.stat().st_size != len(data):
        return False
    return path.read_bytes() == data


def _written(path: Path, data: bytes) -> bool:
    """Write a file unless there is one of that name; return whether it was written."""
    try:
        write_new(path, data)
    except FileExistsError:
        return False
    return True
