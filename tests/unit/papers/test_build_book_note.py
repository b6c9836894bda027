"""Notes and photos stand in the book with what they belong to, and come out of it as they went in."""

from io import BytesIO
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image, ImageChops, ImageStat
from pypdf import PdfReader

from tests.invented_picture import encoded, from_phone, shaded
from tests.unit.papers.test_build_book import TEXT
from trimwright.build import Loaded, album, keep_picture, parse
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.cli import main
from trimwright.drawing import photo
from trimwright.papers import Beside
from trimwright.papers.build_book import build_book
from trimwright.papers.build_book_note import LONGEST_PX

WIDE, TALL = shaded(1600, 900), shaded(900, 1600).transpose(Image.Transpose.ROTATE_180)
MOST_OFF = 4.0  # of 255, on average over a picture: what JPEG leaves out, twice


def written(path: Path) -> Loaded:
    """Return a build with notes of every kind, written beside its pictures."""
    made = [photo(encoded(one, "JPEG", quality=95)) for one in (WIDE, TALL)]
    wide, tall = (keep_picture(path, one.data, one.ending) for one in made)
    (path.parent / "trick.jpg").write_bytes(b"<svg onload='alert(1)'/>")
    notes = [
        ("finding", "Handbrake", f"says: clip from the left, photo: {wide}"),
        ("finding", "handbrake", "says: 'the clip is proud: file it'"),
        ("reading", "tunnel at 190 behind, down 40, left", f"photo: {tall}, says: a weld bead"),
        ("part", "left wall", "says: grain runs rearward"),
        ("reading", "test fit left wall at 100 behind", "says: a burr under it"),
        ("part", "moon", "says: no such part"),
        ("reading", "carpet, loose", "says: it is glued down"),
        ("", "", "says: old screws are in the tin"),
        ("", "", "says: a lost one, photo: photos/gone.jpg"),
        ("", "", "photo: trick.jpg"),
    ]
    rows = [
        f"  - {{{kind}: '{about}', {more}}}" if kind else f"  - {{{more}}}"
        for kind, about, more in notes
    ]
    path.write_text(TEXT + "notes:\n" + "\n".join(rows) + "\n", "utf-8")
    return parse(path.read_text("utf-8"))


def printed(path: Path, loaded: Loaded) -> bytes:
    """Return the book of a build with its notes."""
    one = cabin(loaded.build)
    return build_book(one, all_findings(one), "A4", Beside((), album(loaded, path)))


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("car") / "build.yaml"


@pytest.fixture(scope="module")
def book(path: Path) -> bytes:
    """Return the book of that build."""
    return printed(path, written(path))


@pytest.fixture(scope="module")
def words(book: bytes) -> str:
    """Return all words of the book, spaces as they come."""
    pages = PdfReader(BytesIO(book)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def between(words: str, start: str, end: str) -> str:
    """Return the words between two places."""
    return words.split(start, 1)[1].split(end, 1)[0]


def test_each_note_stands_with_what_it_is_about(words: str) -> None:
    finding = between(words, "Left as it is: it is taken out.", " look, ")
    assert "Noted: the clip is proud: file it" in finding
    assert "clip from the left" in finding
    reading = between(
        words, "tunnel at 190 behind, down 40, left 80", "tunnel at 190 behind, down 40, right"
    )
    assert "a weld bead" in reading
    probed = between(words, "left wall at 100 behind touches the bare metal", " Checked, ")
    assert "Noted: a burr under it" in probed
    assert "left wall Noted: grain runs rearward" in between(words, " Parts ", " Readings ")


def test_what_belongs_to_nothing_else_has_a_page(words: str) -> None:
    rest = between(words, " Notes ", " History ")
    assert "Noted: old screws are in the tin" in rest
    assert "About moon, which is not in this build as it stands Noted: no such part" in rest
    assert "About carpet, loose, which is not in this build as it stands" in rest


def test_every_note_stands_in_it_once(words: str) -> None:
    for says in (
        "clip from the left",
        "the clip is proud",
        "a weld bead",
        "grain runs",
        "a lost one",
    ):
        assert (says, words.count(says)) == (says, 1)


def test_a_picture_that_is_not_there_is_said_plainly(words: str) -> None:
    assert "The picture photos/gone.jpg is not there." in words
    assert "trick.jpg: This is no picture that the bench can read" in words


@pytest.mark.parametrize("sent", [WIDE, TALL], ids=["wide", "tall"])
def test_pictures_come_out_of_the_book_as_they_went_in(book: bytes, sent: Image.Image) -> None:
    found = [one for page in PdfReader(BytesIO(book)).pages for one in page.images]
    assert len(found) == 2
    pictures = [one.image.convert("RGB") for one in found if one.image is not None]
    mine = next(one for one in pictures if (one.width > one.height) == (sent.width > sent.height))
    assert max(mine.size) == LONGEST_PX
    off = ImageStat.Stat(ImageChops.difference(mine, sent.resize(mine.size))).mean
    assert max(off) < MOST_OFF


def test_a_picture_is_seen_on_its_page_upright(book: bytes) -> None:
    number = next(
        n
        for n, page in enumerate(PdfReader(BytesIO(book)).pages)
        if "a weld bead" in page.extract_text()
    )
    seen = pypdfium2.PdfDocument(book)[number].render(scale=2).to_pil().convert("RGB")
    # of all dots that are no grey, the tall picture's: red at the left, where it was turned round
    _, full, _ = seen.convert("HSV").split()
    box = full.point(lambda level: 255 * (level > 60)).getbbox()
    assert box is not None
    width, height = box[2] - box[0], box[3] - box[1]
    assert height / width == pytest.approx(16 / 9, rel=0.03)
    left, right = (seen.getpixel((x, box[1] + height // 2)) for x in (box[0] + 4, box[2] - 5))
    assert left[0] > right[0] + 150


def test_the_same_notes_give_the_same_bytes(path: Path, book: bytes) -> None:
    assert printed(path, parse(path.read_text("utf-8"))) == book


def test_a_build_without_notes_has_no_page_of_them() -> None:
    one = cabin(parse(TEXT).build)
    read = PdfReader(BytesIO(build_book(one, all_findings(one), "A4")))
    words = " ".join(" ".join(page.extract_text() for page in read.pages).split())
    assert " Notes " not in words
    assert " Parts " not in words


def test_the_verb_prints_them_as_well(path: Path, book: bytes, tmp_path: Path) -> None:
    assert main(["print", str(path), "--only", "book", "--into", str(tmp_path)]) == 0
    assert (tmp_path / "book.pdf").read_bytes() == book


def test_nothing_that_a_phone_tells_is_printed(tmp_path: Path) -> None:
    path = tmp_path / "build.yaml"
    (tmp_path / "own.jpg").write_bytes(from_phone())  # put there by hand, as the phone made it
    text = f"{TEXT}notes:\n  - photo: own.jpg\n"
    made = printed(path, parse(text))
    (found,) = (one for page in PdfReader(BytesIO(made)).pages for one in page.images)
    assert found.image is not None
    assert dict(found.image.getexif()) == {}
    assert b"Wrenfold Optics" not in made
