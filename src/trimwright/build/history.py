"""The history of a build file: every version in words, undo and redo without end."""

from pathlib import Path

from msgspec import Struct, field

from trimwright.build.disk import fingerprint, write_whole
from trimwright.build.journal import Step, Version, add_step, kept, snapshot, steps_of

FIRST, BY_HAND = "As first kept", "Changed by hand"


class ConflictError(Exception):
    """The file was changed by another hand since it was read; both versions are kept.

    Parameters
    ----------
    name : str
        The file.
    ours : Path
        Where the version that was not written is kept.
    """

    def __init__(self, name: str, ours: Path) -> None:
        self.ours = ours
        super().__init__(
            f"{name} was changed since it was read, and is left as it is; "
            f"the version not written is kept as {ours.parent.name}/{ours.name}"
        )


class _State(Struct):
    """What a journal amounts to."""

    versions: dict[int, Version] = field(default_factory=dict)
    line: list[int] = field(default_factory=list)  # versions in the order undo walks them
    at: int = -1  # place in `line` of the version the file holds

    def take(self, step: Step) -> None:
        """Follow one step; where the one before never reached the file, go on from what it held."""
        if step.before in self.line:
            self.at = self.line.index(step.before)
        if step.kind == "save":
            version = Version(step.number, step.says, step.sha256, step.stamp)
            self.versions[step.number] = version
            self.line = [*self.line[: self.at + 1], step.number]
        self.at = self.line.index(step.number)


class History:
    """A build file with all its versions, kept in a folder beside it.

    Parameters
    ----------
    path : Path
        The build file. A version is a file in `.<name>.history`, with a journal of what was done.

    Notes
    -----
    A version is kept, then entered in the journal, then the file is replaced, each lasting before
    the next begins. Where the last entry was made but the file not replaced, the file still holds
    the version before it, and redo brings the other. Where the file holds neither, another hand
    changed it, and what it holds becomes a version of its own before anything is written.
    """

    def __init__(self, path: Path | str) -> None:
        self.path = Path(path)
        self.folder = self.path.with_name(f".{self.path.name}.history")
        self.journal = self.folder / "journal.jsonl"

    def list(self) -> tuple[Version, ...]:
        """Return the versions that undo and redo walk, oldest first."""
        state = self._state()
        return tuple(state.versions[number] for number in state.line)

    def current(self) -> Version | None:
        """Return the version the file holds, or None where that was never kept."""
        state = self._state()
        version = state.versions[state.line[state.at]] if state.line else None
        return version if version and version.sha256 == fingerprint(self._bytes()) else None

    def text_of(self, sha256: str) -> str | None:
        """Return the text of a version by the beginning of its fingerprint; None if none is kept."""
        for version in self._state().versions.values():
            if version.sha256.startswith(sha256):
                return kept(self.folder, version).decode("utf-8")
        return None

    def save(self, text: str, says: str, *, read: str, stamp: str = "") -> Version:
        """Write a new version of the file.

        Parameters
        ----------
        text : str
            The new text, line ends as they are to be.
        says : str
            What was done, in words: 'Cut 7.5 mm off the nose'.
        read : str
            The text the change was made to, as it was read from the file.
        stamp : str, optional
            A time, for the journal only.

        Raises
        ------
        ConflictError
            If the file no longer holds what was read. It stays; the new text is kept beside it.
        """
        self.folder.mkdir(exist_ok=True)
        data = text.encode("utf-8")
        self._refuse_changed(read.encode("utf-8"), data)
        state = self._caught_up(stamp)
        number = max(state.versions, default=0) + 1
        version = Version(number, says, fingerprint(data), stamp)
        write_whole(snapshot(self.folder, number), data)
        return self._step("save", state, version, data)

    def undo(self, *, stamp: str = "") -> Version:
        """Bring the version before this one back, to the byte.

        Raises
        ------
        ValueError
            If there is none.
        """
        return self._walk("undo", -1, stamp)

    def redo(self, *, stamp: str = "") -> Version:
        """Bring the version after this one back, to the byte.

        Raises
        ------
        ValueError
            If there is none.
        """
        return self._walk("redo", 1, stamp)

    def _walk(self, kind: str, by: int, stamp: str) -> Version:
        """Go one version back or forth."""
        state = self._caught_up(stamp) if self.folder.exists() else self._state()
        to = state.at + by
        if not 0 <= to < len(state.line):
            raise ValueError(f"{self.path.name} has nothing to {kind}")
        version = state.versions[state.line[to]]
        return self._step(kind, state, version, kept(self.folder, version), stamp)

    def _step(
        self, kind: str, state: _State, version: Version, data: bytes, stamp: str = ""
    ) -> Version:
        """Enter a step in the journal, then replace the file."""
        before = state.line[state.at] if state.line else 0
        told = (version.number, version.says, version.sha256, version.stamp or stamp)
        add_step(self.journal, Step(kind, before, *told))
        write_whole(self.path, data)
        return version

    def _bytes(self) -> bytes:
        """Return what the file holds; a file that is not there holds nothing."""
        return self.path.read_bytes() if self.path.exists() else b""

    def _state(self) -> _State:
        """Return what the journal amounts to; a last step that never reached the file can be redone."""
        steps = steps_of(self.journal)
        state = _State()
        for step in steps:
            state.take(step)
        if not steps:
            return state
        found, last = fingerprint(self._bytes()), steps[-1]
        earlier = state.versions.get(last.before)
        if found != last.sha256 and earlier is not None and found == earlier.sha256:
            state.at = state.line.index(last.before)
        return state

    def _caught_up(self, stamp: str) -> _State:
        """Return the state after keeping what the file holds, if that was never kept."""
        state, data = self._state(), self._bytes()
        now = state.versions[state.line[state.at]] if state.line else None
        if now is not None and now.sha256 == fingerprint(data):
            return state
        number = max(state.versions, default=0) + 1
        says = BY_HAND if state.versions else FIRST
        write_whole(snapshot(self.folder, number), data)
        before = now.number if now else 0
        step = Step("save", before, number, says, fingerprint(data), stamp)
        add_step(self.journal, step)
        state.take(step)
        return state

    def _refuse_changed(self, read: bytes, new: bytes) -> None:
        """Keep the new text and refuse to write it, if the file is not what was read."""
        if self._bytes() == read:
            return
        ours = self.folder / f"not-written-{fingerprint(new)[:12]}.yaml"
        write_whole(ours, new)
        raise ConflictError(self.path.name, ours)
