"""Pages as SVG."""

from html import escape
from itertools import groupby
from zlib import crc32

from trimwright.drawing.element import (
    ArcTo,
    Circle,
    FaceName,
    Fill,
    Line,
    LineTo,
    Path,
    Point,
    Step,
    Text,
)
from trimwright.drawing.face import printed, text_width
from trimwright.drawing.flat import named
from trimwright.drawing.fraction import runs
from trimwright.drawing.pen import PENS, TONES, ToneName
from trimwright.drawing.placement import Placed
from trimwright.drawing.sheet import Page

SAY = "Bitter,Rockwell,'Roboto Slab',Georgia,serif"
COUNT = "'Sofia Sans',Bitter,'Segoe UI','Noto Sans',sans-serif"
STACKS: dict[FaceName, tuple[str, int]] = {
    "say": (SAY, 600),
    "count": (COUNT, 400),
    "count-bold": (COUNT, 600),
}
STYLE = (
    "text{text-rendering:geometricPrecision;font-kerning:none;"
    "font-variant-numeric:tabular-nums lining-nums;white-space:pre}"
    "@media screen and (prefers-color-scheme:dark){"
    ".sheet-paper,.tone-paper{fill:#22282A}.tone-ink{fill:#F1EBDC}.ink{stroke:#F1EBDC}}"
)


def number(value: float) -> str:
    """Return a figure with at most three decimals and no needless zeros.

    Examples
    --------
    >>> number(-0.0001), number(12.5), number(1 / 3)
    ('0', '12.5', '0.333')
    """
    shown = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if shown == "-0" else shown


def grey(tone: ToneName) -> str:
    """Return a tone as a colour.

    Examples
    --------
    >>> grey("paper"), grey("ink")
    ('#ffffff', '#000000')
    """
    level = round(TONES[tone] * 255)
    return f"#{level:02x}{level:02x}{level:02x}"


def _at(point: Point) -> str:
    return f"{number(point[0])} {number(point[1])}"


def _ring(points: tuple[Point, ...], *, closed: bool) -> str:
    return "M" + "L".join(_at(point) for point in points) + ("Z" if closed else "")


def _step(step: Step) -> str:
    if isinstance(step, LineTo):
        return f"L{_at(step.to)}"
    if isinstance(step, ArcTo):
        radius = number(step.radius)
        flags = f"{int(step.longer)} {int(step.way == 'clockwise')}"
        return f"A{radius} {radius} 0 {flags} {_at(step.to)}"
    return f"C{_at(step.first)} {_at(step.second)} {_at(step.to)}"


def _fill(tone: ToneName) -> str:
    return f'class="tone-{tone}" fill="{grey(tone)}"'


def _stroke(element: Line | Path | Circle) -> str:
    """Return the attributes that neighbours of one pen share; none if it has no pen."""
    if element.pen is None:
        return ""
    pen = PENS[element.pen]
    dashes = " ".join(number(dash) for dash in pen.dashes_mm)
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return (
        f'class="ink pen-{element.pen}" fill="none" stroke="#000000" '
        f'stroke-width="{number(pen.width_mm)}" stroke-linejoin="round"{dashed}'
    )


def _shape(element: Line | Path | Circle) -> str:
    if isinstance(element, Circle):
        (x, y), r = element.centre, element.radius
        tone = f" {_fill(element.tone)}" if element.tone else ""
        return f'<circle cx="{number(x)}" cy="{number(y)}" r="{number(r)}"{tone}/>'
    if isinstance(element, Path):
        close = "Z" if element.closed else ""
        return f'<path d="M{_at(element.start)}{"".join(map(_step, element.steps))}{close}"/>'
    shift = f' stroke-dashoffset="{number(element.phase_mm)}"' if element.phase_mm else ""
    return f'<path d="{_ring(element.points, closed=element.closed)}"{shift}/>'


def _area(element: Fill) -> str:
    if element.tone is None:
        return ""
    rings = "".join(_ring(ring, closed=True) for ring in (element.points, *element.holes))
    return f'<path {_fill(element.tone)} fill-rule="evenodd" d="{rings}"/>'


def _words(text: Text) -> str:
    """Return the words, fractions as small figures on shifted baselines."""
    shown, height = "", 0.0
    for run in runs(printed(text.words, text.face)):
        rise = run.rise * text.size_mm
        if run.scale == 1.0 and rise == height:
            shown += escape(run.words)
            continue
        size = number(run.scale * text.size_mm)
        shown += (
            f'<tspan dy="{number(height - rise)}" font-size="{size}">{escape(run.words)}</tspan>'
        )
        height = rise
    return shown


def _text(element: Text) -> str:
    stack, weight = STACKS[element.face]
    turn = f" rotate({number(element.turn_deg)})" if element.turn_deg else ""
    # a screen without these fonts squeezes its own into the same width
    length = number(text_width(element.words, element.size_mm, element.face))
    drawn = (
        f'<text transform="translate({_at(element.at)}){turn}" {_fill(element.tone)} '
        f'font-family="{stack}" font-weight="{weight}" font-size="{number(element.size_mm)}" '
        f'text-anchor="{element.anchor}" textLength="{length}" '
        f'lengthAdjust="spacingAndGlyphs">{_words(element)}</text>'
    )
    if not element.clip:
        return drawn
    ring = _ring(element.clip, closed=True)
    name = f"clip-{crc32(ring.encode()):08x}"
    return f'<clipPath id="{name}"><path d="{ring}"/></clipPath><g clip-path="url(#{name})">{drawn}</g>'


def _kind(one: tuple[str, Placed]) -> str:
    """Return the attributes that neighbours share: the name of their group, their pen."""
    name, element = one
    of = f'data-of="{escape(name)}"' if name else ""
    pen = _stroke(element) if isinstance(element, Line | Path | Circle) else ""
    return f"{of} {pen}".strip()


def _body(elements: tuple[tuple[str, Placed], ...]) -> list[str]:
    parts = []
    for kind, run in groupby(elements, key=_kind):
        if kind:
            parts.append(f"<g {kind}>")
        for _, element in run:
            if isinstance(element, Fill):
                parts.append(_area(element))
            elif isinstance(element, Text):
                parts.append(_text(element))
            else:
                parts.append(_shape(element))
        if kind:
            parts.append("</g>")
    return [part for part in parts if part]


def svg(page: Page, *, says: str = "") -> str:
    """Return a page as SVG in true millimetres, its words as real words.

    Parameters
    ----------
    page : Page
        Its title becomes the picture's title.
    says : str, default ""
        What the page shows, for those who hear it read.

    References
    ----------
    SVG 2, sections 5.8 (title, desc), 9.5 (paths), 11 (text)

    Examples
    --------
    >>> from trimwright.drawing.sheet import Drawing
    >>> page = Page((20.0, 10.0), Drawing(20.0, 10.0, (Line(((0, 1), (20, 1)), "saw"),)), "Saw")
    >>> '<path d="M0 1L20 1"/>' in svg(page)
    True
    """
    width, height = number(page.width_mm), number(page.height_mm)
    opening = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" role="img">'
    )
    head = [
        opening,
        f"<title>{escape(page.title)}</title>",
        *([f"<desc>{escape(says)}</desc>"] if says else []),
        f"<style>{STYLE}</style>",
        f'<rect class="sheet-paper" width="{width}" height="{height}" fill="#ffffff"/>',
    ]
    return "\n".join((*head, *_body(named(page.drawing.elements)), "</svg>")) + "\n"
