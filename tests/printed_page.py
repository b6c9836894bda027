"""Reading printed pages back: the fields of their title blocks, sizes of type, widths of lines."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

import pdfplumber
from pypdf import PageObject
from pypdf.generic import ContentStream

POINT_MM = 25.4 / 72
FIELDS = ("build", "part", "paper", "page", "sheet", "scale", "last change", "unit", "check")
BLOCK_MM = (158.0, 40.0)  # what is looked through for a title block, left of and above the corner
INSET_MM, LABEL_MM = 8.0, 2.6
SIZE, WIDTH = re.compile(rb"([\d.]+) Tf\b"), re.compile(rb"([\d.]+) w\b")


def title_of(page: pdfplumber.page.Page) -> dict[str, str]:
    """Return the fields of a page's title block in the order they are read, left to right, down."""
    right, foot = page.width - INSET_MM / POINT_MM, page.height - INSET_MM / POINT_MM
    wide, high = (length / POINT_MM for length in BLOCK_MM)
    corner = page.crop((right - wide, max(foot - high, 0.0), right, foot))
    words = corner.extract_words(extra_attrs=["size"], x_tolerance=0.8, keep_blank_chars=True)
    labels = [
        one
        for one in words
        if one["text"] in FIELDS and abs(one["size"] * POINT_MM - LABEL_MM) < 0.05
    ]
    labels.sort(key=lambda one: (round(one["top"]), one["x0"]))
    return {one["text"]: _field(one, labels, words) for one in labels}


def _field(label: dict[str, Any], labels: list[dict[str, Any]], words: list[dict[str, Any]]) -> str:
    """Return what stands in the field of a label."""
    beside = [one["x0"] for one in labels if abs(one["top"] - label["top"]) < 1]
    end = min((x for x in beside if x > label["x0"] + 1), default=float("inf"))
    foot = min(
        (one["top"] for one in labels if one["top"] > label["top"] + 1), default=float("inf")
    )
    inside = [
        one
        for one in words
        if one is not label
        and label["x0"] - 1 <= one["x0"] < end - 1
        and label["top"] + 1 < one["top"] < foot - 1
    ]
    return " ".join(one["text"] for one in sorted(inside, key=lambda one: (one["top"], one["x0"])))


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
