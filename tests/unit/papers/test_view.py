"""The section is laid through the worst gap, and through wood even if that is at an end."""

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from tests.unit.checks.test_under_carpet import INSIDE
from tests.unit.checks.test_under_carpet import made as over_a_loom
from trimwright.build import load
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import Line, Size, Text
from trimwright.findings import Finding
from trimwright.papers import view
from trimwright.papers.leaf import Leaf


def found(x: float, margin: float) -> Finding:
    """Return a gap at a place along the car."""
    return Finding(
        "clearance",
        f"gap at {x:g}",
        "stop",
        "It hits.",
        "covering",
        figure=margin + 6.0,
        limit=6.0,
        margin=margin,
        at=(x, 60.0, 150.0),
        on=(x, 66.0, 150.0),
    )


@pytest.mark.parametrize(
    ("places", "heading"),
    [
        (((90.0, -3.0), (150.0, -9.0)), "Section 150 mm behind"),
        (((90.0, -9.0), (150.0, -3.0)), "Section 90 mm behind"),
        # the nose is at 40: there is no wood ahead of it
        (((39.8, -9.0),), "Section 45 mm behind"),
    ],
)
def test_the_section_cuts_wood_at_the_worst_gap(
    made: Callable[[int], Cabin], places: tuple[tuple[float, float], ...], heading: str
) -> None:
    findings = tuple(found(*place) for place in places)
    leaf = view.leaves(made(7), findings, "A4")[1]
    assert heading in [one.words for one in leaf.elements if isinstance(one, Text)]
    cut = [one for one in leaf.elements if isinstance(one, Line) and one.pen == "cut"]
    assert any(one.closed for one in cut)
    assert any(one.pen == "hatch" for one in leaf.elements if isinstance(one, Line))


def test_good_findings_have_no_tag_and_no_number(made: Callable[[int], Cabin]) -> None:
    good = Finding(
        "clearance",
        "seat",
        "good",
        "It clears.",
        "covering",
        figure=9.0,
        limit=6.0,
        margin=3.0,
        at=(90.0, 60.0, 150.0),
        on=(90.0, 69.0, 150.0),
    )
    leaf = view.leaves(made(7), (good, found(150.0, -2.0)), "A4")[0]
    bold = [t.words for t in leaf.elements if isinstance(t, Text) and t.face == "count-bold"]
    assert bold.count("1") == 1
    assert "9" not in bold


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_the_demo_is_shown_at_a_fifth_on_either_paper(size: Size) -> None:
    loaded = load(Path(__file__).parents[3] / "examples" / "dunlin" / "first-measured.yaml")
    assert view.leaves(cabin(loaded.build), (), size)[0].scale == "1:5"


def test_a_loom_under_the_carpet_is_drawn_in_plan_as_wide_as_it_is() -> None:
    leaf = view.leaves(over_a_loom(), (), "A4")[0]
    words = [one.words for one in leaf.elements if isinstance(one, Text)]
    assert "loom under the carpet" in " ".join(words)
    bare = view.leaves(over_a_loom(*INSIDE), (), "A4")[0]

    def dashed(one: Leaf) -> list[Line]:
        found = [part for part in one.elements if isinstance(part, Line) and part.pen == "hidden"]
        return [part for part in found if part.closed]

    (across,), (inside,) = dashed(leaf), dashed(bare)
    high, wide = (np.ptp(np.array(one.points), axis=0) for one in (across, inside))
    # across the car from 160 left to 160 right and 8.45 mm wide, rounded at its ends
    assert high[1] / high[0] == pytest.approx((320.0 + 8.45) / 8.45, rel=0.01)
    # along the car from 40 to 600 behind
    assert wide[0] / wide[1] == pytest.approx((560.0 + 8.45) / 8.45, rel=0.01)
