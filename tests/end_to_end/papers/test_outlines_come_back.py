"""What a builder saws along, read back from every file, is the panel that was computed."""

import io
import re
from collections.abc import Sequence

import ezdxf
import pdfplumber
import pytest
from shapely import LinearRing, LineString, MultiLineString

from tests.unit.papers.wood import carcass
from trimwright.build import parse
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import Document, Page, dxf, pdf, svg
from trimwright.papers import template
from trimwright.papers.leaf import pages
from trimwright.papers.one_to_one import tiled
from trimwright.papers.panel_drawing import corner, panel_drawing, panel_piece
from trimwright.papers.plotter import plotter
from trimwright.papers.shared_page import Paper
from trimwright.parts import Panel

LIMIT_MM = 0.05
POINT_MM = 25.4 / 72
SAW_MM = 0.35
TEXT = """build: Wrenfold Teal, 1970
unit: mm
car:
  datum: {marks: two scribed lines, top of tunnel here: bare metal}
  tunnel:
    - {at: 50 behind, top: 200 above floor, down 10: {left: 50, right: 54},
       down 40: {left: 80, right: 86}, down 90: {left: 110, right: 112},
       down 150: {left: 130, right: 131}}
    - {at: 350 behind, top: 190 above floor, down 10: {left: 45, right: 44},
       down 40: {left: 85, right: 80}, down 90: {left: 112, right: 110},
       down 150: {left: 131, right: 133}}
console:
  deck height: 170
  width: 190
  from: 40 behind
  to: 340 behind
  walls: {lean: 3 deg, deck joint: rebate}
  scribe: {over: bare metal, edge: bevelled}
  openings:
    - {name: gear lever, at: 150 behind, long: 90, wide: 70, corner: 15}
"""


@pytest.fixture(scope="module")
def found() -> Cabin:
    """Return a cabin without anything to be near to: there is no gap to evaluate."""
    return cabin(parse(TEXT).build)


@pytest.fixture(autouse=True)
def _uncut(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leave the least cut out: it is drawn beside the outline, never instead of it."""
    monkeypatch.setattr(Cabin, "plan", property(lambda _: None))


def wanted(panel: Panel) -> list[LinearRing]:
    """Return outline and holes of a panel's outer face, u right and v up."""
    return [LinearRing(panel.outer), *(LinearRing(hole.outline) for hole in panel.holes)]


def apart(read: Sequence[LineString], panel: Panel) -> float:
    """Return how far lines read lie at most from a panel's outlines, and these from the lines."""
    return float(MultiLineString(read).hausdorff_distance(MultiLineString(wanted(panel))))


@pytest.mark.parametrize("name", ["deck", "left wall", "right wall"])
def test_dxf(found: Cabin, name: str) -> None:
    panel = carcass(found).panel(name)
    drawing, (x0, y0) = panel_drawing(found, panel), corner(panel)
    document = ezdxf.read(io.StringIO(dxf(drawing).decode("utf-8")))
    read = [
        LinearRing([(x - x0, y - (drawing.height_mm - y0)) for x, y in one.get_points("xy")])
        for one in document.modelspace().query('LWPOLYLINE[layer=="saw"]')
    ]
    assert len(read) == len(wanted(panel))
    assert apart(read, panel) <= LIMIT_MM
    assert document.header["$INSUNITS"] == 4  # millimetres [DXF reference, header variables]


@pytest.mark.parametrize("name", ["deck", "left wall", "right wall"])
def test_svg(found: Cabin, name: str) -> None:
    panel = carcass(found).panel(name)
    drawing, (x0, y0) = panel_drawing(found, panel), corner(panel)
    text = svg(Page((drawing.width_mm, drawing.height_mm), drawing, name))
    size = re.search(
        r'width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"', text
    )
    assert size is not None
    assert size.groups()[:2] == size.groups()[2:]
    read = []
    for group in re.findall(r'<g class="ink pen-saw".*?</g>', text, re.DOTALL):
        for path in re.findall(r' d="M([^"]*)Z"', group):
            points = [tuple(map(float, pair.split())) for pair in path.split("L")]
            read.append(LinearRing([(x - x0, y0 - y) for x, y in points]))
    assert len(read) == len(wanted(panel))
    assert apart(read, panel) <= LIMIT_MM


def test_template_pages_lie_together_again(found: Cabin) -> None:
    leaves = template.leaves(found, (), "A4")
    paper = Paper("template", "A4", found.build, "")
    with pdfplumber.open(io.BytesIO(pdf(Document(pages(leaves, found.build), "x", "")))) as file:
        sheets = iter(file.pages[1:])  # after the page with check squares and maps
        for panel in carcass(found).panels:
            whole = tiled(panel_piece(found, panel), paper)
            cut, window = whole.cut, whole.window
            assert len(cut) > 1
            read = []
            x0, y0 = corner(panel)
            for tile in cut:
                off = (tile.window.x - window.x - x0, tile.window.y - window.y - y0)
                read += sawn(next(sheets), off, window.bottom)
            assert apart(read, panel) <= LIMIT_MM
        assert next(sheets, None) is None


def test_plotter_page_holds_every_panel(found: Cabin) -> None:
    document = plotter(found)
    assert len(document.pages) == 1
    assert document.pages[0].width_mm == 900.0
    with pdfplumber.open(io.BytesIO(pdf(document))) as file:
        lines = sawn(file.pages[0], (0.0, 0.0), float("inf"))
    rings = [line for line in lines if line.is_ring]
    squares = [line for line in rings if line.length == pytest.approx(400.0, abs=0.05)]
    assert len(squares) == 1
    for panel in carcass(found).panels:
        lengths = [abs(line.length - ring.length) for ring in wanted(panel) for line in rings]
        assert min(lengths) <= LIMIT_MM


def sawn(sheet: pdfplumber.page.Page, off: tuple[float, float], foot: float) -> list[LineString]:
    """Return the saw lines of a page above its foot, moved, x right and y up [mm]."""
    found = []
    for one in (*sheet.lines, *sheet.curves, *sheet.rects):
        if abs(one["linewidth"] * POINT_MM - SAW_MM) > 0.01:
            continue
        points = [(x * POINT_MM, y * POINT_MM) for x, y in one["pts"]]
        if one["object_type"] != "line" and one in sheet.rects:
            points.append(points[0])
        if max(y for _, y in points) <= foot + 0.01:
            found.append(LineString([(x + off[0], -(y + off[1])) for x, y in points]))
    return found


def test_inch_and_metric_squares_are_what_they_say(found: Cabin) -> None:
    sheet = pages(template.leaves(found, (), "Letter")[:1], found.build)
    with pdfplumber.open(io.BytesIO(pdf(Document(sheet, "x", "")))) as file:
        sides = [
            (one["width"] * POINT_MM, one["height"] * POINT_MM)
            for one in (*file.pages[0].rects, *file.pages[0].curves)
            if abs(one["width"] - one["height"]) < 0.01
        ]
    for side in (100.0, 101.6):  # 4 in of 25.4 mm
        assert any(s == pytest.approx((side, side), abs=LIMIT_MM) for s in sides)
