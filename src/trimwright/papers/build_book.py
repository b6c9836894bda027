"""The build book: everything about a build as one document, to read and to keep."""

import json
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory

from msgspec.structs import replace

from trimwright.cabin import Cabin
from trimwright.drawing import (
    LABEL_MM,
    LEAD_MM,
    NAME_MM,
    PART_MM,
    PENS,
    WORD_MM,
    Document,
    Drawing,
    GradeName,
    Page,
    Size,
    folder_of_fonts,
    fonts_used,
    grade_mark,
    pdf,
    size_mm,
    svg,
)
from trimwright.findings import Finding
from trimwright.papers import view
from trimwright.papers.beside import NOTHING, Beside
from trimwright.papers.build_book_note import notes_told
from trimwright.papers.build_book_told import told
from trimwright.papers.leaf import Leaf, room, unnumbered

PASSED: GradeName = "good"
TEMPLATE, PAGES, BOOK = "build_book.typ", "pages.pdf", "build book"
MARK_MM = 6.0  # a mark and a little white round it


def build_book(
    cabin: Cabin, findings: tuple[Finding, ...], size: Size, beside: Beside = NOTHING
) -> bytes:
    """Return the book as PDF; the same build with the same beside it gives the same bytes.

    Parameters
    ----------
    cabin, findings
        With their results, findings in the order of the sheet.
    size : Size
        Paper.
    beside : Beside
        History, notes and photos.

    Notes
    -----
    Typeset offline: nothing is fetched, and only the fonts of the package are used. The document
    carries no date of its own.
    """
    book = told(cabin, findings, beside.versions) | {"system": _system(cabin, size)}
    parts = dict(_marks(findings))
    book["noted"], pictures = notes_told(cabin, findings, beside.notes)
    views = view.leaves(cabin, findings, size)
    leaves = (Leaf(size, (), "the whole build", BOOK, "text"), *views)
    made = [unnumbered(replace(leaf, paper=BOOK), cabin.build, beside.last) for leaf in leaves]
    parts[PAGES] = pdf(Document(tuple(page for page, _ in made), BOOK, ""))
    book["pages"] = [
        {"page": number, "x": x, "y": y} for number, (_, (x, y)) in enumerate(made, start=1)
    ]
    parts |= pictures
    parts[TEMPLATE] = (files("trimwright.papers") / TEMPLATE).read_bytes()
    parts["book.json"] = json.dumps(book, sort_keys=True).encode()
    return _typeset(parts)


def without_fonts() -> bool:
    """Return whether the package was built without one of its fonts."""
    return any(not name.endswith(".ttf") for name in fonts_used().values())


def _typeset(parts: dict[str, bytes]) -> bytes:
    """Return the template's document, its other parts beside it in a folder of their own."""
    import typst  # noqa: PLC0415  lazy: costs 0.1 s

    fonts = typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=without_fonts(),  # else no word would show
        font_paths=[folder_of_fonts()],
    )
    with TemporaryDirectory() as folder:
        for name, content in parts.items():
            (Path(folder) / name).write_bytes(content)
        return typst.compile(str(Path(folder) / TEMPLATE), font_paths=fonts, format="pdf")


def _system(cabin: Cabin, size: Size) -> dict[str, float | bool]:
    """Return paper, sizes of type and widths of lines [mm], as on every other sheet."""
    wide, high = size_mm(size)
    box = room(size, cabin.build)
    return {
        "wide": wide,
        "high": high,
        "left": box.x,
        "top": box.y,
        "right": wide - box.right,
        "bottom": high - box.bottom,
        "label": LABEL_MM,
        "word": WORD_MM,
        "lead": LEAD_MM,
        "name": NAME_MM,
        "part": PART_MM,
        "thin": PENS["thin"].width_mm,
        "thick": PENS["visible"].width_mm,
        "fallback": without_fonts(),
    }


def _marks(findings: tuple[Finding, ...]) -> Iterator[tuple[str, bytes]]:
    """Yield the mark of each finding with its number, those that passed as number 0."""
    open_ones = [one.grade for one in findings if one.grade != "good"]
    for number, grade in enumerate([PASSED, *open_ones]):
        mark = grade_mark(grade, number or None, (MARK_MM / 2, MARK_MM / 2))
        page = Page((MARK_MM, MARK_MM), Drawing(MARK_MM, MARK_MM, mark), grade)
        yield f"mark-{number}.svg", svg(page).encode()
