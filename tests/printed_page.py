"""Reading printed pages back: the fields of their title blocks, sizes of type, widths of lines."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from pypdf import PageObject
from pypdf.generic import ContentStream
from pypdfium2 import PdfDocument

POINT_MM = 25.4 / 72
FIELDS = ("build", "part", "paper", "page", "sheet", "scale", "last change", "unit", "check")
BLOCK_MM = (158.0, 40.0)  # what is looked through for a title block, left of and above the corner
INSET_MM, NEAR = 8.0, 2.0  # of the frame [mm]; what is as good as level [points]
SIZE, WIDTH = re.compile(rb"([\d.]+) Tf\b"), re.compile(rb"([\d.]+) w\b")


@dataclass(frozen=True)
class Run:
    """Words of one size on one line: where they begin and the foot of the line [points]."""

    words: str
    left: float
    foot: float


def titles_of(pdf: bytes) -> list[dict[str, str]]:
    """Return the fields of every page's title block in the order they are read."""
    return [_title(_runs(page)) for page in PdfDocument(pdf)]


def _runs(page: Any) -> list[Run]:  # noqa: ANN401  the library has no types
    """Return the words in the corner of a page where its title block is."""
    text, inset = page.get_textpage(), INSET_MM / POINT_MM
    wide, high = (length / POINT_MM for length in BLOCK_MM)
    left, top = page.get_width() - inset - wide, inset + high
    found = []
    for k in range(text.count_rects()):
        box = text.get_rect(k)
        if box[0] > left and box[1] > inset and box[3] < top:
            found.append(Run(text.get_text_bounded(*box).strip(), box[0], box[1]))
    return found


def _title(runs: list[Run]) -> dict[str, str]:
    """Return the fields of a title block: what stands below each label and before the next."""
    labels = [one for one in runs if one.words in FIELDS]
    feet = sorted({one.foot for one in labels}, reverse=True)
    rows = [foot for k, foot in enumerate(feet) if k == 0 or feet[k - 1] - foot > NEAR]

    def place(one: Run) -> tuple[int, float]:
        return sum(foot > one.foot + NEAR for foot in rows), one.left

    labels.sort(key=place)
    return {one.words: _field(one, labels, runs) for one in labels}


def _field(label: Run, labels: list[Run], runs: list[Run]) -> str:
    """Return what stands in the field of a label."""
    beside = [one.left for one in labels if abs(one.foot - label.foot) < NEAR]
    end = min((x for x in beside if x > label.left + NEAR), default=float("inf"))
    foot = max((one.foot for one in labels if one.foot < label.foot - NEAR), default=0.0)
    inside = [
        one
        for one in runs
        if label.left - NEAR <= one.left < end - NEAR and foot + NEAR < one.foot < label.foot - NEAR
    ]
    return " ".join(one.words for one in sorted(inside, key=lambda one: (-one.foot, one.left)))


@dataclass(frozen=True)
class Ink:
    """What a page is set and drawn in [mm]."""

    type_mm: frozenset[float]
    line_mm: frozenset[float]


def ink_of(page: PageObject) -> Ink:
    """Return the sizes of type and the widths of lines of a page that is drawn to no scale."""
    said = page.get_contents()
    data = b"" if said is None else said.get_data()
    assert re.search(rb"^[-\d. ]+ cm$", data, re.MULTILINE) is None, "drawn to a scale"
    return Ink(
        frozenset(round(float(one) * POINT_MM, 2) for one in SIZE.findall(data)),
        frozenset(round(float(one) * POINT_MM, 2) for one in WIDTH.findall(data)),
    )


def ink_through(page: PageObject) -> Ink:
    """Return the same of a page with drawings placed in it, each to its own scale."""
    said = tuple(_said(page.get_contents(), page, 1.0))
    sizes, widths = (
        frozenset(round(value * POINT_MM, 2) for one, value in said if one == kind)
        for kind in ("type", "line")
    )
    return Ink(sizes, widths)


@dataclass
class _State:
    """What is in force while a page is drawn: its scale, the pen, the type."""

    scale: float
    width: float = 1.0
    size: float = 0.0
    turned: float = 1.0

    def take(self, operator: bytes, operands: Any) -> None:  # noqa: ANN401  of the library's own kinds
        if operator == b"cm":
            self.scale *= _growth(operands)
        elif operator == b"Tm":
            self.turned = _growth(operands)
        elif operator == b"w":
            self.width = float(operands[0])
        elif operator == b"Tf":
            self.size = float(operands[1])


def _said(drawn: Any, holder: Any, scale: float) -> Iterator[tuple[str, float]]:  # noqa: ANN401  a page or a form
    """Yield each size of type and each width of a line drawn, through forms within forms."""
    forms = holder["/Resources"].get("/XObject", {})
    outer, now = list[_State](), _State(scale)
    for operands, operator in ContentStream(drawn, holder.indirect_reference.pdf).operations:
        now.take(operator, operands)
        if operator == b"q":
            outer.append(replace(now))
        elif operator == b"Q":
            now = outer.pop()
        elif operator in (b"Tj", b"TJ"):
            yield "type", now.size * now.turned * now.scale
        elif operator in (b"S", b"s", b"B"):
            yield "line", now.width * now.scale
        elif operator == b"Do" and forms[operands[0]]["/Subtype"] == "/Form":
            form = forms[operands[0]]
            grown = _growth(form.get("/Matrix", (1, 0, 0, 1, 0, 0)))
            yield from _said(form, form, now.scale * grown)


def _growth(matrix: Any) -> float:  # noqa: ANN401  six numbers of the library's own kind
    """Return how much larger a matrix makes what is drawn."""
    a, b, c, d = (float(one) for one in matrix[:4])
    return float(abs(a * d - b * c) ** 0.5)
