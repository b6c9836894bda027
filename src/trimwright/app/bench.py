"""One build on the bench: what its file says now, edits to it, and what others changed meanwhile."""

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import RLock

from trimwright.app.beside import name_of
from trimwright.app.standing import (
    NAME_LENGTH,
    Account,
    ClashError,
    NotDoneError,
    Refused,
    Said,
    Sent,
    Standing,
    on_disk,
    typed_in,
    version_of,
)
from trimwright.build import (
    ConflictError,
    Fault,
    History,
    InputError,
    Loaded,
    changed,
    edited,
    load,
    meet,
    met,
    parse,
    written,
)
from trimwright.build import Version as Kept
from trimwright.findings import Edit

TRIES = 3  # times an edit is made again on a file that changes under it
MARKS = 1000  # of patches that may be sent again after a lost answer
REMEMBERED = 64  # texts of a session that were not all kept on disk
Listener = Callable[[str, str], None]  # the bench's name, the new version


class Bench:
    """A build file that several pages look at and edit.

    Every call may come from any thread; one at a time writes. An edit that was taken is on disk
    before the call returns.

    Parameters
    ----------
    path : Path
        The build file.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.name = name_of(path)
        self.history = History(path)
        self._lock = RLock()
        self._listeners: list[Listener] = []
        self._marks: dict[str, None] = {}  # of what pages sent and what went in, the latest last
        self._texts: dict[str, str] = {}  # by version, the latest last
        self._seen = ""  # what was on disk when it was read last
        self._now = Standing("", "", None, None)
        self._take(self._read())

    def listen(self, listener: Listener) -> None:
        """Tell a listener of every new version."""
        self._listeners.append(listener)

    def standing(self) -> Standing:
        """Return what the bench holds, the file read again if another hand changed it."""
        with self._lock:
            self.look()
            return self._now

    def look(self) -> bool:
        """Read the file again; return whether it was changed by another hand."""
        with self._lock:
            if on_disk(self.path) == self._seen:
                return False
            before = self._now.version
            self._take(self._read())
            return self._now.version != before

    def edit(self, base: str, edits: Iterable[Edit], says: str, *, mark: str = "") -> Standing:
        """Write edits that were made to a version of the file.

        What others changed elsewhere since that version stays. Edits that are in the file already
        are not made again, nor those of a `mark` that went in before. A file that cannot be used takes edits that mend it, fault by fault.

        Raises
        ------
        ClashError
            If another hand changed what these edits would write, or the version is not known.
        InputError
            If the file cannot be used with them, or of one that cannot be used as it is nothing is
            mended by them; nothing is written.
        NotDoneError
            If the file cannot be written.
        """
        edits = tuple(edits)
        with self._lock, self._refusals():
            if mark in self._marks:
                self.look()
                return self._now
            for left in reversed(range(TRIES)):
                self.look()
                if self._now.fault is not None and not self._mendable(base, edits):
                    raise self._now.fault
                before = self._before(base)
                theirs = self._theirs(before, self._now.text, edits)
                if theirs:
                    raise ClashError(theirs)
                try:
                    self._write(_still_open(before, self._now.text, edits), says)
                except ConflictError as conflict:
                    if not left:
                        raise
                    conflict.ours.unlink(missing_ok=True)  # made again on what is there now
                    continue
                break
            self._went_in(mark)
            return self._now

    def _went_in(self, mark: str) -> None:
        """Remember a page's own name for what it sent."""
        if mark:
            self._marks[mark] = None
            while len(self._marks) > MARKS:
                del self._marks[next(iter(self._marks))]

    def replay(self, base: str, patches: Iterable[Sent]) -> tuple[Standing, tuple[Refused, ...]]:
        """Write what a page kept while it was away, patch by patch, each with its words.

        All were made to one version, one after another. A patch that meets what another hand
        changed since that version, or that cannot be used, is left out, and so is each that
        follows it in the same place or list.

        Raises
        ------
        InputError
            If the file cannot be used as it is.
        NotDoneError
            If the file cannot be written, or is changed by another program meanwhile.
        """
        with self._lock, self._refusals():
            self.look()
            if self._now.fault is not None:
                raise self._now.fault
            before, then = self._before(base), self._now.text
            refused: list[Refused] = []
            lost: list[Edit] = []
            for number, one in enumerate(patches):
                if one.mark in self._marks:
                    continue
                edits, fault = one.edits, None
                theirs = self._theirs(before, then, edits) or self._follows(lost, edits)
                if not theirs:
                    try:
                        self._write(_still_open(before, then, edits), one.says)
                        self._went_in(one.mark)
                        continue
                    except InputError as wrong:
                        fault = wrong
                refused.append(Refused(number, theirs, fault))
                lost += edits
            return self._now, tuple(refused)

    def tried(self, text: str, edits: Iterable[Edit]) -> Loaded:
        """Return what a text says with edits made; nothing is written.

        Raises
        ------
        InputError
            If an edit leads nowhere, or the file cannot be used with them.
        """
        return parse(self._spliced(text, edits), self.path.name)

    def other_way(self, base: str, edits: Iterable[Edit]) -> str:
        """Return what the file says with edits made that meet another hand's; nothing is written.

        Parameters
        ----------
        base : str
            The version that shows what the other hand wrote; see `edit`.

        Raises
        ------
        ClashError
            If what these edits would write was changed since that version as well.
        InputError
            If the file cannot be used as it is, or with them.
        NotDoneError
            If the file says so already.
        """
        edits = tuple(edits)
        with self._lock:
            self.look()
            if self._now.fault is not None:
                raise self._now.fault
            theirs = self._theirs(self._before(base), self._now.text, edits)
            if theirs:
                raise ClashError(theirs)
            text = self.tried(self._now.text, edits).text
            if text == self._now.text:
                raise NotDoneError("That is what the build says already: there is no other way.")
            return text

    def undo(self, base: str = "") -> Standing:
        """Bring back what the file held before its last edit.

        Parameters
        ----------
        base : str, optional
            The version whose last edit is to be taken back; any, if left out.

        Raises
        ------
        ClashError
            If the file was changed since that version.
        NotDoneError
            If there is nothing to undo, or the file cannot be written.
        """
        return self._walk(base, self.history.undo)

    def redo(self, base: str = "") -> Standing:
        """Make the edit again that was taken back; see `undo`."""
        return self._walk(base, self.history.redo)

    def steps(self) -> tuple[tuple[Kept, ...], int]:
        """Return the versions that undo and redo walk, oldest first, and where among them it is.

        Where the file holds what was never kept, that is one past the end.
        """
        with self._lock, self._refusals():
            versions, now = self.history.list(), self.history.current()
            return versions, versions.index(now) if now in versions else len(versions)

    def account(self) -> Account:
        """Return what the bench holds, what was done last, and whether undo and redo lead on."""
        with self._lock:
            now = self.standing()
            versions, at = self.steps()
            by_hand = "Changed by hand" if versions else ""
            last = versions[at].says if at < len(versions) else by_hand
            return Account(now, last, can_undo=at > 0, can_redo=at + 1 < len(versions))

    def _walk(self, base: str, step: Callable[[], Kept]) -> Standing:
        """Take one step of the history."""
        with self._lock, self._refusals():
            self.look()
            if base and base != self._now.version:
                before = self._known(base)
                raise ClashError({} if before is None else changed(before, self._now.text))
            step()
            self._take(self._read())
            return self._now

    def _write(self, edits: tuple[Edit, ...], says: str) -> None:
        """Write edits to the text as it is."""
        text = self._spliced(self._now.text, edits)
        if text == self._now.text:
            return
        try:
            good = parse(text, self.path.name)
        except InputError as left:
            if self._now.fault is None or any(_wrong_at(left.faults, one) for one in edits):
                raise
            self.history.save(text, says, read=self._now.text)
            self._take(self._read())
            return
        self.history.save(good.text, says, read=self._now.text)
        self._seen = version_of(good.text)
        self._take(Standing(self._seen, good.text, good, None))

    def _spliced(self, text: str, edits: Iterable[Edit]) -> str:
        """Return a text with edits made; a fault where one leads nowhere."""
        for one in edits:
            try:
                text = edited(text, (one,))
            except ValueError as wrong:
                found = "nothing" if one.value is None else f'"{one.value[:60]}"'
                fault = Fault(1, one.path, found, str(wrong))
                raise InputError(self.path.name, (fault,)) from None
        return text

    def _mendable(self, base: str, edits: tuple[Edit, ...]) -> bool:
        """Return whether edits to the file as it is write where it is wrong."""
        faults = () if self._now.fault is None else self._now.fault.faults
        return base == self._now.version and all(_wrong_at(faults, one) for one in edits)

    def _before(self, base: str) -> str | None:
        """Return the text that edits were made to, None if it is not known."""
        return self._now.text if base == self._now.version else self._known(base)

    def _theirs(self, before: str | None, now: str, edits: tuple[Edit, ...]) -> Said:
        """Return what another hand changed where edits to a text write; all there, of none known."""
        if before is None:
            said = written(now)
            return {edit.path: said.get(edit.path) for edit in edits}
        return {} if before == now else met(before, now, edits)

    def _follows(self, lost: list[Edit], edits: tuple[Edit, ...]) -> Said:
        """Return what the file says where edits follow others that did not go in."""
        said, roots = written(self._now.text), [_root(edit) for edit in lost]
        return {
            edit.path: said.get(edit.path)
            for edit in edits
            if any(meet(edit.path, root) for root in roots)
        }

    def _known(self, version: str) -> str | None:
        """Return the text of a version that could be used, None if it is not known."""
        if version in self._texts:
            return self._texts[version]
        if len(version) != NAME_LENGTH:
            return None
        try:
            text = self.history.text_of(version)
            return None if text is None else parse(text).text
        except (OSError, ValueError, InputError):  # its copy is gone, or is no build
            return None

    def _read(self) -> Standing:
        """Return what the file holds; the last good build stays where it cannot be used."""
        self._seen = on_disk(self.path)
        try:
            loaded = load(self.path)
        except InputError as fault:
            return Standing(self._seen, typed_in(self.path), self._now.good, fault)
        except OSError as refused:
            why = Fault(
                1, (), str(refused.strerror or refused), "a file that can be read and written"
            )
            return Standing(self._seen, "", self._now.good, InputError(self.path.name, (why,)))
        version = version_of(loaded.text)
        if on_disk(self.path) == version:
            self._seen = version  # brought up to date as it was read
        return Standing(version, loaded.text, loaded, None)

    def _take(self, standing: Standing) -> None:
        """Hold a new standing and tell all listeners."""
        told = standing.version != self._now.version
        self._now = standing
        if standing.fault is None:
            self._texts.pop(standing.version, None)
            self._texts[standing.version] = standing.text
            while len(self._texts) > REMEMBERED:
                del self._texts[next(iter(self._texts))]
        if told:
            for listener in self._listeners:
                listener(self.name, standing.version)

    @contextmanager
    def _refusals(self) -> Iterator[None]:
        """Say in one line why the history or the disk does not let something be done."""
        try:
            yield
        except OSError as refused:
            self.look()
            raise NotDoneError(f"{self.path.name}: {refused.strerror or refused}") from None
        except (ValueError, RuntimeError, ConflictError) as refused:  # the second: links in a ring
            raise NotDoneError(str(refused)) from None


def _wrong_at(faults: Iterable[Fault], edit: Edit) -> bool:
    """Return whether one of some faults is where an edit writes."""
    return any(fault.path and meet(fault.path, edit.path) for fault in faults)


def _still_open(before: str | None, now: str, edits: tuple[Edit, ...]) -> tuple[Edit, ...]:
    """Return edits without those that another hand made as well."""
    done = {} if before is None or before == now else changed(before, now)
    return tuple(edit for edit in edits if edit.path not in done or done[edit.path] != edit.value)


def _root(edit: Edit) -> tuple[str | int, ...]:
    """Return the first list that an edit counts in, else its place."""
    ends = [number for number, step in enumerate(edit.path) if isinstance(step, int)]
    return edit.path[: ends[0]] if ends else edit.path
