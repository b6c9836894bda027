"""The same build gives the same paper, byte for byte, however the interpreter mixes its sets."""

import os
import subprocess
import sys

from trimwright.build import parse
from trimwright.cabin import cabin

TEXT = """build: Wrenfold Teal, 1970
unit: mm
car:
  datum: {marks: two scribed lines, top of tunnel here: bare metal}
  tunnel:
    - {at: 50 behind, top: 200 above floor, down 10: {left: 50, right: 54},
       down 40: {left: 80, right: 86}, down 150: {left: 130, right: 131}}
console:
  deck height: 170
  width: 190
  from: 40 behind
  to: 200 behind
  trims: {nose lower by: 4}
"""
PRINT = """
import hashlib, sys
from trimwright.build import parse
from trimwright.cabin import Cabin, cabin
from trimwright.papers.packet import packet
from trimwright.papers.panel_drawing import panel_drawing
from trimwright.papers.plotter import plotter
from trimwright.drawing import Page, dxf, pdf, svg
for slow in ("plan", "pose", "outcome", "bare"):
    setattr(Cabin, slow, property(lambda _: None))
Cabin.again = property(lambda _: ())
found = cabin(parse(sys.stdin.read()).build)
whole = hashlib.sha256()
for document in packet(found, (), "A4").values():
    whole.update(pdf(document))
whole.update(pdf(plotter(found)))
for panel in found.carcass.panels:
    drawing = panel_drawing(found, panel)
    whole.update(dxf(drawing))
    whole.update(svg(Page((drawing.width_mm, drawing.height_mm), drawing)).encode())
print(whole.hexdigest())
"""


def printed(mixing: str) -> str:
    """Return one figure for all paper of a build, printed by an interpreter of its own."""
    seeded = {**os.environ, "PYTHONHASHSEED": mixing}
    done = subprocess.run(  # noqa: S603  this interpreter and a fixed program
        [sys.executable, "-c", PRINT],
        input=TEXT.encode(),
        env=seeded,
        capture_output=True,
        check=True,
    )
    return done.stdout.decode().strip()


def test_paper_is_the_same_twice_and_under_two_mixings() -> None:
    assert cabin(parse(TEXT).build).carcass is not None
    first, second = printed("1"), printed("2")
    assert len(first) == 64
    assert first == second
