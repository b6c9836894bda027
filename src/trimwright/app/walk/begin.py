"""A new build: a file of its own in the folder that is served, never over one that is there."""

import re
from pathlib import Path

from trimwright.app.bench import Bench
from trimwright.app.standing import NotDoneError
from trimwright.build import beginning, write_new
from trimwright.quantities import Unit

LONGEST = 60  # characters of a file's name
# names that some systems keep for devices and that cannot be files there; common practice, no source
KEPT_NAMES = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)", re.IGNORECASE)
_NO_LETTER = re.compile(r"[\W_]+")


def file_name(title: str) -> str:
    """Return the plain name of the file that a new build goes into.

    Raises
    ------
    NotDoneError
        If the title holds no letter and no figure.

    Examples
    --------
    >>> file_name("Larkspur estate, 1974"), file_name("../Ödland"), file_name("con")
    ('larkspur-estate-1974.yaml', 'ödland.yaml', 'build-con.yaml')
    """
    plain = _NO_LETTER.sub("-", title.casefold()).strip("-")[:LONGEST].strip("-")
    if not plain:
        raise NotDoneError("A name needs a letter or a figure in it.")
    if KEPT_NAMES.fullmatch(plain) or plain == "build":
        plain = f"build-{plain}"
    return f"{plain}.yaml"


def begin(folder: Path, title: str, unit: Unit, driver: str) -> Bench:
    """Write a new build with what was answered, and no figure; return it on its bench.

    Raises
    ------
    NotDoneError
        If there is a file of that name, or the folder does not take one.
    """
    path = folder / file_name(title)
    try:
        write_new(path, beginning(title, unit, driver).encode("utf-8"))
    except FileExistsError:
        raise NotDoneError(f"{path.name} is there already: give it another name.") from None
    except OSError as refused:
        raise NotDoneError(f"{path.name} cannot be written: {refused.strerror}.") from None
    return Bench(path)
