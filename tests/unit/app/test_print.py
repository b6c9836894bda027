"""The place 'print' hands out what the verb 'print' writes, byte for byte."""

import csv
from io import BytesIO, StringIO
from pathlib import Path

import pytest
from fastapi import FastAPI
from pypdf import PdfReader

from tests.invented_picture import encoded, shaded
from tests.unit.app.caller import call
from tests.unit.papers.conftest import build_text
from trimwright.app import Bench, app
from trimwright.app.print_routes import FILES, TOLD
from trimwright.build import load
from trimwright.cabin import Cabin, cabin
from trimwright.checks import all_findings
from trimwright.papers import SHEETS, write

ON = "/api/builds/teal/print/A4"


@pytest.fixture
def served(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[FastAPI, Path]:
    """Return the application that serves a build which nothing carries, and its file."""
    for slow in ("plan", "pose", "outcome", "bare"):
        monkeypatch.setattr(Cabin, slow, property(lambda _: None))
    path = tmp_path / "teal.yaml"
    path.write_text(build_text(1), "utf-8")
    return app({"teal": Bench(path)}), path


def test_every_sheet_has_words() -> None:
    assert list(TOLD) == list(SHEETS)


def test_files_are_those_of_the_verb(served: tuple[FastAPI, Path], tmp_path: Path) -> None:
    inside, path = served
    one = cabin(load(path).build)
    folder = tmp_path / "paper"
    written = write(one, all_findings(one), folder, "A4")
    told = call(inside, ON).told
    panels = [name for panel in told["panels"] for name in (panel["dxf"], panel["svg"])]
    sheets = [sheet["file"] for sheet in told["sheets"] if sheet["file"]]
    named = [*sheets, *(file["name"] for file in told["files"]), *panels]
    assert sorted(named) == sorted(str(p.relative_to(folder)) for p in written)
    for name in named:
        answer = call(inside, f"{ON}/files/{name}")
        assert (name, answer.status) == (name, 200)
        assert answer.content == (folder / name).read_bytes(), name
        assert answer.headers["content-disposition"].startswith('attachment; filename="teal-')
    assert set(FILES) >= {file["name"] for file in told["files"]}
    assert {p.name for p in path.parent.iterdir()} == {"paper", "teal.yaml"}  # nothing unasked


def test_chosen_sheets_come_as_one_file_in_the_order_of_the_work(
    served: tuple[FastAPI, Path],
) -> None:
    inside, _ = served
    told = {one["name"]: len(one["pages"]) for one in call(inside, ON).told["sheets"]}
    answer = call(inside, f"{ON}/chosen.pdf?sheet=cut-list&sheet=findings")
    pages = PdfReader(BytesIO(answer.content)).pages
    assert len(pages) == told["cut-list"] + told["findings"]
    assert "Findings" in pages[0].extract_text()
    assert "Cut list" in pages[told["findings"]].extract_text()


def test_a_sheet_without_pages_cannot_be_chosen(served: tuple[FastAPI, Path]) -> None:
    answer = call(served[0], f"{ON}/chosen.pdf?sheet=poster")
    assert answer.status == 409
    assert answer.told["detail"].startswith("Choose of the sheets that have pages: findings")


def test_previews_are_true_pages(served: tuple[FastAPI, Path]) -> None:
    inside, _ = served
    told = call(inside, ON).told
    pages = [page for sheet in told["sheets"] for page in sheet["pages"]]
    assert [page["number"] for page in pages] == list(range(1, told["pages"] + 1))
    last = call(inside, f"{ON}/pages/{told['pages']}.svg")
    assert b'viewBox="0 0 210 297"' in last.content
    assert f"{told['pages']} of {told['pages']}".encode() in last.content
    assert call(inside, f"{ON}/pages/{told['pages'] + 1}.svg").status == 404


def test_letter_is_another_paper(served: tuple[FastAPI, Path]) -> None:
    page = call(served[0], "/api/builds/teal/print/Letter").told["sheets"][0]["pages"][0]
    assert (page["width_mm"], page["height_mm"]) == (215.9, 279.4)


def test_pages_of_an_older_version_are_refused(served: tuple[FastAPI, Path]) -> None:
    inside, path = served
    version = call(inside, ON).told["version"]
    path.write_text(path.read_text("utf-8").replace("revision: ", "revision: Z"), "utf-8")
    assert call(inside, f"{ON}/pages/1.svg?version={version}").status == 409
    assert call(inside, ON).told["version"] != version


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_cut_list_has_its_unit_in_the_headings(served: tuple[FastAPI, Path], unit: str) -> None:
    inside, path = served
    text = path.read_text("utf-8").replace("unit: mm", f"unit: {unit}")
    path.write_text(text.replace("unit: in", f"unit: {unit}"), "utf-8")
    text = call(inside, f"{ON}/files/cut-list.csv").content.decode("utf-8-sig")
    rows = list(csv.DictReader(StringIO(text)))
    carcass = cabin(load(path).build).carcass
    assert carcass is not None
    size = {"mm": 1.0, "in": 25.4}[unit]  # mm; the inch of 1959
    thick = [float(row[f"thick [{unit}]"]) * size for row in rows]
    assert thick == pytest.approx([panel.thickness for panel in carcass.panels], abs=0.01)
    assert [row["piece"] for row in rows] == [panel.name for panel in carcass.panels]


def test_the_book_holds_the_pictures_that_lie_beside_the_build_now(
    served: tuple[FastAPI, Path],
) -> None:
    inside, path = served
    own = path.with_name("own.jpg")
    path.write_text(f"{path.read_text('utf-8')}notes:\n  - photo: own.jpg\n", "utf-8")
    for size in ((300, 200), (200, 500)):
        own.write_bytes(encoded(shaded(*size), "JPEG"))
        pages = PdfReader(BytesIO(call(inside, f"{ON}/files/book.pdf").content)).pages
        (found,) = (one for page in pages for one in page.images)
        assert found.image is not None
        assert found.image.size == size
