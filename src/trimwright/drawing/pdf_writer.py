"""Pages as PDF."""

from io import BytesIO
from typing import TYPE_CHECKING

from trimwright.drawing.curve import curves_of_arc
from trimwright.drawing.element import ArcTo, Circle, Fill, Line, LineTo, Path, Point, Text
from trimwright.drawing.face import FOLDER, STAND_INS, fonts_used, printed, text_width
from trimwright.drawing.flat import flat
from trimwright.drawing.fraction import runs
from trimwright.drawing.pen import PENS, TONES, PenName
from trimwright.drawing.placement import Placed
from trimwright.drawing.sheet import Document, Page

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas
    from reportlab.pdfgen.pathobject import PDFPathObject

POINT_PER_MM = 72 / 25.4
PROGRAM = "Trimwright"


class _Sheet:
    """A page of a PDF that takes page millimetres."""

    def __init__(self, canvas: "Canvas", height_mm: float, fonts: dict[str, str]) -> None:
        self.canvas = canvas
        self.height_mm = height_mm
        self.fonts = fonts

    def at(self, point: Point) -> Point:
        return (point[0] * POINT_PER_MM, (self.height_mm - point[1]) * POINT_PER_MM)

    def polygon(self, rings: tuple[tuple[Point, ...], ...], *, closed: bool) -> "PDFPathObject":
        path = self.canvas.beginPath()
        for ring in rings:
            path.moveTo(*self.at(ring[0]))
            for point in ring[1:]:
                path.lineTo(*self.at(point))
            if closed:
                path.close()
        return path

    def curved(self, element: Path) -> "PDFPathObject":
        path = self.canvas.beginPath()
        here = element.start
        path.moveTo(*self.at(here))
        for step in element.steps:
            if isinstance(step, LineTo):
                path.lineTo(*self.at(step.to))
            else:
                curves = curves_of_arc(here, step) if isinstance(step, ArcTo) else (step,)
                for curve in curves:
                    path.curveTo(*self.at(curve.first), *self.at(curve.second), *self.at(curve.to))
            here = step.to
        if element.closed:
            path.close()
        return path

    def pen(self, name: PenName, phase_mm: float = 0.0) -> None:
        pen = PENS[name]
        self.canvas.setLineWidth(pen.width_mm * POINT_PER_MM)
        dashes = [dash * POINT_PER_MM for dash in pen.dashes_mm]
        # the library prints these as they are: an exponent would break the page
        phase = phase_mm % sum(pen.dashes_mm) if pen.dashes_mm else 0.0
        self.canvas.setDash([round(dash, 3) for dash in dashes], round(phase * POINT_PER_MM, 3))

    def draw(self, element: Placed) -> None:
        if isinstance(element, Line):
            self.pen(element.pen, element.phase_mm)
            self.canvas.drawPath(self.polygon((element.points,), closed=element.closed))
        elif isinstance(element, Path):
            self.pen(element.pen)
            self.canvas.drawPath(self.curved(element))
        elif isinstance(element, Fill):
            self.fill(element)
        elif isinstance(element, Circle):
            self.circle(element)
        else:
            self.text(element)

    def fill(self, element: Fill) -> None:
        if element.tone is None:
            return
        self.canvas.setFillGray(TONES[element.tone])
        path = self.polygon((element.points, *element.holes), closed=True)
        self.canvas.drawPath(path, stroke=0, fill=1, fillMode=0)

    def circle(self, element: Circle) -> None:
        if element.tone is not None:
            self.canvas.setFillGray(TONES[element.tone])
        if element.pen is not None:
            self.pen(element.pen)
        (x, y), r = element.centre, element.radius
        corners = [(x + r, y), (x, y + r), (x - r, y), (x, y - r)]
        steps = tuple(ArcTo(corner, r) for corner in (*corners[1:], corners[0]))
        path = self.curved(Path(corners[0], steps, closed=True))
        stroke, fill = int(element.pen is not None), int(element.tone is not None)
        self.canvas.drawPath(path, stroke=stroke, fill=fill)

    def text(self, element: Text) -> None:
        canvas = self.canvas
        canvas.saveState()
        if element.clip:
            canvas.clipPath(self.polygon((element.clip,), closed=True), stroke=0, fill=0)
        canvas.setFillGray(TONES[element.tone])
        canvas.translate(*self.at(element.at))
        if element.turn_deg:
            canvas.rotate(-element.turn_deg)
        width = text_width(element.words, element.size_mm, element.face)
        x = {"start": 0.0, "middle": -width / 2, "end": -width}[element.anchor]
        for run in runs(printed(element.words, element.face)):
            size = run.scale * element.size_mm
            canvas.setFont(self.fonts[element.face], size * POINT_PER_MM)
            canvas.drawString(
                x * POINT_PER_MM, run.rise * element.size_mm * POINT_PER_MM, run.words
            )
            x += text_width(run.words, size, element.face)
        canvas.restoreState()


def _registered() -> dict[str, str]:
    """Return by face the name a font goes by inside the PDF library."""
    from reportlab.pdfbase.pdfmetrics import registerFont  # noqa: PLC0415  lazy: costs 0.1 s
    from reportlab.pdfbase.ttfonts import TTFont  # noqa: PLC0415  lazy: costs 0.1 s

    names: dict[str, str] = {}
    for face, file in fonts_used().items():
        if file == STAND_INS[face]:
            names[face] = file
        else:
            names[face] = f"{PROGRAM}-{face}"
            registerFont(TTFont(names[face], str(FOLDER / file)))
    return names


def _page(canvas: "Canvas", page: Page, fonts: dict[str, str]) -> None:
    canvas.setPageSize((page.width_mm * POINT_PER_MM, page.height_mm * POINT_PER_MM))
    canvas.setLineCap(0)
    canvas.setLineJoin(1)
    sheet = _Sheet(canvas, page.height_mm, fonts)
    for element in flat(page.drawing.elements):
        sheet.draw(element)
    if page.title:
        canvas.bookmarkPage(f"page-{canvas.getPageNumber()}")
        canvas.addOutlineEntry(page.title, f"page-{canvas.getPageNumber()}")
    canvas.showPage()


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
    >>> from trimwright.drawing.sheet import Drawing
    >>> drawing = Drawing(210.0, 297.0, (Line(((8.0, 8.0), (202.0, 8.0)), "frame"),))
    >>> pdf(Document((Page("A4", drawing),), "Example"))[:5]
    b'%PDF-'
    """
    from reportlab.pdfgen.canvas import Canvas  # noqa: PLC0415  lazy: costs 0.2 s

    if not document.pages:
        raise ValueError("document must have at least one page, got none")
    out = BytesIO()
    fonts = _registered()
    first = fonts["count"]  # else the file names a font that nothing is set in
    canvas = Canvas(out, invariant=1, pageCompression=1, initialFontName=first)  # type: ignore[arg-type]  # the stub says float
    canvas.setTitle(document.name)
    canvas.setAuthor("")
    canvas.setSubject(document.version)
    canvas.setCreator(PROGRAM)
    canvas.setProducer(PROGRAM)
    canvas.setViewerPreference("PrintScaling", "None")
    for page in document.pages:
        _page(canvas, page, fonts)
    canvas.save()
    return out.getvalue()
