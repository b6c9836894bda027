"""Small marks: grades, drill places, crosses that join pages, the datum, the face mark."""

from typing import Literal

from trimwright.drawing.element import (
    Circle,
    CurveTo,
    Element,
    Fill,
    Group,
    Line,
    Path,
    Point,
    Text,
)
from trimwright.drawing.type_size import LABEL_MM, WORD_MM

GradeName = Literal["stop", "change", "look", "good"]
GRADE_MM = 5.0  # a grade mark on paper


def grade_mark(kind: GradeName, number: int | None, at: Point) -> tuple[Element, ...]:
    """Return the mark of a grade with its number, its middle at `at`; shape alone tells the grade.

    Parameters
    ----------
    kind : {'stop', 'change', 'look', 'good'}
        A solid square with a cross, a solid wedge pointing down, a ring, a tick.
    number : int or None
        The finding's number; a tick has none.
    at : Point
        The middle [mm].
    """
    if kind == "good":
        tick = Line(((-0.38, 0.0), (-0.1, 0.3), (0.38, -0.38)), "cut")
        return (Group((tick,), move=at, scale=GRADE_MM),)
    x, y = at
    words = "" if number is None else str(number)
    size = WORD_MM if len(words) < 2 else LABEL_MM  # noqa: PLR2004  two figures are set smaller
    if kind == "look":
        ring = Circle(at, 0.46 * GRADE_MM, "visible")
        return (ring, *_numeral(words, (x, y + 0.35 * size), size, "dark"))
    half = GRADE_MM / 2
    if kind == "stop":
        corners = ((-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))
        square = Fill(tuple((x + half * u, y + half * v) for u, v in corners), tone="ink")
        # the number takes the middle of the cross: only its four ends are seen
        inner = 0.5 if words else 0.0
        cross = tuple(_bar((x, y), (u * half, v * half), inner) for u, v in corners)
        return (square, *cross, *_numeral(words, (x, y + 0.35 * size), size, "light"))
    wedge = Fill(
        ((x - 1.15 * half, y - half), (x + 1.15 * half, y - half), (x, y + half)), tone="ink"
    )
    return (wedge, *_numeral(words, (x, y - 0.3 * half + 0.35 * size), size, "light"))


def _bar(at: Point, corner: Point, inner: float) -> Fill:
    """Return one white end of a cross: from a corner inwards to a share of the way."""
    (x, y), (u, v) = at, corner
    thick = 0.035 * GRADE_MM * (1 if u * v > 0 else -1)
    a, b = (x + u, y + v), (x + inner * u, y + inner * v)
    return Fill(
        (
            (a[0] - thick, a[1] + abs(thick)),
            (a[0] + thick, a[1] - abs(thick)),
            (b[0] + thick, b[1] - abs(thick)),
            (b[0] - thick, b[1] + abs(thick)),
        ),
        tone="paper",
    )


def _numeral(
    words: str, at: Point, size_mm: float, look: Literal["dark", "light"]
) -> tuple[Text, ...]:
    if not words:
        return ()
    tone: Literal["ink", "paper"] = "ink" if look == "dark" else "paper"
    return (Text(at, words, size_mm, "count-bold", "middle", tone=tone),)


def drill_cross(at: Point, diameter_mm: float, layer: str = "drill") -> tuple[Line | Circle, ...]:
    """Return a hole's true circle, its cross and its centre."""
    (x, y), arm = at, max(5.0, diameter_mm / 2 + 2.0)
    return (
        Circle(at, diameter_mm / 2, "saw", layer=layer),
        Line(((x - arm, y), (x + arm, y)), "thin", layer="centre"),
        Line(((x, y - arm), (x, y + arm)), "thin", layer="centre"),
        Circle(at, 0.35, None, "ink", layer="centre"),
    )


def nail_cross(at: Point, layer: str = "nail") -> tuple[Line | Circle, ...]:
    """Return where a nail goes: a slanting cross, 12 mm over all, and a circle of 3 mm."""
    (x, y), arm = at, 6.0 * 0.5**0.5
    return (
        Line(((x - arm, y - arm), (x + arm, y + arm)), "thin", layer=layer),
        Line(((x - arm, y + arm), (x + arm, y - arm)), "thin", layer=layer),
        Circle(at, 1.5, "thin", layer=layer),
    )


def registration_mark(at: Point) -> tuple[Element, ...]:
    """Return a cross in a circle: two pages match where theirs lie on each other."""
    (x, y), arm = at, 4.5
    return (
        Circle(at, 2.2, "thin", layer="joint"),
        Line(((x - arm, y), (x + arm, y)), "thin", layer="joint"),
        Line(((x, y - arm), (x, y + arm)), "thin", layer="joint"),
    )


def datum_tick(at: Point, name: str = "datum") -> tuple[Element, ...]:
    """Return a filled triangle standing with its tip at a place, and its name.

    References
    ----------
    ISO 5459:2011, datum triangle (filled form)
    """
    x, y = at
    triangle = Fill((at, (x - 1.8, y + 3.2), (x + 1.8, y + 3.2)), tone="ink")
    return (triangle, Text((x + 2.6, y + 3.2), name, LABEL_MM))


def face_mark(at: Point, size_mm: float = 14.0) -> tuple[Element, ...]:
    """Return the looped mark a woodworker pencils on the face side; its tail ends at `at`."""
    curves = (
        CurveTo((-0.57, -0.64), (-0.36, -1.07), (-0.07, -1.0)),
        CurveTo((0.21, -0.93), (0.14, -0.5), (-0.21, -0.43)),
        CurveTo((-0.38, -0.39), (-0.36, -0.07), (0.0, 0.0)),
    )
    loop = Path((-0.36, -0.21), curves, "visible")
    return (Group((loop,), move=at, scale=size_mm),)
