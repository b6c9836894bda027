"""Files are named so that none is lost and none leaves its folder."""

from collections.abc import Callable
from pathlib import Path

import pytest

from trimwright.build import parse
from trimwright.cabin import Cabin, cabin
from trimwright.papers import packet
from trimwright.papers.shop_paper import file_names, write

SMALL = """build: Wrenfold Teal, 1970
unit: mm
car:
  datum: {marks: two scribed lines, top of tunnel here: bare metal}
  tunnel:
    - {at: 50 behind, top: 200 above floor, down 10: {left: 50, right: 54},
       down 40: {left: 80, right: 86}, down 150: {left: 130, right: 131}}
console:
  deck height: 120
  width: 140
  from: 40 behind
  to: 160 behind
  bulkheads: [{name: ../gear box, at: 90 behind}]
"""


def test_files_stay_in_their_folder(
    made: Callable[[int], Cabin], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    del made  # its cabin is not needed, only that nothing rests on carpet
    monkeypatch.setattr(Cabin, "again", property(lambda _: ()))
    folder = tmp_path / "paper"
    paths = write(cabin(parse(SMALL).build), (), folder, "A4")
    assert all(path.resolve().is_relative_to(folder.resolve()) for path in paths)
    assert {path.name for path in paths} >= {"gear-box.dxf", "gear-box.svg", "deck.svg"}
    assert [path for path in paths if path.stat().st_size == 0] == []
    assert {path.parent for path in folder.rglob("*") if path.is_file()} == {
        folder,
        folder / "panels",
    }


def test_panels_of_one_name_have_a_file_each() -> None:
    assert file_names(("box", "Box", "b/ox", "...")) == ("box", "box-2", "b-ox", "panel")


def test_an_unknown_sheet_is_refused(made: Callable[[int], Cabin]) -> None:
    with pytest.raises(ValueError, match=r"only must be one of findings, views.*, got 'poster'"):
        packet(made(0), (), "A4", "poster")
