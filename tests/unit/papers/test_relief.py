"""A relief over a loom under the carpet, as it is drawn on the panel it is cut from."""

import numpy as np
import pytest

from tests.unit.checks.test_under_carpet import ACROSS, text
from trimwright.build import parse
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import Line
from trimwright.papers.panel_drawing import panel_piece
from trimwright.papers.relief import reliefs
from trimwright.parts import Panel

SLANTED = ("500 behind, 160 left", "620 behind, 160 right")


def _cut(*path: str, relief: str = "cut") -> Cabin:
    written = text(path or ACROSS).replace(
        "      long: 900\n", f"      long: 900\n      relief: {relief}\n"
    )
    return cabin(parse(written).build)


def _wall(one: Cabin, name: str = "left wall") -> Panel:
    assert one.carcass is not None
    return next(panel for panel in one.carcass.panels if panel.name == name)


def test_it_stands_where_the_loom_passes_as_wide_and_high_as_told() -> None:
    one = _cut()
    panel = _wall(one)
    (outline,) = reliefs(one, panel)
    corners = panel.frame.placed(np.array(outline))
    # 560 behind; 8.45 mm thick, under carpet of 15 mm: 2 sqrt(4.22 x 15) either side
    assert corners[:, 0].mean() == pytest.approx(560.0, abs=1.0)
    assert np.ptp(corners[:, 0]) == pytest.approx(2 * 2 * np.sqrt(8.445 / 2 * 15.0), rel=0.01)
    assert np.linalg.norm(corners[1] - corners[0]) == pytest.approx(8.445, abs=0.01)


def test_it_begins_on_the_lower_edge() -> None:
    one = _cut()
    assert one.carcass is not None
    edge = next(edge for edge in one.carcass.lower_edges if edge.panel == "left wall")
    (outline,) = reliefs(one, _wall(one))
    middle = _wall(one).frame.placed((np.array(outline[:1]) + np.array(outline[3:])) / 2)[0]
    near = edge.outer[np.argmin(np.abs(edge.outer[:, 0] - middle[0]))]
    assert abs(float(middle[2] - near[2])) < 1.0


def test_a_loom_on_the_slant_asks_for_a_wider_one() -> None:
    (straight,) = reliefs(_cut(), _wall(_cut()))
    (slanted,) = reliefs(_cut(*SLANTED), _wall(_cut(*SLANTED)))

    def wide(outline: tuple[tuple[float, float], ...]) -> float:
        return float(np.linalg.norm(np.array(outline[3]) - np.array(outline[0])))

    # 120 along for 320 across
    assert wide(slanted) / wide(straight) == pytest.approx(np.hypot(120, 320) / 320, rel=0.01)


def test_it_is_drawn_on_the_panel_with_the_saw_s_pen() -> None:
    one, bare = _cut(), _cut(relief="none")
    assert reliefs(bare, _wall(bare)) == ()
    open_lines = [
        part
        for part in panel_piece(one, _wall(one)).lines
        if isinstance(part, Line) and part.pen == "saw" and not part.closed
    ]
    assert len(open_lines) == 1
    notes = panel_piece(one, _wall(one)).notes
    assert any("relief over the loom" in t.words for note in notes for t in note.texts)
