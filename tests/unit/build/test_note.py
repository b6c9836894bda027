"""Notes are kept in the build file, pictures beside it and nowhere else."""

import re
from pathlib import Path

import pytest

from trimwright.build import (
    MOST_PICTURE_BYTES,
    History,
    InputError,
    NoPictureError,
    album,
    called,
    edited,
    keep_picture,
    load,
    parse,
    picture_bytes,
    picture_name,
    seen,
)
from trimwright.findings import Edit

HEAD = """build: Larkspur estate, 1974
unit: mm
car:
  carpet: {loose: 15 ± 1}   # by the door
  dash:
    - {at: 110 ahead, across: 80 left, up: 236}
    - {at: 110 ahead, across: 80 right, up: 236}
  tunnel:
    - at: 300 behind
      height above floor: 180
      width at shoulder: 190
      width at floor: 330
"""
PICTURE = b"\xff\xd8\xff a picture, for all this room knows"


def noted(*lines: str) -> str:
    """Return a build with notes."""
    return HEAD + "notes:\n" + "".join(f"  - {line}\n" for line in lines)


def test_notes_are_read_as_written() -> None:
    notes = parse(
        noted(
            "{finding: nose to dash, says: glue it first}",
            "{photo: photos/nose.jpg}",
            "says: the old screws are in the tin",
        )
    ).build.notes
    assert [(one.finding, one.says, one.photo) for one in notes] == [
        ("nose to dash", "glue it first", None),
        (None, None, "photos/nose.jpg"),
        (None, "the old screws are in the tin", None),
    ]


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("{part: deck, finding: nose, says: x}", "found both part and finding; expected one of"),
        ("{part: deck}", "found no says and no photo; expected one of the two"),
        ("{photo: ../nose.jpg}", 'found "../nose.jpg"; expected the name of a picture in the'),
        ("{photo: photos/../../nose.jpg}", "expected the name of a picture in the build's own"),
        ("{photo: /etc/nose.jpg}", "expected the name of a picture in the build's own folder"),
        ("{photo: 'C:/nose.jpg'}", "expected the name of a picture in the build's own folder"),
        ("{photo: 'C:nose.jpg'}", "expected the name of a picture in the build's own folder"),
        (r"{photo: '..\nose.jpg'}", "expected the name of a picture in the build's own folder"),
        ("{photo: build.yaml}", "expected the name of a picture in the build's own folder"),
        ("{photo: .jpg}", "expected the name of a picture in the build's own folder"),
        ("{picture: nose.jpg}", 'found the key "picture"'),
    ],
)
def test_a_useless_note_is_one_fault_with_its_line(line: str, says: str) -> None:
    with pytest.raises(InputError, match=re.escape(says)) as refused:
        parse(noted("says: first", line))
    assert len(refused.value.faults) == 1
    assert refused.value.faults[0].line == HEAD.count("\n") + 3


def test_a_link_out_of_the_folder_is_refused_with_its_line(tmp_path: Path) -> None:
    folder = tmp_path / "car"
    (folder / "photos").mkdir(parents=True)
    (tmp_path / "secret.jpg").write_bytes(PICTURE)
    (folder / "photos" / "nose.jpg").symlink_to(tmp_path / "secret.jpg")
    path = folder / "build.yaml"
    path.write_text(noted("{photo: photos/nose.jpg}"), "utf-8")
    with pytest.raises(InputError, match=r"line 14, .*a link that leads elsewhere.*own folder"):
        load(path)
    with pytest.raises(NoPictureError, match="leads out of the build's folder"):
        picture_bytes(path, "photos/nose.jpg")
    (folder / "photos" / "nose.jpg").unlink()
    (folder / "photos" / "nose.jpg").symlink_to("nose.jpg")  # a ring
    with pytest.raises(InputError, match="a link that leads elsewhere"):
        load(path)


def test_a_build_reached_by_a_link_keeps_its_pictures(tmp_path: Path) -> None:
    (tmp_path / "car").mkdir()
    (tmp_path / "car" / "build.yaml").write_text(noted("{photo: nose.jpg}"), "utf-8")
    (tmp_path / "car" / "nose.jpg").write_bytes(PICTURE)
    (tmp_path / "bench").symlink_to(tmp_path / "car")
    path = tmp_path / "bench" / "build.yaml"
    assert album(load(path), path)[0].picture == PICTURE


@pytest.mark.parametrize("reference", ["../secret.jpg", "/secret.jpg", "photos/../../secret.jpg"])
def test_no_reference_leads_out_of_the_folder(tmp_path: Path, reference: str) -> None:
    (tmp_path / "secret.jpg").write_bytes(PICTURE)
    (tmp_path / "car").mkdir()
    with pytest.raises(NoPictureError, match="leads out of the build's folder"):
        picture_bytes(tmp_path / "car" / "build.yaml", reference)


def test_a_picture_is_named_after_itself_and_kept_once(tmp_path: Path) -> None:
    path = tmp_path / "build.yaml"
    one, again = (keep_picture(path, PICTURE, ".jpg") for _ in range(2))
    other = keep_picture(path, PICTURE + b"!", ".jpg")
    assert one == again == picture_name(PICTURE, ".jpg") != other
    assert sorted(f"photos/{p.name}" for p in (tmp_path / "photos").iterdir()) == sorted(
        [one, other]
    )
    assert picture_bytes(path, one) == PICTURE


def test_a_picture_cut_short_on_disk_is_made_whole(tmp_path: Path) -> None:
    path = tmp_path / "build.yaml"
    reference = keep_picture(path, PICTURE, ".jpg")
    (tmp_path / reference).write_bytes(PICTURE[:5])
    assert keep_picture(path, PICTURE, ".jpg") == reference
    assert picture_bytes(path, reference) == PICTURE


