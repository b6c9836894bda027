"""The build book tells everything about a build, in the same bytes each time."""

import os
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from trimwright.build import Version, parse
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.cli import main
from trimwright.papers import Beside
from trimwright.papers.build_book import build_book

TEXT = """build: "Wrenfold *Teal* #1, 1970"
unit: mm
car:
  datum: {marks: two scribed lines, top of tunnel here: bare metal}
  tunnel:
    - {at: 50 behind, by: contour gauge, top: 200 above floor, down 10: {left: 50, right: 54 ± 3},
       down 40: {left: 80, right: 86}, down 150: {left: 130, right: 131}}
    - {at: 190 behind, top: 200 above floor, down 10: {left: 50, right: 54},
       down 40: {left: 80, right: 86}, down 150: {left: 130, right: 131}}
console:
  deck height: 170
  width: 190
  from: 40 behind
  to: 200 behind
  scribe: {over: bare metal}
test fit:
  - {probe: left wall at 100 behind, touches: the bare metal}
left as is:
  - {finding: handbrake, because: it is taken out}
"""
HISTORY = (
    Version(1, "As first kept", "a"),
    Version(2, "console, deck height 170", "b", "2024-03-02 19:40"),
)


def printed(text: str, *, size: str = "A4", versions: tuple[Version, ...] = HISTORY) -> bytes:
    """Return the book of a build."""
    one = cabin(parse(text).build)
    return build_book(one, all_findings(one), "A4" if size == "A4" else "Letter", Beside(versions))


@pytest.fixture(scope="module")
def words() -> str:
    """Return all words of the book, spaces as they come."""
    pages = PdfReader(BytesIO(printed(TEXT))).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_the_book_names_its_build_as_typed(words: str) -> None:
    assert "Wrenfold *Teal* #1, 1970" in words


def test_every_finding_stands_in_it_with_its_why(words: str) -> None:
    one = cabin(parse(TEXT).build)
    found = all_findings(one)
    assert len(found) > 3
    for finding in found:
        says = " ".join(finding.says.split())
        assert says.replace("\u2009", " ") in words.replace("\u2009", " "), says
    assert "Left as it is: it is taken out." in words


def test_every_reading_stands_in_it_with_way_and_doubt(words: str) -> None:
    assert "tunnel at 50 behind, down 10, right 54 ± 3 contour gauge ± 3 mm bare metal" in words
    assert "tunnel at 190 behind, down 10, left 50 tape ± 2 mm bare metal" in words


def test_history_and_test_fit_stand_in_it(words: str) -> None:
    assert "2 console, deck height 170 2024-03-02 19:40" in words
    assert "left wall at 100 behind touches the bare metal" in words


def test_pages_have_the_size_asked_for_and_no_date() -> None:
    read = PdfReader(BytesIO(printed(TEXT, size="Letter", versions=())))
    width, height = (float(side) for side in read.pages[0].mediabox[2:])
    assert (width, height) == pytest.approx((612.0, 792.0), abs=0.01)
    assert read.metadata is not None
    assert "/CreationDate" not in read.metadata
    assert "No edit was kept yet" in read.pages[-1].extract_text()


def test_inches_stand_in_a_build_of_inches() -> None:
    text = (Path(__file__).parents[3] / "examples/fifteen-minutes/build.yaml").read_text("utf-8")
    words = " ".join(page.extract_text() for page in PdfReader(BytesIO(printed(text))).pages)
    assert "All figures are in inches" in " ".join(words.split())


def test_the_same_build_gives_the_same_bytes_under_two_mixings() -> None:
    program = (
        "import hashlib, tests.unit.papers.test_build_book as t;"
        "print(hashlib.sha256(t.printed(t.TEXT)).hexdigest())"
    )
    made = {
        subprocess.run(  # noqa: S603  this interpreter and a fixed program
            [sys.executable, "-c", program],
            env={**os.environ, "PYTHONHASHSEED": mixing},
            capture_output=True,
            check=True,
        ).stdout
        for mixing in ("1", "2")
    }
    assert len(made) == 1


def test_the_verb_prints_the_book_alone(tmp_path: Path) -> None:
    path, into = tmp_path / "teal.yaml", tmp_path / "paper"
    path.write_text(TEXT, "utf-8")
    assert main(["print", str(path), "--only", "book", "--into", str(into)]) == 0
    assert [one.name for one in into.iterdir()] == ["book.pdf"]
    assert (into / "book.pdf").read_bytes() == printed(TEXT, versions=())
