"""The journal of a history: one line for every version kept and every step taken."""

import json
from pathlib import Path

from msgspec import Struct
from msgspec.structs import asdict

from trimwright.build.disk import append_line, fingerprint, write_whole


class Version(Struct, frozen=True):
    """A version of the file that was kept: its number, words, bytes' fingerprint, time if given."""

    number: int
    says: str
    sha256: str
    stamp: str = ""


class Step(Struct, frozen=True):
    """One line of the journal: the file went from one version to another.

    `kind` is 'save', 'undo' or 'redo'; `before` is the number of the version it went from.
    """

    kind: str
    before: int
    number: int
    says: str
    sha256: str
    stamp: str = ""


def steps_of(journal: Path) -> tuple[Step, ...]:
    """Return the steps a journal holds; a last line that was cut off while written is none.

    Raises
    ------
    ValueError
        If any other line cannot be read.
    """
    if not journal.exists():
        return ()
    lines = journal.read_bytes().split(b"\n")
    whole = lines[:-1]  # what follows the last line end was never finished
    steps = []
    for number, line in enumerate(whole, start=1):
        try:
            steps.append(Step(**json.loads(line)))
        except (ValueError, TypeError) as error:
            raise ValueError(f"{journal.name} line {number} cannot be read: {error}") from None
    return tuple(steps)


def add_step(journal: Path, step: Step) -> None:
    """Add a step; the remains of an unfinished line are cleared away first."""
    if journal.exists():
        data = journal.read_bytes()
        if data and not data.endswith(b"\n"):
            write_whole(journal, data[: data.rfind(b"\n") + 1])
    append_line(journal, json.dumps(asdict(step), ensure_ascii=False, sort_keys=True))


def kept(folder: Path, version: Version) -> bytes:
    """Return the bytes of a version.

    Raises
    ------
    ValueError
        If the kept file is not what was kept.
    """
    data = snapshot(folder, version.number).read_bytes()
    if fingerprint(data) != version.sha256:
        raise ValueError(f"{snapshot(folder, version.number).name} is not what was kept in it")
    return data


def snapshot(folder: Path, number: int) -> Path:
    """Return where the bytes of a version are kept."""
    return folder / f"{number:04d}.yaml"
