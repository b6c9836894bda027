"""The same build gives the same paper, byte for byte, however the interpreter mixes its sets."""

import os
import subprocess
import sys

import pytest

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
LOOM = """build: Wrenfold Teal, its wiring
unit: in
wiring:
  battery: {at: bay, holds: 60 Ah, cranks: 480 A}
  places: [{name: bay}, {name: box}, {name: dash}, {name: door}]
  trunks:
    - {from: bay, to: box, long: 40, hole: 1/2}
    - {from: box, to: dash, long: 25}
    - {from: dash, to: door, long: 30}
    - {from: box, to: door, long: 45}
  feeds: [{name: always, at: box}]
  grounds: [{name: stud, at: dash}]
  fuses: [{name: fuse 1, at: box, rated: 15 A}, {name: fuse 2, at: box, rated: 15 A}]
  plugs: [{name: door plug, at: door, cavities: 4}]
  loads:
    - {name: lamp, at: bay, kind: lamp, takes: 55 W}
    - {name: pump, at: door, kind: heater, takes: 4 A}
  paths:
    - {name: feed, goes: [battery +, always], size: 10 AWG, colour: RD}
    - {name: lamp, goes: [always, fuse 1, lamp, stud], colour: WH}
    - {name: pump, goes: [always, fuse 2, door plug 1, pump, door plug 2, stud], colour: GNYE}
"""
PRINT = """
import hashlib, sys
from trimwright.build import parse
from trimwright.cabin import Cabin, cabin
from trimwright.papers.packet import packet
from trimwright.papers.wiring.wiring_csv import buying_csv, wire_list_csv
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
if found.build.wiring is not None:
    whole.update(wire_list_csv(found) + buying_csv(found))
if found.carcass is not None:
    whole.update(pdf(plotter(found)))
for panel in found.carcass.panels if found.carcass else ():
    drawing = panel_drawing(found, panel)
    whole.update(dxf(drawing))
    whole.update(svg(Page((drawing.width_mm, drawing.height_mm), drawing)).encode())
print(whole.hexdigest())
"""


def printed(text: str, mixing: str) -> str:
    """Return one figure for all paper of a build, printed by an interpreter of its own."""
    seeded = {**os.environ, "PYTHONHASHSEED": mixing}
    done = subprocess.run(  # noqa: S603  this interpreter and a fixed program
        [sys.executable, "-c", PRINT],
        input=text.encode(),
        env=seeded,
        capture_output=True,
        check=True,
    )
    return done.stdout.decode().strip()


@pytest.mark.parametrize("text", [TEXT, LOOM])
def test_paper_is_the_same_twice_and_under_two_mixings(text: str) -> None:
    made = cabin(parse(text).build)
    assert (made.carcass is None) == (made.build.wiring is not None)
    first, second = printed(text, "1"), printed(text, "2")
    assert len(first) == 64
    assert first == second
