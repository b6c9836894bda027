"""Fuse makers' sheets: the latest and earliest opening at shares of the rating, as printed.

Glass 5 x 20 mm to UL 248-14; miniature, standard and maxi blade fuses (the blade sheets as quoted in
open hardware projects; ISO 8820-3 itself was not read, and nothing here speaks for it).
"""

from math import inf

import pytest

from trimwright.stock import fuse_class
from trimwright.wiring.copper import Fuse, opening_band


@pytest.mark.parametrize(
    ("kind", "percent", "least_s", "most_s"),
    [
        ("glass 5x20", 100, inf, inf),
        ("glass 5x20", 135, 0, 60 * 60),
        ("glass 5x20", 200, 0, 2 * 60),
        ("mini blade", 110, 360_000, inf),
        ("mini blade", 135, 0.75, 600),
        ("mini blade", 200, 0.15, 5),
        ("mini blade", 350, 0.08, 0.5),
        ("mini blade", 600, 0.03, 0.1),
        ("blade", 135, 0.75, 600),
        ("blade", 200, 0.15, 5),
        ("blade", 350, 0.08, 0.5),
        ("blade", 600, 0, 0.15),
        ("maxi blade", 135, 60, 1800),
        ("maxi blade", 200, 2, 50),
        ("maxi blade", 350, 0.2, 7),
        ("maxi blade", 600, 0.04, 1),
        # bolted fuses of type SF51, makers' sheets from memory
        ("bolted", 135, 120, 1800),
        ("bolted", 200, 1, 15),
        ("bolted", 350, 0.3, 5),
        ("bolted", 500, 0.1, 1),
    ],
)
def test_printed_points(kind: str, percent: float, least_s: float, most_s: float) -> None:
    found = fuse_class(kind)
    point = next(one for one in found.points if one.share == percent / 100)
    least, most = opening_band(Fuse(found, 20.0), 20.0 * point.share)
    assert (float(least), float(most)) == pytest.approx((least_s, most_s), rel=1e-9)


def test_the_line_between_two_points_is_not_under_the_point_that_a_sheet_prints_between() -> None:
    # 160 % is printed for the 10 A blade alone: 0.25 to 50 s
    assert float(opening_band(Fuse(fuse_class("blade"), 10.0), 16.0)[1]) >= 50
