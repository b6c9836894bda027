"""The same drawing gives the same bytes: twice in one run, and under two hash seeds."""

import os
import subprocess
import sys

import pytest

SCRIPT = """
import hashlib
from trimwright.drawing import *
title = Title("Larkspur", "Left wall", "template", "A1", "1 of 2", "1:1", "Cut", "mm", "100 mm")
whole = Drawing(300.0, 140.0, (
    Fill(((5.0, 5.0), (39.0, 20.0), (20.0, 29.0)), hatch="carpet", layer="waste"),
    Path((20.0, 20.0), (ArcTo((90.0, 90.0), 80.0), CurveTo((1.0, 2.0), (3.0, 4.0), (50.0, 200.0)))),
    Circle((100.0, 100.0), 12.0, "hidden", "light", layer="drill"),
    Text((50.0, 60.0), "Left wall 9 13/16 \u00b1", 8.0, "say"),
))
parts = tiles(whole, (186.0, 150.0))
pages = tuple(
    Page("A4", Drawing(210.0, 297.0, (
        frame("A4"), Group(part.elements, move=(12.0, 12.0)), *joints(part, parts),
        *title_block(title, (202.0, 289.0))[0], *check_squares((14.0, 178.0)),
    )), part.name)
    for part in parts
)
made = pdf(Document(pages, "Left wall", "1")) + svg(pages[0]).encode() + dxf(whole)
print(hashlib.sha256(made).hexdigest(), hashlib.sha256(
    pdf(Document(pages, "Left wall", "1")) + svg(pages[0]).encode() + dxf(whole)).hexdigest())
"""


def printed(seed: str) -> list[str]:
    done = subprocess.run(  # noqa: S603  our own script, our own interpreter
        [sys.executable, "-c", SCRIPT],
        env={**os.environ, "PYTHONHASHSEED": seed},
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout.split()


def test_same_bytes_twice_and_under_several_hash_seeds() -> None:
    # two seeds agreed by luck where a set of four kinds was listed in its own order
    assert len({one for seed in ("1", "2", "3", "4", "5", "4711") for one in printed(seed)}) == 1


@pytest.mark.parametrize("word", [b"2026-", b"GMT", b"CreationDate (D:2026"])
def test_file_tells_no_time_of_its_making(word: bytes) -> None:
    from trimwright.drawing import Document, Drawing, Line, Page, dxf, pdf  # noqa: PLC0415  only here

    drawing = Drawing(50.0, 50.0, (Line(((1.0, 1.0), (40.0, 40.0))),))
    made = pdf(Document((Page((50.0, 50.0), drawing),))) + dxf(drawing)
    assert word not in made
