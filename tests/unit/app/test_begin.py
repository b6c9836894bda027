"""A new build on the shelf: its file, and what is refused."""

from pathlib import Path

import pytest

from trimwright.app.standing import NotDoneError
from trimwright.app.walk.begin import begin, file_name
from trimwright.build import written


def test_a_new_file_holds_what_was_answered(tmp_path: Path) -> None:
    bench = begin(tmp_path, "Larkspur estate, 1974", "in", "left")
    text = (tmp_path / "larkspur-estate-1974.yaml").read_text("utf-8")
    assert written(text) == {
        ("build",): "Larkspur estate, 1974",
        ("unit",): "in",
        ("driver",): "left",
    }
    assert bench.standing().fault is None


def test_a_file_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    there = tmp_path / "larkspur.yaml"
    there.write_text("mine", "utf-8")
    with pytest.raises(NotDoneError, match=r"larkspur.yaml is there already"):
        begin(tmp_path, "Larkspur", "mm", "right")
    assert there.read_text("utf-8") == "mine"


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    folder = tmp_path / "served"
    folder.mkdir()
    (folder / "larkspur.yaml").symlink_to(tmp_path / "elsewhere.yaml")
    with pytest.raises(NotDoneError, match="is there already"):
        begin(folder, "Larkspur", "mm", "right")
    assert not (tmp_path / "elsewhere.yaml").exists()


@pytest.mark.parametrize(
    "title", ["../../etc/passwd", "a/b", "..\\..\\c", "/x/y", "x\0y", ". .", "con", "BUILD", "9"]
)
def test_a_name_stays_inside_the_folder(title: str, tmp_path: Path) -> None:
    try:
        name = file_name(title)
    except NotDoneError:
        assert not any(sign.isalnum() for sign in title)
        return
    assert (tmp_path / name).resolve().parent == tmp_path.resolve()
    assert name not in ("con.yaml", "build.yaml")


def test_a_long_name_is_cut() -> None:
    assert len(file_name("a" * 500)) == len("a" * 60 + ".yaml")
