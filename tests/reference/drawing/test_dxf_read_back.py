"""Our DXF, read again by GDAL (pyogrio); what GDAL does not tell, by ezdxf's own reader."""

import math
from io import StringIO
from pathlib import Path as FilePath
from typing import Any, Literal

import ezdxf
import pyogrio
import pytest
import shapely

from trimwright.drawing import (
    ArcTo,
    Box,
    Circle,
    Drawing,
    Element,
    Fill,
    Line,
    LineTo,
    Path,
    Text,
    check_squares,
    dxf,
)

HEIGHT = 300.0
STEP_DEG = 1.0  # GDAL draws arcs as chords of this angle


def read(elements: tuple[Element, ...], folder: FilePath) -> list[tuple[str, Any, str]]:
    """Return layer, geometry and words of every entity, by GDAL."""
    file = folder / "drawing.dxf"
    file.write_bytes(dxf(Drawing(400.0, HEIGHT, elements)))
    # GDAL goes by $DWGCODEPAGE, which from R2007 on no longer counts: DXF is UTF-8 then
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": STEP_DEG, "DXF_ENCODING": "UTF-8"})
    meta, _, shapes, fields = pyogrio.raw.read(file)
    columns = dict(zip(meta["fields"], fields, strict=True))
    words = [text or "" for text in columns["Text"]]
    return list(zip(columns["Layer"], shapely.from_wkb(shapes), words, strict=True))


def up(x: float, y: float) -> tuple[float, float]:
    return (x, HEIGHT - y)


def test_check_squares_measure_100_mm_and_4_in(tmp_path: FilePath) -> None:
    (_, inner, _), (_, outer, _), *_ = read(check_squares((14.0, 178.0)), tmp_path)
    assert inner.length / 4 == pytest.approx(100.0, abs=0.001)
    assert outer.length / 4 == pytest.approx(4 * 25.4, abs=0.001)
    assert inner.bounds == pytest.approx((14.0, 300 - 278.0, 114.0, 300 - 178.0), abs=0.001)


def test_layers_are_those_of_the_elements(tmp_path: FilePath) -> None:
    lines = [Line(((0.0, 0.0), (1.0, 1.0)), layer=name) for name in ("saw", "drill", "saw")]
    assert [layer for layer, *_ in read(tuple(lines), tmp_path)] == ["saw", "drill", "saw"]


@pytest.mark.parametrize("way", ["clockwise", "anticlockwise"])
@pytest.mark.parametrize("share", [0.25, 0.75])
def test_arc_has_the_length_and_side_of_a_circle(
    way: Literal["clockwise", "anticlockwise"], share: float, tmp_path: FilePath
) -> None:
    longer = share > 0.5
    path = Path((150.0, 100.0), (ArcTo((100.0, 150.0), 50.0, way, longer),))
    ((_, arc, _),) = read((path,), tmp_path)
    # chords of 1 degree are shorter than their arc by t^2/24
    slack = 2 * math.pi * 50 * share * math.radians(STEP_DEG) ** 2 / 24 + 0.001
    assert arc.length == pytest.approx(2 * math.pi * 50 * share, abs=slack)
    # of the two circles through both ends, one has its centre up left on the page, one down right
    centre = (100.0, 100.0) if (way == "clockwise") != longer else (150.0, 150.0)
    gone = [math.dist(point, up(*centre)) for point in arc.coords]
    assert gone == pytest.approx([50.0] * len(gone), abs=0.001)


def test_circle_lies_the_right_way_up(tmp_path: FilePath) -> None:
    ((_, circle, _),) = read((Circle((60.0, 70.0), 12.5),), tmp_path)
    assert circle.bounds == pytest.approx((47.5, 217.5, 72.5, 242.5), abs=0.01)


def test_toned_area_keeps_its_hole(tmp_path: FilePath) -> None:
    outer, hole = Box(20.0, 20.0, 40.0, 40.0).corners, Box(30.0, 30.0, 20.0, 20.0).corners
    ((_, area, _),) = read((Fill(outer, (hole,), "half"),), tmp_path)
    assert area.area == pytest.approx(1600.0 - 400.0, abs=0.01)


def test_words_stand_where_they_were_set(tmp_path: FilePath) -> None:
    ((_, place, words),) = read((Text((30.0, 40.0), "rear edge ± 0.5"),), tmp_path)
    assert (place.x, place.y) == pytest.approx(up(30.0, 40.0))
    assert words == "rear edge ± 0.5"


def test_file_says_it_is_in_millimetres_and_has_no_fault() -> None:
    square = Line(((0.0, 0.0), (10.0, 0.0), (10.0, 10.0)), "hidden", closed=True, layer="saw")
    made = dxf(Drawing(100.0, 100.0, (square, Text((5.0, 5.0), "one", turn_deg=90.0))))
    document = ezdxf.read(StringIO(made.decode("utf-8")))
    assert (document.dxfversion, document.header["$INSUNITS"]) == ("AC1024", 4)
    assert document.audit().errors == []
    line, words = document.modelspace()
    assert (line.dxf.linetype, line.dxf.lineweight, line.closed) == ("HIDDEN", 25, True)
    assert words.dxf.rotation == pytest.approx(-90.0)


def test_every_kind_of_entity_is_read_without_fault() -> None:
    corners, hole = Box(20.0, 20.0, 40.0, 40.0).corners, Box(30.0, 30.0, 20.0, 20.0).corners
    every = (
        Line(((0.0, 0.0), (10.0, 2.0), (3.0, 3.0)), "centre", closed=True, layer="saw"),
        Path((20.0, 20.0), (ArcTo((90.0, 90.0), 80.0), LineTo((1.0, 1.0))), layer="bevel"),
        Fill(corners, (hole,), "half", layer="waste"),
        Circle((60.0, 70.0), 12.5, "hidden", "light", layer="drill"),
        Text((30.0, 40.0), "rear edge ± 0.5", anchor="middle"),
        Text((30.0, 50.0), "front edge", anchor="end", turn_deg=90.0),
    )
    document = ezdxf.read(StringIO(dxf(Drawing(400.0, HEIGHT, every)).decode("utf-8")))
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    read = list(document.modelspace())
    kinds = ["LWPOLYLINE", "LWPOLYLINE", "HATCH", "HATCH", "CIRCLE", "TEXT", "TEXT"]
    assert [one.dxftype() for one in read] == kinds
    assert [one.dxf.layer for one in read] == [
        *("saw", "bevel", "waste", "drill", "drill", "text", "text")
    ]
    assert len({one.dxf.handle for one in read}) == len(read)
    # the next number that a program may give is above all that are taken
    seed = int(document.header["$HANDSEED"], 16)
    assert seed > max(int(handle, 16) for handle in document.entitydb)
    assert (read[0].dxf.linetype, read[0].dxf.lineweight) == ("CENTRE", 25)
    assert len(read[2].paths) == 2
    assert [one.get_align_enum().name for one in read[5:]] == ["CENTER", "RIGHT"]
    assert tuple(read[6].get_placement()[1]) == pytest.approx((*up(30.0, 50.0), 0.0))


def test_drawing_without_height_is_refused() -> None:
    with pytest.raises(ValueError, match="height_mm must be above 0, got 0"):
        dxf(Drawing(10.0, 0.0))
