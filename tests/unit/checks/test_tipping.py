"""A console that tips has no gaps: nothing is said of them but that, and nothing breaks."""

import pytest

from tests.unit.checks.small_build import CONSOLE, TIPS, fewer_draws, text
from trimwright.build import parse
from trimwright.cabin import Cabin, cabin
from trimwright.checks import all_findings


@pytest.fixture
def tipped(monkeypatch: pytest.MonkeyPatch) -> Cabin:
    """Return a console that a bolt far out pulls over."""
    fewer_draws(monkeypatch)
    return cabin(parse(text("Tips", console=TIPS)).build)


def test_a_console_that_tips_is_a_stop_and_no_gap_is_good(tipped: Cabin) -> None:
    found = all_findings(tipped)
    assert [one.place for one in found if one.grade == "stop"] == ["tipping"]
    gaps = [one for one in found if one.rule == "clearance"]
    assert len(gaps) == 5
    for one in gaps:
        assert (one.grade, one.figure, one.sure) == ("look", None, None)
        assert one.missing == ("a footing, and bolts, with which it does not tip",)


def test_what_tips_is_not_praised_for_its_edges(tipped: Cabin) -> None:
    rests = {one.place: one.grade for one in all_findings(tipped) if one.rule == "rests"}
    assert rests == {"tipping": "stop", "edges on the carpet": "look", "give of the carpet": "look"}


def test_what_tips_is_never_sure(tipped: Cabin) -> None:
    assert tipped.outcome is not None
    assert tipped.outcome.joint is not None
    assert tipped.outcome.joint.value == 0.0
    assert {one.sure.value for one in tipped.outcome.gaps} == {0.0}
    assert tipped.pose is not None
    assert tipped.pose.says("mm") == "as written it tips, loose or done up, and there is no figure."


def test_a_bolt_that_levers_the_console_out_of_its_place_tips_it() -> None:
    # inside the footing, but it would have to roll by 0.155 rad and rise by 48 mm to stay there
    bolt = "  held by:\n    - {bolt: M6, at: 560 behind, off middle: 110 left, torque: 9 N m}\n"
    one = cabin(parse(text("Levered", console=CONSOLE + bolt)).build)
    assert one.outcome is not None
    assert one.outcome.tips > 0.9
    (tipping,) = (f for f in all_findings(one) if f.place == "tipping")
    assert tipping.grade == "stop"
    assert "lever it out of its place" in tipping.says
