"""The chart of how work grows, on times that are known."""

import re

import pytest

from bench.growth_chart import EDGE, PLOT, Series, growth_chart

POLYLINE = re.compile(r'd="(M[^"Z]+L[^"Z]+L[^"Z]+)"')


def lines(*took_ms: float) -> list[str]:
    """Return the lines of three points or more: first growth in step, then what was timed."""
    return POLYLINE.findall(growth_chart([Series("work", "pieces", (1, 10, 100), took_ms)]))


def test_growth_in_step_lies_on_the_dashed_line() -> None:
    dashed, timed = lines(2.0, 20.0, 200.0)
    assert timed == dashed


@pytest.mark.parametrize(("last_ms", "sign"), [(20_000.0, -1.0), (20.0, 1.0)])
def test_faster_growth_lies_above_and_slower_below(last_ms: float, sign: float) -> None:
    dashed, timed = lines(2.0, 20.0, last_ms)
    ends = [float(line.rsplit(" ", 1)[1]) for line in (dashed, timed)]
    assert sign * (ends[1] - ends[0]) > 0  # down the page is above 0


def test_a_tenfold_of_the_middle_size_stands_half_way() -> None:
    _, timed = lines(2.0, 20.0, 200.0)
    x, y = (float(part) for part in timed.split("L")[1].split(" "))
    assert (x, y) == pytest.approx((EDGE[0] + PLOT[0] / 2, EDGE[1] + PLOT[1] / 2), abs=1e-3)
