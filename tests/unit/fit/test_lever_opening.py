"""The shaft passes its opening where the shaft is, not on the line to a knob that stands off it."""

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from trimwright.car import LeverPositions
from trimwright.fit.lever_opening import shafts
from trimwright.parts import Frame


def test_a_bent_lever_passes_on_the_line_of_its_shaft() -> None:
    frame = Frame((100.0, 0.0, 180.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    scene: Any = SimpleNamespace(
        placed=lambda points: points[None], motion=np.zeros((1, 3))
    )  # a console that rests as drawn
    panel: Any = SimpleNamespace(frame=frame)
    tops = np.array([[[150.0, 0, 280]]])
    pivot, one = np.array([[150.0, 0, -20]]), np.ones(1)
    stick = LeverPositions(
        gears=("neutral",),
        knobs=tops + np.array([-40.0, 6, 0]),
        tops=tops,
        pivot=pivot,
        shaft_radius=one,
        knob_radius=one,
        residual_mm=0.0,
        bent=True,
        across=one,
        along=one,
    )
    place = shafts(scene, stick, panel, (50.0, 0.0)).at(np.zeros(1))
    assert place[0, 0] == pytest.approx([0, 0], abs=1e-9)  # in the middle, 40 mm behind the knob
