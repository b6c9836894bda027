"""What one page says to a PDF viewer: its operators, in points from the foot of the page."""

import math
from collections.abc import Callable

from trimwright.drawing.curve import curves_of_arc
from trimwright.drawing.element import (
    ArcTo,
    Circle,
    FaceName,
    Fill,
    Line,
    LineTo,
    Path,
    Point,
    Text,
)
from trimwright.drawing.face import printed, text_width
from trimwright.drawing.fraction import Run, runs
from trimwright.drawing.pen import PENS, TONES, PenName, ToneName
from trimwright.drawing.placement import Placed

POINT_PER_MM = 72 / 25.4

# the font's name inside the file and the words as its codes: (face, words) -> pieces of one font
Coded = Callable[[FaceName, str], tuple[tuple[str, bytes], ...]]


def literal(codes: bytes) -> str:
    r"""Return codes as a literal string of PDF [ISO 32000-1:2008, 7.3.4.2].

    Examples
    --------
    >>> literal(b"a(b)\xb1")
    '(a\\(b\\)\\261)'
    """
    shown = (
        f"\\{chr(code)}"
        if code in b"()\\"
        else chr(code)
        if 32 <= code < 127  # noqa: PLR2004  what ASCII prints
        else f"\\{code:03o}"
        for code in codes
    )
    return f"({''.join(shown)})"


def content(elements: tuple[Placed, ...], height_mm: float, coded: Coded) -> str:
    """Return the operators that draw elements on a page of a height [mm].

    A pen, a tone or a font is named where it changes, not again for every line.

    References
    ----------
    ISO 32000-1:2008, 8.4 (graphics state), 8.5 (paths), 9.4 (text)
    """
    page = _Content(height_mm, coded)
    for element in elements:
        page.draw(element)
    return "\n".join(page.said)


class _Content:
    """The operators of a page as they grow, and the pen, tone and font that are in force."""

    def __init__(self, height_mm: float, coded: Coded) -> None:
        self.high = height_mm * POINT_PER_MM
        self.coded = coded
        self.said = ["0 J 1 j"]
        self.pen: tuple[PenName, float] | None = None
        self.tone: ToneName | None = None
        self.font: tuple[str, str] | None = None

    def at(self, point: Point) -> str:
        return f"{point[0] * POINT_PER_MM:.3f} {self.high - point[1] * POINT_PER_MM:.3f}"

    def ring(self, points: tuple[Point, ...], *, closed: bool) -> str:
        ring = " l ".join([self.at(point) for point in points]).replace(" l ", " m ", 1)
        return f"{ring} {'l ' if len(points) > 1 else 'm '}{'h ' if closed else ''}"

    def curved(self, element: Path) -> str:
        here = element.start
        parts = [f"{self.at(here)} m "]
        for step in element.steps:
            if isinstance(step, LineTo):
                parts.append(f"{self.at(step.to)} l ")
            else:
                curves = curves_of_arc(here, step) if isinstance(step, ArcTo) else (step,)
                parts += [
                    f"{self.at(one.first)} {self.at(one.second)} {self.at(one.to)} c "
                    for one in curves
                ]
            here = step.to
        return "".join(parts) + ("h " if element.closed else "")

    def take_pen(self, name: PenName, phase_mm: float = 0.0) -> None:
        pen = PENS[name]
        phase = phase_mm % sum(pen.dashes_mm) if pen.dashes_mm else 0.0
        if self.pen == (name, phase):
            return
        self.pen = (name, phase)
        dashes = " ".join(f"{dash * POINT_PER_MM:.3f}" for dash in pen.dashes_mm)
        width = pen.width_mm * POINT_PER_MM
        self.said.append(f"{width:.4f} w [{dashes}] {phase * POINT_PER_MM:.3f} d")

    def take_tone(self, tone: ToneName) -> None:
        if self.tone != tone:
            self.tone = tone
            self.said.append(f"{TONES[tone]:g} g")

    def draw(self, element: Placed) -> None:
        if isinstance(element, Line):
            self.take_pen(element.pen, element.phase_mm)
            self.said.append(self.ring(element.points, closed=element.closed) + "S")
        elif isinstance(element, Path):
            self.take_pen(element.pen)
            self.said.append(self.curved(element) + "S")
        elif isinstance(element, Fill):
            self.fill(element)
        elif isinstance(element, Circle):
            self.circle(element)
        else:
            self.text(element)

    def fill(self, element: Fill) -> None:
        if element.tone is None:
            return
        self.take_tone(element.tone)
        rings = [self.ring(ring, closed=True) for ring in (element.points, *element.holes)]
        self.said.append("".join(rings) + "f*")

    def circle(self, element: Circle) -> None:
        if element.tone is not None:
            self.take_tone(element.tone)
        if element.pen is not None:
            self.take_pen(element.pen)
        (x, y), r = element.centre, element.radius
        corners = [(x + r, y), (x, y + r), (x - r, y), (x, y - r)]
        steps = tuple(ArcTo(corner, r) for corner in (*corners[1:], corners[0]))
        paint = {(True, True): "B", (True, False): "S", (False, True): "f", (False, False): "n"}
        how = paint[element.pen is not None, element.tone is not None]
        self.said.append(self.curved(Path(corners[0], steps, closed=True)) + how)

    def text(self, element: Text) -> None:
        if not element.clip:
            self.words(element)
            return
        before = self.tone, self.font
        self.said.append(f"q {self.ring(element.clip, closed=True)}W n")
        self.words(element)
        self.said.append("Q")
        self.tone, self.font = before

    def words(self, element: Text) -> None:
        self.take_tone(element.tone)
        width = text_width(element.words, element.size_mm, element.face)
        along = {"start": 0.0, "middle": -width / 2, "end": -width}[element.anchor]
        for run in runs(printed(element.words, element.face)):
            self.run(element, run, along)
            along += text_width(run.words, run.scale * element.size_mm, element.face)

    def run(self, element: Text, run: Run, along_mm: float) -> None:
        """Set words of one size from a place along the baseline."""
        rise = run.rise * element.size_mm
        angle = math.radians(element.turn_deg)
        cos, sin = math.cos(angle), math.sin(angle)
        x, y = element.at
        at = self.at((x + along_mm * cos + rise * sin, y + along_mm * sin - rise * cos))
        turn = f"{cos:.6f} {-sin:.6f} {sin:.6f} {cos:.6f}" if element.turn_deg else "1 0 0 1"
        size = f"{run.scale * element.size_mm * POINT_PER_MM:.3f}"
        self.said.append(f"BT {turn} {at} Tm")
        for font, codes in self.coded(element.face, run.words):
            if self.font != (font, size):
                self.font = (font, size)
                self.said.append(f"{font} {size} Tf")
            self.said.append(f"{literal(codes)} Tj")
        self.said.append("ET")
