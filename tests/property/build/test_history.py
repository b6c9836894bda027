"""Whatever is done to a build file, its history says what a plain list would say."""

import os
import tempfile
from pathlib import Path
from unittest import mock

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trimwright.build import ConflictError, History

ACTS = st.sampled_from(["save", "save", "undo", "undo", "redo", "by hand", "stale save"])
TEXTS = st.text(alphabet="ab:ü ☃\r\n", max_size=6)


class PlainList:
    """What a history has to amount to: a list of texts, a place in it, and what the file holds."""

    def __init__(self, path: Path) -> None:
        self.path, self.holds = path, "first"
        self.versions: list[str] = []
        self.at = -1

    def write(self, text: str) -> None:
        """Change the file by another hand."""
        self.path.write_bytes(text.encode())
        self.holds = text

    def keep(self, text: str) -> None:
        """Add a version behind the one the file holds."""
        self.versions, self.at = [*self.versions[: self.at + 1], text], self.at + 1

    def catch_up(self) -> None:
        """Keep what another hand wrote."""
        if self.at < 0 or self.versions[self.at] != self.holds:
            self.keep(self.holds)

    def save(self, text: str) -> None:
        """Save a text."""
        self.catch_up()
        History(self.path).save(text, "New", read=self.holds)
        self.keep(text)
        self.holds = text

    def save_stale(self, text: str) -> None:
        """Save a text made from something the file does not hold."""
        with pytest.raises(ConflictError, match="is left as it is"):
            History(self.path).save(text, "Ours", read=self.holds + "?")

    def walk(self, act: str, by: int) -> None:
        """Undo or redo."""
        history = History(self.path)
        if history.folder.exists():
            self.catch_up()
        if 0 <= self.at + by < len(self.versions):
            getattr(history, act)()
            self.at += by
            self.holds = self.versions[self.at]
            return
        with pytest.raises(ValueError, match=f"nothing to {act}"):
            getattr(history, act)()


@given(st.lists(st.tuples(ACTS, TEXTS), max_size=14))
@settings(max_examples=60, deadline=None)
def test_a_history_walks_like_a_list(acts: list[tuple[str, str]]) -> None:
    with tempfile.TemporaryDirectory() as folder, mock.patch.object(os, "fsync"):
        plain = PlainList(Path(folder) / "build.yaml")
        plain.write("first")
        for number, (act, text) in enumerate(acts):
            if act == "by hand":
                plain.write(f"{number} by hand {text}")
            elif act == "save":
                plain.save(text)
            elif act == "stale save":
                plain.save_stale(text)
            else:
                plain.walk(act, 1 if act == "redo" else -1)
            assert plain.path.read_bytes().decode() == plain.holds
        names = [one.says for one in History(plain.path).list()]
        assert len(names) in (len(plain.versions), 0)
