"""Every printed sheet is set in the same sizes of type, drawn with the same lines, titled alike.

All is read back from the PDFs: the packet, the plotter's page and the build book.
"""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from msgspec.structs import replace
from pypdf import PdfReader

from tests.printed_page import FIELDS, Ink, ink_of, ink_through, titles_of
from tests.unit.papers.conftest import build_text
from tests.unit.papers.test_words_keep_apart import found
from trimwright.build import Version, load, parse
from trimwright.cabin import Cabin, cabin
from trimwright.checks import all_findings
from trimwright.drawing import Size
from trimwright.findings import Finding
from trimwright.papers import Beside, packet
from trimwright.papers.shop_paper import files

DEMO = Path(__file__).parents[3] / "examples" / "dunlin" / "first-measured.yaml"
TYPE_MM = {2.6, 2.9, 3.4, 5.0, 8.0}
FRACTION = 0.66  # of the size, the figures of a fraction
LINE_MM = {0.5, 0.25, 0.35, 0.18}  # wide, thin, saw, and hatches thinner than any outline
CUT = Version(3, "Cut 13.5 mm off the front end", "a")
MANY = tuple(found(number) for number in range(60))  # more than the trimmer's page has room for
LONG = replace(CUT, says="Cut 4 mm off the top of the nose; Scribe both walls 8 mm deeper")


def printed(
    one: Cabin, found: tuple[Finding, ...], size: Size = "A4", last: Version | None = CUT
) -> dict[str, bytes]:
    """Return the packet, the plotter's page and the book of a build."""
    beside = Beside((), (), last)
    made = files(one, found, packet(one, found, size, last=last), size, beside)
    return {name: made[name] for name in ("packet.pdf", "plotter.pdf", "book.pdf")}


def inks(name: str, pdf: bytes) -> list[Ink]:
    """Return what every page is set and drawn in."""
    look = ink_through if name == "book.pdf" else ink_of
    return [look(page) for page in PdfReader(BytesIO(pdf)).pages]


def of_the_system(ink: Ink) -> bool:
    """Return whether a page has no size of type and no line of its own."""
    fractions = {round(FRACTION * size, 2) for size in TYPE_MM}
    return ink.type_mm <= TYPE_MM | fractions and ink.line_mm <= LINE_MM


def said_of(name: str, unit: str, changed: str, count: int) -> list[dict[str, str]]:
    """Return the fields that all pages share but for their number."""
    return [
        {"build": name, "sheet": f"{k} of {count}", "last change": changed, "unit": unit}
        for k in range(1, count + 1)
    ]


def shared(title: dict[str, str]) -> dict[str, str]:
    """Return those of the fields of a title."""
    return {name: title[name] for name in ("build", "sheet", "last change", "unit")}


@pytest.fixture(scope="module")
def demo() -> tuple[Cabin, tuple[Finding, ...]]:
    """Return the demo with its findings."""
    one = cabin(load(DEMO).build)
    return one, all_findings(one)


def test_every_page_of_the_demo_is_of_one_system(demo: tuple[Cabin, tuple[Finding, ...]]) -> None:
    for name, pdf in printed(*demo).items():
        found = inks(name, pdf)
        assert [one for one in found if not of_the_system(one)] == []
        read = titles_of(pdf)
        assert [tuple(one) for one in read] == [FIELDS] * len(found)
        build = "Thornwick Dunlin estate, 1972"
        assert [shared(one) for one in read] == said_of(build, "mm", CUT.says, len(found))
        for one in read:
            assert (one["check"] == "100 mm and 4 in") == (one["scale"] == "1:1")
            assert all(one.values()), one


@pytest.mark.parametrize("seed", range(10))
def test_every_page_of_a_build_with_long_names_is_of_one_system(
    made: Callable[[int], Cabin], seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Cabin, "again", property(lambda _: ()))
    monkeypatch.setattr(Cabin, "probes", property(lambda _: ()))
    one, build = made(seed), parse(build_text(seed)).build
    for name, pdf in printed(one, MANY, "Letter" if seed % 3 else "A4", None).items():
        seen, read = inks(name, pdf), titles_of(pdf)
        assert [ink for ink in seen if not of_the_system(ink)] == []
        assert [tuple(title) for title in read] == [FIELDS] * len(seen)
        revision = f"revision {build.console.revision if build.console else ''}"
        told = [{**shared(title), "build": title["build"].replace(" ", "")} for title in read]
        plain = build.name.replace(" ", "")  # a long word is broken where its line is full
        assert told == said_of(plain, build.unit, revision, len(seen))


def test_the_whole_system_is_in_use(demo: tuple[Cabin, tuple[Finding, ...]]) -> None:
    every = [ink for name, pdf in printed(*demo).items() for ink in inks(name, pdf)]
    assert set().union(*(one.type_mm for one in every)) >= TYPE_MM
    assert set().union(*(one.line_mm for one in every)) == LINE_MM


def test_a_change_too_long_for_its_field_is_told_by_its_number(
    made: Callable[[int], Cabin], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Cabin, "again", property(lambda _: ()))
    one = made(1)
    sheets = files(one, (), packet(one, (), "A4", "cut-list", LONG), "A4", Beside(last=LONG))
    assert {title["last change"] for title in titles_of(sheets["packet.pdf"])} == {
        "change 3 of the history"
    }
