"""Older formats are brought up to date with a backup; newer ones are refused."""

from pathlib import Path

import pytest

from trimwright.build import InputError, load, parse

DRAFT = (
    "# my first try\r\nformat: 0\r\nbuild: Larkspur estate\r\nunit: mm\r\n"
    "vehicle:   # the estate\r\n  pile: {free: 15 ± 1, squeezed: 6}\r\n"
    "console:\r\n  board: birch plywood 12\r\n  top height: 205\r\n  width: 236\r\n"
    "  from: 70 ahead\r\n  to: 690 behind\r\n"
)
NOW = (
    DRAFT.replace("format: 0", "format: 1")
    .replace("vehicle", "car")
    .replace("pile", "carpet")
    .replace("free", "loose")
    .replace("squeezed", "squeezed by hand")
    .replace("board", "sheet")
    .replace("top height", "deck height")
)


def test_a_draft_is_rewritten_key_by_key_with_its_own_backup(tmp_path: Path) -> None:
    path = tmp_path / "build.yaml"
    path.write_bytes(DRAFT.encode())
    loaded = load(path)
    assert path.read_bytes() == NOW.encode()
    assert (tmp_path / "build.yaml.format-0").read_bytes() == DRAFT.encode()
    assert loaded.build == parse(NOW).build
    assert load(path).build == loaded.build
    assert len(list(tmp_path.iterdir())) == 2


def test_a_backup_is_never_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "build.yaml"
    (tmp_path / "build.yaml.format-0").write_bytes(b"older still")
    path.write_bytes(DRAFT.encode())
    load(path)
    assert (tmp_path / "build.yaml.format-0").read_bytes() == b"older still"
    assert (tmp_path / "build.yaml.format-0-2").read_bytes() == DRAFT.encode()


def test_a_draft_that_cannot_be_used_stays_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "build.yaml"
    wrong = DRAFT.replace("15 ± 1", "15 volts").encode()
    path.write_bytes(wrong)
    with pytest.raises(InputError, match='line 6, car > carpet > loose: found "15 volts"'):
        load(path)
    assert path.read_bytes() == wrong
    assert len(list(tmp_path.iterdir())) == 1


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("2", "line 1, format: found format 2, newer than this program; expected at most 1"),
        ("one", "line 1, format: found no format; expected a whole number, such as: 1"),
        ("-1", "line 1, format: found no format; expected a whole number, such as: 1"),
    ],
)
def test_another_format_is_refused_in_one_line(written: str, says: str) -> None:
    with pytest.raises(InputError, match=says):
        parse(f"format: {written}\n{NOW}".replace("\r\nformat: 1", ""))


def test_a_file_without_a_format_is_in_the_first() -> None:
    assert parse(NOW.replace("format: 1\r\n", "")).build.car == parse(NOW).build.car
