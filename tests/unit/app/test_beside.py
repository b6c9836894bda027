"""Both of two ways are kept: the build as the other hand left it, mine in a file beside it."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from fastapi import FastAPI

from tests.served_bench import CAR
from tests.unit.app.caller import Answer, call
from trimwright.app import app, shelf
from trimwright.app.beside import MOST, name_of, put_beside
from trimwright.app.standing import NotDoneError
from trimwright.build import History, load
from trimwright.findings import Edit

LOOSE = ["car", "carpet", "loose"]
THEIRS = CAR.replace("loose: 15 ± 1", "loose: 12").replace("\n", "\r\n")
MINE = THEIRS.replace("loose: 12", "loose: 14 ± 1").encode()
OTHER = "larkspur-other-way.yaml"
Taken = Callable[[Path], None]


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "larkspur.yaml"
    path.write_bytes(THEIRS.encode())
    return path


@pytest.fixture
def inside(file: Path) -> FastAPI:
    return app(shelf(file))


def version(inside: FastAPI, name: str = "larkspur") -> str:
    told: str = call(inside, f"/api/builds/{name}").told["version"]
    return told


def keep(
    inside: FastAPI, value: str | None = "14 ± 1", base: str = "", path: list[Any] = LOOSE
) -> Answer:
    asked = {"base": base or version(inside), "edits": [{"path": path, "value": value}]}
    return call(inside, "/api/builds/larkspur/beside", asked)


def test_theirs_stays_and_mine_is_a_file_that_differs_in_my_edit_only(
    inside: FastAPI, file: Path
) -> None:
    answer = keep(inside)
    assert answer.status == 201
    assert answer.told == {"name": "larkspur-other-way", "file": OTHER}
    assert file.read_bytes() == THEIRS.encode()
    assert file.with_name(OTHER).read_bytes() == MINE
    assert sorted(one["name"] for one in call(inside, "/api/builds").told) == [
        "larkspur",
        "larkspur-other-way",
    ]
    assert call(inside, "/api/builds/larkspur-other-way").told["can_undo"] is False


def test_the_other_way_is_edited_by_itself_and_told_of(inside: FastAPI, file: Path) -> None:
    told: list[tuple[str, str]] = []

    def tell(name: str, new: str, event: str = "version") -> None:
        assert event == "version"
        told.append((name, new))

    inside.state.feed.tell = tell
    keep(inside)
    bench = inside.state.benches["larkspur-other-way"]
    first = bench.standing().version
    bench.edit(first, [Edit(tuple(LOOSE), "13")], "Thinner")
    assert told == [("larkspur-other-way", first), ("larkspur-other-way", bench.standing().version)]
    assert file.read_bytes() == THEIRS.encode()


def test_asked_again_after_a_lost_answer_nothing_more_is_written(
    inside: FastAPI, file: Path
) -> None:
    assert keep(inside).told == keep(inside).told
    assert sorted(one.name for one in file.parent.iterdir()) == [OTHER, "larkspur.yaml"]
    assert len(inside.state.benches) == 2


def test_another_other_way_takes_the_next_name(inside: FastAPI, file: Path) -> None:
    keep(inside)
    assert keep(inside, "13").told["file"] == "larkspur-other-way-2.yaml"
    assert file.with_name(OTHER).read_bytes() == MINE


def a_file(path: Path) -> None:
    path.write_text("mine, and no build", "utf-8")


def a_folder(path: Path) -> None:
    path.mkdir()


def a_link_to_nothing(path: Path) -> None:
    path.symlink_to(path.parent.parent / "elsewhere.yaml")


def a_link_to_the_same(path: Path) -> None:
    (path.parent / "same").write_bytes(MINE)
    path.symlink_to(path.parent / "same")


def a_past(path: Path) -> None:
    path.write_bytes(CAR.encode())
    History(path).save(CAR + "driver: left\n", "Sat left", read=CAR)
    path.unlink()


@pytest.mark.parametrize("taken", [a_file, a_folder, a_link_to_nothing, a_link_to_the_same, a_past])
def test_a_name_that_is_taken_is_left_alone(inside: FastAPI, file: Path, taken: Taken) -> None:
    there = file.with_name(OTHER)
    taken(there)
    before = there.read_bytes() if there.is_file() else b""
    assert keep(inside).told["file"] == "larkspur-other-way-2.yaml"
    assert (there.read_bytes() if there.is_file() else b"") == before
    assert not (file.parent.parent / "elsewhere.yaml").exists()


def test_names_come_to_an_end(file: Path) -> None:
    for number in range(MOST):
        put_beside(file, b"%d" % number)
    with pytest.raises(NotDoneError, match=r"There are 99 other ways beside larkspur\.yaml"):
        put_beside(file, b"one more")


def test_an_other_way_of_an_other_way_is_named_after_the_first(file: Path) -> None:
    first = put_beside(file, b"1")
    assert put_beside(first, b"2").name == "larkspur-other-way-2.yaml"


def test_a_folder_that_takes_no_file_is_told(
    inside: FastAPI, file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("trimwright.build.disk.write_whole", full)
    answer = keep(inside)
    assert answer.status == 409
    assert answer.told["detail"] == (
        "It cannot be kept beside larkspur.yaml: No space left on device."
    )
    assert [one.name for one in file.parent.iterdir()] == ["larkspur.yaml"]


@pytest.mark.parametrize(
    ("path", "value"),
    [(LOOSE, "thick"), (["car", "tunnel", 9, "at"], "3 behind"), (["build"], None)],
)
def test_edits_that_the_file_cannot_hold_write_nothing(
    inside: FastAPI, file: Path, path: list[Any], value: str | None
) -> None:
    answer = keep(inside, value, path=path)
    assert answer.status == 422
    assert answer.told[0]["path"] == (path if len(path) > 1 else [])
    assert [one.name for one in file.parent.iterdir()] == ["larkspur.yaml"]


def test_what_is_written_already_is_no_other_way(inside: FastAPI, file: Path) -> None:
    answer = keep(inside, "12")
    assert (answer.status, answer.told["detail"]) == (
        409,
        "That is what the build says already: there is no other way.",
    )
    assert [one.name for one in file.parent.iterdir()] == ["larkspur.yaml"]


def test_theirs_changed_once_more_is_shown_before_anything_is_kept(
    inside: FastAPI, file: Path
) -> None:
    base = version(inside)
    file.write_bytes(THEIRS.replace("loose: 12", "loose: 11").encode())
    answer = keep(inside, base=base)
    assert answer.status == 409
    assert answer.told == {"theirs": [{"path": LOOSE, "value": "11"}]}
    assert keep(inside, base="nobody knows").status == 409
    assert [one.name for one in file.parent.iterdir()] == ["larkspur.yaml"]


def test_what_others_changed_elsewhere_meanwhile_is_in_both(inside: FastAPI, file: Path) -> None:
    base = version(inside)
    file.write_bytes(THEIRS.replace("squeezed by hand: 6", "squeezed by hand: 5").encode())
    assert keep(inside, base=base).status == 201
    said = file.with_name(OTHER).read_bytes()
    assert said == MINE.replace(b"squeezed by hand: 6", b"squeezed by hand: 5")


def test_a_file_that_cannot_be_used_has_no_other_way(inside: FastAPI, file: Path) -> None:
    file.write_text("build: [", "utf-8")
    assert keep(inside).status == 422
    assert [one.name for one in file.parent.iterdir()] == ["larkspur.yaml"]


def test_an_other_way_of_a_folder_s_build_stands_on_its_shelf(tmp_path: Path) -> None:
    """A bench that was opened on a folder of folders shows it the next time as well."""
    folder = tmp_path / "larkspur"
    folder.mkdir()
    (folder / "build.yaml").write_bytes(THEIRS.encode())
    answer = keep(app(shelf(tmp_path)))
    assert answer.told == {"name": "larkspur-other-way", "file": "build-other-way.yaml"}
    assert sorted(shelf(tmp_path)) == ["larkspur", "larkspur-other-way"]
    assert sorted(shelf(folder)) == ["larkspur", "larkspur-other-way"]


@pytest.mark.parametrize("name", ["build-2", "buildings", "build-other-ways", "other-way"])
def test_other_files_are_called_by_their_own_name(tmp_path: Path, name: str) -> None:
    assert name_of(tmp_path / f"{name}.yaml") == name


def test_photos_of_both_are_the_same_files(inside: FastAPI, file: Path) -> None:
    (file.parent / "photos").mkdir()
    (file.parent / "photos" / "nose.jpg").write_bytes(b"\xff\xd8\xff\xe0 a picture")
    noted = THEIRS + "notes:\r\n  - {says: proud, photo: photos/nose.jpg}\r\n"
    file.write_bytes(noted.encode())
    keep(inside)
    assert load(file.with_name(OTHER)).build.notes == load(file).build.notes
    shown = call(inside, "/api/builds/larkspur-other-way/photos/photos/nose.jpg")
    assert shown.content == b"\xff\xd8\xff\xe0 a picture"
