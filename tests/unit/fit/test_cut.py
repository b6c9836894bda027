import pytest

from tests.unit.checks.small_build import CONSOLE, text
from trimwright.build import Build, edited, parse
from trimwright.fit import Cut, cuts
from trimwright.fit.cut import read_back, step_mm, stepped, written

HOLE = "  openings:\n    - {name: gear lever, at: 215 behind, long: 160, wide: 130, corner: 25}\n"
TEXT = text("Cuts", console=CONSOLE + HOLE)


def build(written_as: str = TEXT) -> Build:
    """Return a build with one opening."""
    return parse(written_as).build


def by_name(one: Build, most_mm: float = 1e9) -> dict[str, Cut]:
    """Return the cuts of a build by name; one that takes more than a bound leaves no console."""

    def buildable(after: Build) -> bool:
        console = after.console
        assert console is not None
        return console.trims.nose_lower_by.value <= most_mm

    return {cut.name: cut for cut in cuts(one, buildable)}


def test_every_cut_writes_what_it_computes_with() -> None:
    found = by_name(build())
    assert len(found) == 7
    for cut in found.values():
        after = parse(edited(TEXT, cut.edits(4.0, "mm"))).build
        assert after == cut.applied(build(), 4.0), cut.name
        assert after != build(), cut.name


@pytest.mark.parametrize(
    ("name", "key", "most"),
    [
        # 190 high less the 60 a wall needs is 130; a nose is not cut by more than 40
        ("lower the nose", "trims.nose lower by", 40.0),
        ("scribe deeper", "scribe.deeper by", 25.0),
        ("set the left wall in", "trims.left wall in by", 25.0),
        # (236 wide - 2 x 18 of rim - 130) / 2 a side is 35; a gap of 25 is seen as a mistake
        ("open up the gear lever opening, wide", "openings.0.wide", 25.0),
    ],
)
def test_how_far_a_cut_may_go(name: str, key: str, most: float) -> None:
    cut = by_name(build())[name]
    assert ".".join(map(str, cut.path)) == f"console.{key}"
    assert cut.most_mm == most


def test_a_cut_stops_where_no_console_is_left() -> None:
    most = by_name(build(), most_mm=12.2)["lower the nose"].most_mm
    assert 12.2 - step_mm("mm") <= most <= 12.2
    assert "lower the nose" not in by_name(build(), most_mm=0.0)


def test_what_was_cut_before_is_counted() -> None:
    cut = by_name(build(TEXT + "  trims: {nose lower by: 15}\n"))["lower the nose"]
    assert (cut.now_mm, cut.most_mm) == (15.0, 25.0)
    assert cut.edits(2.5, "mm")[0].value == "17.5 mm"


def test_opening_up_takes_as_much_off_either_side() -> None:
    cut = by_name(build())["open up the gear lever opening, wide"]
    after = cut.applied(build(), 3.0).console
    assert after is not None
    assert after.openings[0].wide.value == 136.0


@pytest.mark.parametrize(
    ("mm", "unit", "set_to"),
    [(7.0, "mm", 7.0), (7.01, "mm", 7.5), (0.2, "mm", 0.5), (0.79375, "in", 0.79375)],
)
def test_a_saw_is_set_up_and_never_down(mm: float, unit: str, set_to: float) -> None:
    assert stepped(mm, unit) == pytest.approx(set_to, abs=1e-9)  # type: ignore[arg-type]  # mm or in


@pytest.mark.parametrize("steps", [1, 5, 31, 32, 40, 1000])
def test_inches_are_written_without_loss(steps: int) -> None:
    # 1/32 in is 25.4 / 32 mm by definition of the inch
    mm = steps * 25.4 / 32
    assert read_back(written(mm, "in"), "in") == pytest.approx(mm, abs=1e-9)


def test_without_a_console_there_is_nothing_to_cut() -> None:
    with pytest.raises(ValueError, match="build must have a console"):
        cuts(build(text("No console", console="")), lambda _: True)


IN = """
build: Inches
unit: in
car:
  tunnel: [{at: 12 behind, height above floor: 7, width at shoulder: 7 1/2, width at floor: 13}]
console:
  deck height: 7 1/2
  width: 9 1/4
  from: 2 3/4 ahead
  to: 27 behind
"""


@pytest.mark.parametrize("text_of", [TEXT, IN], ids=["mm", "in"])
def test_the_most_is_what_a_saw_is_set_to_and_is_written_as_it_is(text_of: str) -> None:
    # 25 mm is 31.5 steps of 1/32 in: written to the next 64th, a bound would be passed
    one = build(text_of)
    for cut in by_name(one, most_mm=12.2).values():
        steps = cut.most_mm / step_mm(one.unit)
        assert steps == pytest.approx(round(steps), abs=1e-6), cut.name
        (edit,) = cut.edits(cut.most_mm, one.unit)
        cut_to = read_back(str(edit.value), one.unit)
        assert cut_to == pytest.approx(cut.now_mm + cut.per_mm * cut.most_mm, abs=1e-9), cut.name
