"""Words on paper neither run into each other nor leave the page, whatever a build is called."""

import io
from collections.abc import Callable
from itertools import combinations

import pdfplumber
import pytest

from trimwright.cabin import Cabin
from trimwright.drawing import Document, Page, Size, overlaps, pdf, size_mm
from trimwright.findings import Finding
from trimwright.papers import card_gauge, mock_up, template, view
from trimwright.papers.leaf import Leaf, pages

Made = Callable[[int], Cabin]
POINT_MM = 25.4 / 72
PAPERS: tuple[Callable[[Cabin, Size], tuple[Leaf, ...]], ...] = (
    lambda cabin, size: template.leaves(cabin, (), size),
    card_gauge.leaves,
    mock_up.leaves,
    lambda cabin, size: view.leaves(cabin, FINDINGS, size),
)


def found(number: int) -> Finding:
    """Return a finding somewhere on a console."""
    at = (60.0 + 15 * number, 100.0 - 20 * number, 150.0)
    on = (at[0], at[1] + 5.0 * (number % 2), at[2] + 5.0 * (1 - number % 2))
    return Finding(
        "clearance",
        f"gap {number}",
        "stop",
        "It hits.",
        "covering",
        figure=-1.5 * number,
        limit=6.0,
        margin=-1.5 * number - 6.0,
        sure=0.01,
        low=-1.5 * number - 4.0,
        high=-1.5 * number + 3.0,
        at=at,
        on=on,
    )


FINDINGS: tuple[Finding, ...] = tuple(found(number) for number in range(11))


def sheets(cabin: Cabin, seed: int) -> tuple[Page, ...]:
    """Return the pages of one paper of a build, on one of both sizes."""
    size: Size = "A4" if seed % 5 else "Letter"
    return pages(PAPERS[seed % len(PAPERS)](cabin, size), cabin.build)


@pytest.mark.parametrize("seed", range(30))
def test_no_words_overlap_or_leave_the_page(made: Made, seed: int) -> None:
    drawn = sheets(made(seed), seed)
    assert drawn
    assert [overlaps(page) for page in drawn] == [()] * len(drawn)


@pytest.mark.parametrize("seed", [0, 1, 3])
def test_words_in_the_pdf_keep_apart(made: Made, seed: int) -> None:
    drawn = sheets(made(seed), seed)[:3]
    with pdfplumber.open(io.BytesIO(pdf(Document(drawn, "x", "")))) as file:
        for page, model in zip(file.pages, drawn, strict=True):
            wide, high = (length / POINT_MM for length in size_mm(model.size))
            assert (page.width, page.height) == pytest.approx((wide, high), abs=0.01)
            words = page.extract_words(use_text_flow=True, extra_attrs=["upright"])
            level = [word for word in words if word["upright"]]
            assert level
            assert all(w["x0"] >= 0 and w["x1"] <= wide for w in words)
            assert all(w["top"] >= 0 and w["bottom"] <= high for w in words)
            assert [(a["text"], b["text"]) for a, b in combinations(level, 2) if run(a, b)] == []


def run(a: dict[str, float], b: dict[str, float]) -> bool:
    """Return whether the inked middles of two words lie on each other [points]."""
    across = min(a["x1"], b["x1"]) - max(a["x0"], b["x0"])
    tall = min(a["bottom"] - a["top"], b["bottom"] - b["top"])
    down = min(a["bottom"], b["bottom"]) - max(a["top"], b["top"])
    return across > 0.3 and down > 0.35 * tall
