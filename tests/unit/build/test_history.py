"""Every version is kept; undo and redo bring them back to the byte; nobody's work is lost."""

import itertools
import os
import stat
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from trimwright.build import ConflictError, History, disk, journal

FIRST = "build: Larkspur\r\nunit: mm # trüb\r\n"
TEXTS = (FIRST, FIRST + "a: 1\r\n", FIRST + "a: 2", FIRST + "a: 3\n")


class Interrupted(BaseException):
    """The machine stopped here."""


@pytest.fixture(autouse=True)
def _no_waiting_for_the_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "fsync", lambda _: None)


def file_in(folder: Path) -> Path:
    path = folder / "build.yaml"
    path.write_bytes(FIRST.encode())
    return path


def read(path: Path) -> str:
    return path.read_bytes().decode()


def saved(path: Path) -> History:
    history = History(path)
    for number, (before, after) in enumerate(itertools.pairwise(TEXTS), start=1):
        history.save(after, f"Change {number}", read=before)
    return history


def test_undo_and_redo_walk_every_version_to_the_byte(tmp_path: Path) -> None:
    path = file_in(tmp_path)
    history = saved(path)
    assert [one.says for one in history.list()] == [
        "As first kept",
        *(f"Change {n}" for n in (1, 2, 3)),
    ]
    assert read(path) == TEXTS[3]
    for text in TEXTS[2::-1]:
        History(path).undo()
        assert read(path) == text
    with pytest.raises(ValueError, match=r"build\.yaml has nothing to undo"):
        history.undo()
    for text in TEXTS[1:]:
        History(path).redo()
        assert read(path) == text
    with pytest.raises(ValueError, match=r"build\.yaml has nothing to redo"):
        history.redo()


def test_a_save_after_undo_starts_a_new_line_and_keeps_the_old_files(tmp_path: Path) -> None:
    path = file_in(tmp_path)
    history = saved(path)
    history.undo()
    history.undo()
    version = history.save("b: 1\n", "Another way", read=TEXTS[1])
    assert [one.number for one in history.list()] == [1, 2, version.number]
    assert (history.folder / "0004.yaml").read_bytes().decode() == TEXTS[3]
    history.undo()
    assert read(path) == TEXTS[1]


def test_a_change_by_another_hand_is_never_overwritten(tmp_path: Path) -> None:
    path = file_in(tmp_path)
    history = saved(path)
    path.write_text("by: hand\n", "utf-8")
    with pytest.raises(ConflictError, match=r"changed since it was read, .*not-written-") as found:
        history.save("ours: 1\n", "Ours", read=TEXTS[3])
    assert read(path) == "by: hand\n"
    assert found.value.ours.read_text("utf-8") == "ours: 1\n"
    history.save("ours: 2\n", "Ours", read="by: hand\n")
    history.undo()
    assert read(path) == "by: hand\n"
    assert [one.says for one in history.list()][-2:] == ["Changed by hand", "Ours"]
    history.undo()
    assert read(path) == TEXTS[3]


def test_undo_keeps_what_another_hand_wrote(tmp_path: Path) -> None:
    path = file_in(tmp_path)
    history = saved(path)
    path.write_text("by: hand\n", "utf-8")
    assert history.current() is None
    history.undo()
    assert read(path) == TEXTS[3]
    history.redo()
    assert read(path) == "by: hand\n"


def test_a_link_is_followed_and_permission_bits_are_kept(tmp_path: Path) -> None:
    (tmp_path / "shop").mkdir()
    real = file_in(tmp_path / "shop")
    real.chmod(0o640)
    link = tmp_path / "mine.yaml"
    link.symlink_to(real)
    History(link).save("a: 1\n", "Change", read=FIRST)
    assert link.is_symlink()
    assert read(real) == "a: 1\n"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640
    assert sorted(one.name for one in (tmp_path / "shop").iterdir()) == ["build.yaml"]


def test_a_kept_version_that_was_tampered_with_is_not_brought_back(tmp_path: Path) -> None:
    path = file_in(tmp_path)
    history = saved(path)
    (history.folder / "0003.yaml").write_text("other: 1\n", "utf-8")
    with pytest.raises(ValueError, match=r"0003\.yaml is not what was kept in it"):
        history.undo()
    assert read(path) == TEXTS[3]


def test_a_damaged_journal_is_named(tmp_path: Path) -> None:
    path = file_in(tmp_path)
    history = saved(path)
    history.journal.write_bytes(b"{]\n" + history.journal.read_bytes())
    with pytest.raises(ValueError, match=r"journal\.jsonl line 1 cannot be read"):
        history.list()


@pytest.mark.parametrize("stop", range(1, 13))
@pytest.mark.parametrize("act", ["first save", "save", "undo", "redo"])
def test_a_stop_at_any_moment_loses_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, act: str, stop: int
) -> None:
    path = file_in(tmp_path)
    history = History(path)
    if act != "first save":
        history = saved(path)
    if act == "redo":
        history.undo()
    before = read(path)
    acts: dict[str, tuple[Callable[[], Any], str]] = {
        "first save": (lambda: history.save("n: 1\n", "New", read=before), "n: 1\n"),
        "save": (lambda: history.save("n: 1\n", "New", read=before), "n: 1\n"),
        "undo": (history.undo, TEXTS[2]),
        "redo": (history.redo, TEXTS[3]),
    }
    run, after = acts[act]
    stop_at_the(stop, monkeypatch)
    try:
        run()
        finished = True
    except Interrupted:
        finished = False
    monkeypatch.undo()
    monkeypatch.setattr(os, "fsync", lambda _: None)
    assert read(path) in ((after,) if finished else (before, after))

    again, now = History(path), read(path)
    again.save("later: 1\n", "Later", read=now)
    assert "Changed by hand" not in [one.says for one in again.list()]
    again.undo()
    assert read(path) == now
    again.redo()
    assert read(path) == "later: 1\n"
    earliest = [again.undo().number for _ in range(len(again.list()) - 1)]
    assert earliest[-1] == 1
    assert read(path) == FIRST


def stop_at_the(moment: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Stop the machine at the n-th moment that can leave something half done."""
    left = [moment]
    replace = Path.replace

    def counted() -> None:
        left[0] -= 1
        if left[0] == 0:
            raise Interrupted

    def replace_or_stop(self: Path, target: Path) -> Path:
        counted()
        return replace(self, target)

    def fsync_or_stop(_: int) -> None:
        counted()

    def half_a_line(path: Path, line: str) -> None:
        left[0] -= 1
        if left[0] == 0:
            with path.open("ab") as file:
                file.write(line.encode()[: len(line) // 2])
            raise Interrupted
        disk.append_line(path, line)

    monkeypatch.setattr(Path, "replace", replace_or_stop)
    monkeypatch.setattr(os, "fsync", fsync_or_stop)
    monkeypatch.setattr(journal, "append_line", half_a_line)
