"""The build book: everything about a build as one document, to read and to keep."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory

from trimwright.build import Noted, Version
from trimwright.cabin import Cabin
from trimwright.drawing import (
    Document,
    Drawing,
    Page,
    Size,
    folder_of_fonts,
    fonts_used,
    grade_mark,
    pdf,
    size_mm,
    svg,
)
from trimwright.findings import GRADES, Finding
from trimwright.papers import view
from trimwright.papers.build_book_note import notes_told
from trimwright.papers.build_book_told import told

TEMPLATE = "build_book.typ"
MARK_MM = 5.0


@dataclass(frozen=True, slots=True)
class Beside:
    """What is kept beside a build file and stands in its book.

    `versions` is the history, oldest first; empty where none was kept.
    """

    versions: tuple[Version, ...] = ()
    notes: tuple[Noted, ...] = ()


NOTHING = Beside()


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
    wide, high = size_mm(size)
    book = told(cabin, findings, beside.versions) | {"wide": wide, "high": high}
    book["fallback"] = without_fonts()
    parts = dict(_drawings(cabin, findings, size))
    book["noted"], pictures = notes_told(cabin, findings, beside.notes)
    book["views"] = [
        {"file": name, "scale": leaf.scale}
        for name, leaf in zip(
            sorted(name for name in parts if name.startswith("view")),
            view.leaves(cabin, findings, size),
            strict=True,
        )
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


def _drawings(
    cabin: Cabin, findings: tuple[Finding, ...], size: Size
) -> Iterator[tuple[str, bytes]]:
    """Yield the views as pages without frame and title, and the marks of the grades."""
    wide, high = size_mm(size)
    for number, leaf in enumerate(view.leaves(cabin, findings, size), start=1):
        page = Page(size, Drawing(wide, high, leaf.elements), leaf.page)
        yield f"view-{number}.pdf", pdf(Document((page,), leaf.page, ""))
    for grade in GRADES:
        mark = grade_mark(grade, None, (MARK_MM / 2, MARK_MM / 2), MARK_MM - 1.0)
        yield (
            f"{grade}.svg",
            svg(Page((MARK_MM, MARK_MM), Drawing(MARK_MM, MARK_MM, mark), grade)).encode(),
        )
