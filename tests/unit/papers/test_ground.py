"""Words that lines run through stand on bare paper, but never where a builder saws along."""

import numpy as np
import pytest

from trimwright.drawing import GapReading, Grade, Line, Text, flat, gap_tag, shoulder_mm
from trimwright.papers.note import areas_of, ground, note, strokes

NONE = np.empty((0, 4))
WORDS = note((10.0, 10.0), "gear lever", 40.0)
THROUGH = strokes((Line(((0.0, 11.5), (60.0, 11.5)), "thin"),))
BELOW = strokes((Line(((0.0, 40.0), (60.0, 40.0)), "thin"),))
READING = GapReading(2.0, 4.0, 6.0, 8.0, "4", "mm", "58 % sure · wanted 8")


def test_words_that_are_struck_through_have_bare_paper_under_them() -> None:
    (patch,) = ground((WORDS,), THROUGH, NONE)
    left, top, right, bottom = WORDS.area
    assert patch.tone == "paper"
    assert np.ptp(patch.points, axis=0) == pytest.approx((right - left, bottom - top))


def test_words_in_the_clear_have_none_and_a_saw_line_is_never_broken() -> None:
    assert ground((WORDS,), BELOW, NONE) == ()
    assert ground((WORDS,), THROUGH, THROUGH) == ()


@pytest.mark.parametrize("gap", [(20.0, 120.0), (38.0, 120.0), (20.0, 20.0), (38.0, 20.0)])
def test_a_leader_goes_round_the_words_of_its_tag(gap: tuple[float, float]) -> None:
    drawn = flat(gap_tag(READING, Grade("stop", 3), gap, (10.0, 60.0)))
    assert 10.0 < gap[0] < 10.0 + shoulder_mm(READING)
    (leader,) = [one for one in drawn if isinstance(one, Line) and one.points[0] == gap]
    words = tuple(one for one in drawn if isinstance(one, Text))
    struck = strokes((leader,))
    for left, top, right, bottom in areas_of(words):
        beside = (right <= struck[:, 0]) | (struck[:, 2] <= left)
        above = (bottom <= struck[:, 1]) | (struck[:, 3] <= top)
        assert bool((beside | above).all())
