"""The findings sheet and the page for the trimmer say what is locked, and what was written of it."""

from collections.abc import Callable
from pathlib import Path

import pytest
from msgspec.structs import replace

from start import DEMO
from tests.unit.papers.conftest import build_text
from tests.unit.papers.test_words_keep_apart import found
from trimwright.build import parse
from trimwright.cabin import Cabin, cabin
from trimwright.checks import worth_before
from trimwright.drawing import Fill, Text, flat
from trimwright.findings import Finding
from trimwright.papers import before_trimmer, findings_sheet
from trimwright.papers.leaf import Leaf

REASON = "the boot hides the knock"
FOUND: tuple[Finding, ...] = (
    replace(found(1), place="nose", lock="wood is cut"),
    replace(found(2), place="left seat"),
    replace(found(3), place="handbrake", says=f"It hits. Left as it is: {REASON}."),
)
LEFT = f"left as is:\n  - {{finding: handbrake, because: {REASON}}}\n"


@pytest.fixture
def built(made: Callable[[int], Cabin]) -> Callable[[str], Cabin]:
    """Return what makes the cabin of a build with lines added to it."""
    del made  # only that nothing rests on carpet
    return lambda more: cabin(parse(build_text(1) + more).build)


def words(leaves: tuple[Leaf, ...]) -> str:
    """Return the words of pages in the order they are drawn."""
    drawn = (one for leaf in leaves for one in flat(leaf.elements))
    return " ".join(one.words for one in drawn if isinstance(one, Text))


def test_locks_stand_over_their_findings_in_the_order_of_the_work(
    built: Callable[[str], Cabin],
) -> None:
    said = words(findings_sheet.leaves(built(""), FOUND, "A4"))
    order = [said.index(one) for one in ("Before wood is cut", " nose ", "Before covering", "seat")]
    assert order == sorted(order)
    assert "glue-up" not in said


def test_a_lock_that_is_behind_the_builder_is_told_so(built: Callable[[str], Cabin]) -> None:
    locked = built("locked:\n  - {lock: covering}\n" + LEFT)
    said = words(findings_sheet.leaves(locked, FOUND, "A4"))
    assert "Locked by covering" in said
    assert "Before wood is cut" in said
    assert REASON in said
    assert said.count(findings_sheet.UNWRITTEN) == 1  # the seat; the wood can still be cut


@pytest.mark.parametrize("locked", [True, False])
def test_the_page_for_the_trimmer_says_whether_covering_is_locked(
    built: Callable[[str], Cabin], *, locked: bool
) -> None:
    more = "locked:\n  - {lock: covering}\n" if locked else ""
    said = words(before_trimmer.leaves(built(more + LEFT), FOUND, "A4"))
    assert ("Locked by covering" in said) is locked
    assert ("Before covering" in said) is not locked
    assert ("locked already" in said) is locked
    assert (findings_sheet.UNWRITTEN.split(" why")[0] in said) is locked
    assert REASON in said


def test_what_finds_no_room_for_the_trimmer_is_counted(built: Callable[[str], Cabin]) -> None:
    many = tuple(replace(found(k), place=f"gap {k}", says="It hits. " * 9) for k in range(1, 40))
    (leaf,) = before_trimmer.leaves(built(""), many, "Letter")
    said = words((leaf,))
    shown = said.count("open gap ")
    assert f"and {39 - shown} more that stand on the findings sheet" in said
    assert 5 < shown < 39


def test_readings_of_a_test_fit_that_are_not_used_are_told(built: Callable[[str], Cabin]) -> None:
    said = words(before_trimmer.leaves(built(""), FOUND, "A4"))
    assert "Readings tried in the car: none yet." in said
    tried = built("test fit:\n  - {probe: nose to dash, reads: 5 mm}\n")
    said = words(before_trimmer.leaves(tried, FOUND, "A4"))
    assert "Readings tried in the car: 1, used here: 0." in said


HOURS = "hours: {covering: 14 h, test fit: 90 min}\n"


def bars(leaves: tuple[Leaf, ...]) -> dict[float, float]:
    """Return how long each solid bar of a page is [mm], by its height on the page."""
    fills = (one for leaf in leaves for one in leaf.elements if isinstance(one, Fill))
    solid = [one.points for one in fills if one.tone == "ink" and len(one.points) == 4]
    return {points[0][1]: points[1][0] - points[0][0] for points in solid}


@pytest.fixture
def mended(root: Path) -> Callable[[str], Cabin]:
    """Return what makes the cabin of the demo, its remedies taken, with lines added to it."""
    text = (root / DEMO).with_name("after-remedies.yaml").read_text("utf-8")
    return lambda more: cabin(parse(text + more).build)


def test_what_is_worth_doing_before_covering_stands_in_bars_to_one_scale(
    mended: Callable[[str], Cabin],
) -> None:
    one = mended(HOURS)
    leaves = before_trimmer.leaves(one, FOUND, "A4")
    tests = worth_before(one, "covering")
    assert len(tests) > 1
    saved = [test.saves_h or 0.0 for test in tests]
    assert saved[0] > 0
    lengths = [long for _, long in sorted(bars(leaves).items())]
    wanted = [hours for hours in saved if hours > 0]
    assert len(lengths) == len(wanted)
    for long, hours in zip(lengths, wanted, strict=True):
        assert long / lengths[0] == pytest.approx(hours / wanted[0])
    (hatched,) = (
        fill.points
        for fill in leaves[0].elements
        if isinstance(fill, Fill) and fill.hatch and fill.points[1][0] - fill.points[0][0] > 20
    )
    takes = hatched[1][0] - hatched[0][0]
    assert takes / lengths[0] == pytest.approx(1.5 / wanted[0])
    said = words(leaves)
    assert "saves of the 14 h" in said
    assert "1.5 h" in said


@pytest.mark.parametrize(
    "more", ["", "hours: {refit: 2 h}\n", HOURS + "locked:\n  - {lock: covering}\n"]
)
def test_without_hours_or_behind_the_lock_nothing_is_weighed(
    mended: Callable[[str], Cabin], more: str
) -> None:
    leaves = before_trimmer.leaves(mended(more), FOUND, "A4")
    assert "Worth doing first" not in words(leaves)
    assert bars(leaves) == {}


def test_the_table_ends_above_the_bars(mended: Callable[[str], Cabin]) -> None:
    many = tuple(replace(found(k), place=f"gap {k}", says="It hits. " * 9) for k in range(1, 40))
    leaves = before_trimmer.leaves(mended(HOURS), many, "Letter")
    drawn = [one for leaf in leaves for one in flat(leaf.elements) if isinstance(one, Text)]
    (head,) = (one.at[1] for one in drawn if one.words.startswith("Worth doing first"))
    (more,) = (one.at[1] for one in drawn if "more that stand" in one.words)
    assert max(one.at[1] for one in drawn if one.words.startswith("gap ")) < more < head
    assert "builder, date" in words(leaves)
    assert max(bars(leaves)) < min(one.at[1] for one in drawn if "Adhesives" in one.words)