def test_a_picture_is_there_whole_or_not_at_all(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def cut_off(*_: object) -> None:
        raise OSError("the power went")

    monkeypatch.setattr(Path, "replace", cut_off)  # the last thing that is done
    with pytest.raises(OSError, match="the power went"):
        keep_picture(tmp_path / "build.yaml", PICTURE, ".jpg")
    assert not (tmp_path / picture_name(PICTURE, ".jpg")).exists()


def test_nothing_is_kept_where_a_link_leads(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "car").mkdir()
    path = tmp_path / "car" / "build.yaml"
    (tmp_path / "car" / "photos").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(NoPictureError, match="leads out of the build's own: nothing is kept"):
        keep_picture(path, PICTURE, ".jpg")
    assert list((tmp_path / "elsewhere").iterdir()) == []
    (tmp_path / "car" / "photos").unlink()
    (tmp_path / "car" / "photos").mkdir()
    path.write_text(HEAD, "utf-8")
    (tmp_path / "car" / picture_name(PICTURE, ".jpg")).symlink_to(path)  # stays, but is the build
    with pytest.raises(NoPictureError, match="nothing is kept"):
        keep_picture(path, PICTURE, ".jpg")
    assert path.read_text("utf-8") == HEAD


def test_a_missing_picture_is_said_and_everything_else_stands(tmp_path: Path) -> None:
    path = tmp_path / "build.yaml"
    path.write_text(noted("{says: lost, photo: photos/gone.jpg}", "says: here"), "utf-8")
    lost, here = album(load(path), path)
    assert (lost.picture, lost.lacks) == (b"", "The picture photos/gone.jpg is not there.")
    assert (here.picture, here.lacks) == (b"", "")
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "gone.jpg").mkdir()
    assert "is not there" in album(load(path), path)[0].lacks


def test_a_huge_file_is_not_read_whole(tmp_path: Path) -> None:
    with (tmp_path / "huge.jpg").open("wb") as file:
        file.truncate(MOST_PICTURE_BYTES + 1)
    with pytest.raises(NoPictureError, match="has more than 12 MiB"):
        picture_bytes(tmp_path / "build.yaml", "huge.jpg")


def test_what_was_seen_tells_a_changed_picture_from_the_one_before(tmp_path: Path) -> None:
    path = tmp_path / "build.yaml"
    build = parse(noted("photo: nose.jpg", "photo: gone.jpg")).build
    (tmp_path / "nose.jpg").write_bytes(PICTURE)
    before = seen(build, path)
    assert [name for name, *_ in before] == ["gone.jpg", "nose.jpg"]
    (tmp_path / "nose.jpg").write_bytes(PICTURE + b"!")
    assert seen(build, path) != before


def test_a_copied_folder_holds_everything(tmp_path: Path) -> None:
    path = tmp_path / "car" / "build.yaml"
    path.parent.mkdir()
    reference = keep_picture(path, PICTURE, ".jpg")
    path.write_text(noted(f"photo: {reference}"), "utf-8")
    path.parent.rename(tmp_path / "copied")
    copied = tmp_path / "copied" / "build.yaml"
    assert album(load(copied), copied)[0].picture == PICTURE


def test_undo_takes_the_reference_out_and_leaves_the_picture(tmp_path: Path) -> None:
    path = tmp_path / "build.yaml"
    path.write_text(HEAD, "utf-8")
    reference = keep_picture(path, PICTURE, ".jpg")
    history = History(path)
    added = edited(HEAD, [Edit(("notes", 0, "photo"), reference)])
    history.save(added, "Photo added", read=HEAD)
    assert load(path).build.notes[0].photo == reference
    history.undo()
    assert path.read_text("utf-8") == HEAD
    assert (tmp_path / reference).read_bytes() == PICTURE
    history.redo()
    assert path.read_text("utf-8") == added


@pytest.mark.parametrize(
    ("path", "names"),
    [
        (("car", "carpet", "loose"), ("carpet, loose",)),
        (("car", "carpet", "squeezed by hand"), ("carpet, squeezed by hand",)),  # not written
        (
            ("car", "tunnel", 0, "width at floor"),
            ("tunnel at 300 behind, width at floor", "tunnel 1st, width at floor"),
        ),
        (("car", "tunnel", 1, "at"), ("tunnel 2nd, at",)),  # not written
        (("car", "dash", 1, "up"), ("dash 2nd, up",)),  # two are at 110 ahead: that names neither
        (("console", "width"), ("console, width",)),
    ],
)
def test_a_reading_is_called_by_what_outlasts_a_growing_list(
    path: tuple[str | int, ...], names: tuple[str, ...]
) -> None:
    assert called(parse(HEAD).document.root, path) == names


def test_a_note_finds_its_reading_after_a_section_was_put_before_it(tmp_path: Path) -> None:
    path = tmp_path / "build.yaml"
    text = noted(
        "{reading: 'Tunnel at 300 behind, width at floor', says: x}",
        "{reading: none such, says: x}",
    )
    assert [one.key for one in album(parse(text), path)] == ["car.tunnel.0.width at floor", ""]
    ahead = "    - {at: 100 behind, height above floor: 180, width at shoulder: 190, width at floor: 330}\n"
    grown = text.replace("  tunnel:\n", "  tunnel:\n" + ahead)
    assert [one.key for one in album(parse(grown), path)] == ["car.tunnel.1.width at floor", ""]
