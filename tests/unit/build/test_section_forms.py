"""The ways to write a section that docs show can be read as they stand."""

import re
from pathlib import Path

import pytest

from trimwright.build import Build, parse, readings

PAGE = (Path(__file__).parents[3] / "docs" / "sections.md").read_text("utf-8")
HEAD = (
    "build: Larkfield saloon\nunit: mm\ncar:\n"
    "  datum: {marks: x, top of tunnel here: bare metal, string above tunnel: 210}\n  tunnel:\n"
)


def _one(section: str) -> Build:
    return parse(HEAD + section).build


def test_the_shown_section_between_nails_is_read() -> None:
    shown = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)
    (nails,) = (_one(text).car.tunnel[0].nails for text in shown)
    assert nails is not None
    assert [point.left.value for point in nails.points] == [152, 189, 338, 400]


@pytest.mark.parametrize("point", ["88 left, 30 down", "88 ± 3 left, 30 ± 3 down"])
def test_a_point_with_its_doubt_is_read(point: str) -> None:
    build = _one(f"    - {{at: 300 behind, points: ['{point}', '90 right, 30 down']}}\n")
    doubts = {one.key: one.quantity.doubt for one in readings(build)}
    assert point in PAGE or point.partition(",")[0] in PAGE
    for name in ("off middle", "down"):
        doubt = doubts[f"car.tunnel.0.points.0.{name}"]
        assert doubt is not None
        assert doubt.plus == (3 if "±" in point else 2)


def test_a_decimal_comma_is_no_end_of_a_length() -> None:
    text = (
        "    - at: 300 behind\n      nails:\n        apart: 500\n"
        "        middle: from left 254, from right 253\n        points:\n"
        "          - from left 152,5, from right 402,25 ± 1\n"
    )
    nails = _one(text).car.tunnel[0].nails
    assert nails is not None
    assert (nails.points[0].left.value, nails.points[0].right.value) == (152.5, 402.25)
