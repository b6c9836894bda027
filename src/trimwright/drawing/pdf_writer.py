"""Pages as PDF."""

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from functools import lru_cache
from io import BytesIO
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any

from trimwright.drawing.element import FaceName, Text
from trimwright.drawing.face import FILES, STAND_INS, font_files, printed
from trimwright.drawing.flat import flat
from trimwright.drawing.pdf_content import POINT_PER_MM, content
from trimwright.drawing.placement import Placed
from trimwright.drawing.sheet import Document, Page

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

PROGRAM = "Trimwright"


@lru_cache(maxsize=8)
def _embedded(face: FaceName, path: FilePath) -> Any:  # noqa: ANN401  the library has no public type for it
    """Return a font file as the PDF library holds it."""
    from reportlab.pdfbase.pdfmetrics import registerFont  # noqa: PLC0415  lazy: costs 0.1 s
    from reportlab.pdfbase.ttfonts import TTFont  # noqa: PLC0415  lazy: costs 0.1 s

    font = TTFont(f"{PROGRAM}-{face}", str(path))
    registerFont(font)
    return font


class _Fonts:
    """The fonts of one file. Files that are given the same letters have the same codes for them."""

    def __init__(self, canvas: "Canvas", letters: Mapping[FaceName, str]) -> None:
        self.file: Any = vars(canvas)["_doc"]  # the library's fonts ask for it
        self.embedded = {face: _embedded(face, path) for face, path in font_files().items()}
        for face, some in letters.items():
            self.coded(face, some)

    def coded(self, face: FaceName, words: str) -> tuple[tuple[str, bytes], ...]:
        """Return words as pieces of one font each: its name in the file, and the codes."""
        font = self.embedded.get(face)
        if font is None:
            name = self.file.getInternalFontName(STAND_INS[face])
            return ((name, words.encode("cp1252")),)
        return tuple(
            (font.getSubsetInternalName(number, self.file), codes)
            for number, codes in font.splitString(words, self.file)
        )


def pdf(document: Document) -> bytes:
    """Return a document as PDF: true millimetres, fonts embedded, the same bytes every time.

    The file asks the printer not to scale it.

    Raises
    ------
    ValueError
        If the document has no page.

    References
    ----------
    ISO 32000-1:2008, 12.2 (PrintScaling), 14.3.3 (document information)

    Examples
    --------
    >>> from trimwright.drawing.element import Line
    >>> from trimwright.drawing.sheet import Drawing
    >>> drawing = Drawing(210.0, 297.0, (Line(((8.0, 8.0), (202.0, 8.0)), "frame"),))
    >>> pdf(Document((Page("A4", drawing),), "Example"))[:5]
    b'%PDF-'
    """
    return pdfs({"": document})[""]


def pdfs(documents: Mapping[str, Document]) -> dict[str, bytes]:
    """Return documents by name as PDF; a page that stands in several is drawn once.

    Raises
    ------
    ValueError
        If a document has no page.
    """
    if not all(document.pages for document in documents.values()):
        raise ValueError("document must have at least one page, got none")
    pages = {id(page): page for document in documents.values() for page in document.pages}
    shapes = {key: flat(page.drawing.elements) for key, page in pages.items()}
    letters = _letters(shapes.values())
    drawn: dict[int, str] = {}
    return {name: _file(document, letters, shapes, drawn) for name, document in documents.items()}


def _letters(pages: Iterable[tuple[Placed, ...]]) -> dict[FaceName, str]:
    """Return by face every letter on pages, in order of its code."""
    found: dict[FaceName, set[str]] = {face: set() for face in FILES}
    for shapes in pages:
        for one in shapes:
            if isinstance(one, Text):
                found[one.face].update(printed(one.words, one.face))
    return {face: "".join(sorted(some)) for face, some in found.items() if some}


def _file(
    document: Document,
    letters: Mapping[FaceName, str],
    shapes: Mapping[int, tuple[Placed, ...]],
    drawn: dict[int, str],
) -> bytes:
    """Return one document as PDF; `drawn` holds the pages drawn so far, and takes what is new."""
    from reportlab.pdfgen.canvas import Canvas  # noqa: PLC0415  lazy: costs 0.2 s

    out = BytesIO()
    with _plain_streams():
        # else the file names a font that nothing is set in
        path = font_files().get("count")
        first: Any = STAND_INS["count"] if path is None else _embedded("count", path).fontName
        canvas = Canvas(out, invariant=1, pageCompression=1, initialFontName=first)
        fonts = _Fonts(canvas, letters)
        canvas.setTitle(document.name)
        canvas.setAuthor("")
        canvas.setSubject(document.version)
        canvas.setCreator(PROGRAM)
        canvas.setProducer(PROGRAM)
        canvas.setViewerPreference("PrintScaling", "None")
        for page in document.pages:
            key = id(page)
            if key not in drawn:
                drawn[key] = content(shapes[key], page.height_mm, fonts.coded)
            _add(canvas, page, drawn[key])
        canvas.save()
    return out.getvalue()


def _add(canvas: "Canvas", page: Page, says: str) -> None:
    """Add a drawn page to a file, with its title in the outline."""
    canvas.setPageSize((page.width_mm * POINT_PER_MM, page.height_mm * POINT_PER_MM))
    canvas.addLiteral(says)
    if page.title:
        canvas.bookmarkPage(f"page-{canvas.getPageNumber()}")
        canvas.addOutlineEntry(page.title, f"page-{canvas.getPageNumber()}")
    canvas.showPage()


@contextmanager
def _plain_streams() -> Iterator[None]:
    """Have the library compress streams without writing them as letters after, which is slow."""
    from reportlab import rl_config  # noqa: PLC0415  lazy: costs 0.1 s

    keep = rl_config.useA85
    rl_config.useA85 = 0
    try:
        yield
    finally:
        rl_config.useA85 = keep
