"""The page draws what the papers draw: the same points, nothing of its own."""

import re
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from tests.unit.app.every_key import LONG, SHORT
from trimwright.app.answer import fit
from trimwright.app.message import Place, ViewMessage
from trimwright.app.screen import views
from trimwright.build import InputError, Lever, Loaded, edited, load, parse, written
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.drawing import Circle, Fill, Line, Text, flat
from trimwright.drawing.gap_tag import BAR_MM
from trimwright.findings import Edit
from trimwright.papers import view
from trimwright.papers.car_shape import car_shape, rest_of
from trimwright.papers.detail_view import LEAST_MM, MOST_MM, detail_of
from trimwright.papers.leaf import Leaf
from trimwright.papers.plan_view import draw_plan
from trimwright.papers.section_view import draw_section
from trimwright.papers.side_view import draw_side
from trimwright.papers.view_sheet import CROSS_MM, ViewSheet

EXAMPLES = Path(__file__).parents[3] / "examples"
FILES = ("dunlin/first-measured.yaml", "fifteen-minutes/build.yaml")
ZERO, SCALE, NEAR_MM = (61.0, 143.0), 2.5, 0.05
AT_MM = 200.0


@pytest.fixture(params=FILES)
def loaded(request: pytest.FixtureRequest) -> Loaded:
    """Return an example as loaded."""
    return load(EXAMPLES / request.param)


def paper(loaded: Loaded) -> dict[str, ViewSheet]:
    """Return the views as the papers draw them, to scale and away from the page's corner."""
    one = cabin(loaded.build)
    car, rest = car_shape(one), rest_of(one)
    sheets = {name: ViewSheet(ZERO, SCALE) for name in ("side", "section", "plan")}
    draw_side(sheets["side"], one, car, rest)
    draw_section(sheets["section"], one, car, rest, AT_MM)
    draw_plan(sheets["plan"], one, car)
    return sheets


def true_size(points: tuple[tuple[float, float], ...]) -> np.ndarray:
    """Return places on the paper in the view's own millimetres."""
    return (np.array(points) - ZERO) * SCALE


def named(loaded: Loaded) -> dict[str, ViewMessage]:
    """Return the page's views by name."""
    return {one.name: one for one in views(loaded, "v", AT_MM).views}


def test_every_stroke_lies_on_a_line_of_the_paper(loaded: Loaded) -> None:
    """Each line of the page is one of the paper's, point by point, to 0.05 mm."""
    for name, sheet in paper(loaded).items():
        lines = [true_size(one.points) for one in sheet.lines if isinstance(one, Line)]
        for stroke in named(loaded)[name].strokes:
            points = np.array(stroke.points)
            if len(points) == 2 and np.ptp(points, axis=0).sum() == 2 * CROSS_MM:
                continue  # the arm of a hole's cross: always as long on the page
            same = [
                a for a in lines if a.shape == points.shape and np.abs(a - points).max() < NEAR_MM
            ]
            assert same, f"{name}: no line of the paper is {stroke.pen} {points[:2].tolist()}"


def test_every_area_and_ring_is_the_papers(loaded: Loaded) -> None:
    """Hatched areas and circles are the paper's too, beside the covers that paper leaves blank."""
    for name, sheet in paper(loaded).items():
        fills = [
            true_size(one.points) for one in sheet.lines if isinstance(one, Fill) and one.hatch
        ]
        rings = [one for one in sheet.lines if isinstance(one, Circle)]
        shown = named(loaded)[name]
        areas = [np.array(one.points) for one in shown.areas if one.fill != "foam"]
        assert [a.shape for a in areas] == [a.shape for a in fills]
        assert all(np.abs(a - b).max() < NEAR_MM for a, b in zip(areas, fills, strict=True))
        assert [round(one.radius, 2) for one in shown.rings] == [
            round(one.radius * SCALE, 2) for one in rings
        ]


def test_zones_are_the_papers(loaded: Loaded) -> None:
    """The figures and letters on paper stand in the middle of what the page calls so."""
    told = named(loaded)["side"].zones
    assert told is not None
    written = {text.words: text.at for one in paper(loaded)["side"].notes for text in one.texts}
    for axis, names, ends in ((0, "123456", told.along), (1, "ABCD", told.down)):
        middles = [(a + b) / 2 for a, b in pairwise(ends)]
        places = [float(true_size((written[name],))[0][axis]) for name in names]
        assert places == pytest.approx(middles, abs=NEAR_MM)


def tagged(leaf: Leaf) -> dict[int, Place]:
    """Return where on a page of views the gaps with a tag are, by the number on their mark."""
    shapes = flat(leaf.elements)
    bars = [
        (k, np.mean(one.points, axis=0))
        for k, one in enumerate(shapes)
        if isinstance(one, Line) and one.pen == "cut" and abs(_long(one) - BAR_MM) < 1e-6
    ]
    found = {}
    for (_, a), (k, b) in zip(bars[::2], bars[1::2], strict=True):
        number = next(one for one in shapes[k:] if isinstance(one, Text) and one.words.isdigit())
        found[int(number.words)] = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    return found


def _long(one: Line) -> float:
    return float(np.hypot(*np.subtract(one.points[0], one.points[-1]))) if not one.closed else 0.0


def test_marks_are_where_the_papers_have_them() -> None:
    """Each gap tagged on paper has the number and the place that the page has for it."""
    loaded = load(EXAMPLES / FILES[0])
    one = cabin(loaded.build)
    leaf = view.leaves(one, all_findings(one), "A4")[0]
    scale = float(leaf.scale.removeprefix("1:"))
    tips = [
        np.array(shape.points[0])
        for shape in leaf.elements
        if isinstance(shape, Fill)
        and shape.tone == "ink"
        and np.ptp(shape.points, axis=0) == pytest.approx((3.6, 3.2))
    ]
    assert len(tips) == 1, "the datum's triangle"
    side = named(loaded)["side"]
    assert side.datum is not None
    found = {said.number: said for said in fit(loaded.build, "v").findings if said.number}
    seen = 0
    for number, place in tagged(leaf).items():
        said = found[number]
        assert said.at is not None
        assert said.on is not None
        middle = np.mean([said.at, said.on], axis=0)
        along = (place[0] - tips[0][0]) * scale + side.datum[0]
        assert along == pytest.approx(middle[0], abs=NEAR_MM)
        if abs(said.on[1] - said.at[1]) < abs(said.on[2] - said.at[2]):  # tagged in the side view
            up = (place[1] - tips[0][1]) * scale + side.datum[1]
            assert up == pytest.approx(-middle[2], abs=NEAR_MM)
            seen += 1
    assert seen > 1


def test_a_dimension_that_is_a_field_can_be_typed_over(loaded: Loaded) -> None:
    """Its path leads to what is typed there, and writing there moves the line by as much."""
    side = named(loaded)["side"]
    rear = next(one for one in side.sizes if one.path == ("console", "to"))
    moved = edited(loaded.text, [Edit(rear.path, "650 mm behind")])
    after = next(one for one in named(parse(moved))["side"].sizes if one.path == ("console", "to"))
    assert after.b[0] == pytest.approx(650.0, abs=NEAR_MM)
    assert rear.typed
    assert rear.b[0] != pytest.approx(650.0, abs=NEAR_MM)


def test_a_level_deck_is_typed_where_the_file_says_it() -> None:
    """One height for the whole deck is one field; a profile has one at each point."""
    short, long = (load(EXAMPLES / name) for name in reversed(FILES))
    paths = [{one.path for one in named(one)["side"].sizes} for one in (short, long)]
    assert ("console", "deck height") in paths[0]
    assert {("console", "deck", 0, "height"), ("console", "deck", 3, "height")} <= paths[1]


def test_a_detail_shows_its_gap_with_wood_and_cover() -> None:
    """Both ends of every gap found lie in its circle; the nose's shows the deck and its cover."""
    loaded = load(EXAMPLES / FILES[0])
    for one in all_findings(cabin(loaded.build)):
        if one.at is None or one.on is None or one.measure != "mm":
            continue
        detail = views(loaded, "v", AT_MM, (one.at, one.on)).detail
        assert detail is not None
        across, up = detail.view.axes
        ends = [(p[across], -p[up]) for p in (one.at, one.on)]
        apart = [float(np.hypot(*np.subtract(end, detail.middle))) for end in ends]
        assert max(apart) < max(detail.radius, abs(one.figure or 0.0))
        assert LEAST_MM <= detail.radius <= MOST_MM
        if one.place == "nose to dash":
            assert {"ply", "foam"} <= {area.fill for area in detail.view.areas}


def test_a_gap_across_the_car_is_seen_in_a_section() -> None:
    """A wall beside a seat is cut across, a nose under a dash lengthways."""
    span = (-70.0, 690.0)
    assert detail_of((620.0, 135.0, -9.0), (620.0, 141.0, -9.0), span).axis == 0
    assert detail_of((-70.0, -102.0, 200.0), (-70.0, -102.0, 204.0), span).axis == 1


def test_edits_that_are_not_written_are_drawn() -> None:
    """A deck cut shorter at the front is drawn shorter; the file's own views stay."""
    loaded = load(EXAMPLES / FILES[0])
    cut = parse(edited(loaded.text, [Edit(("console", "trims", "front shorter by"), "13.5 mm")]))
    lit = [
        min(
            p[0]
            for s in named(one)["side"].strokes
            if s.closed and s.pen == "visible"
            for p in s.points
        )
        for one in (loaded, cut)
    ]
    assert lit[1] - lit[0] == pytest.approx(13.5, abs=NEAR_MM)


def test_a_build_with_nothing_measured_has_empty_views() -> None:
    """What is not known is named, and nothing is drawn in its place."""
    told = views(parse("build: Larkspur\nunit: mm\ncar:\n  carpet: {loose: 15}\n"), "v")
    assert {"the tunnel", "the dash", "the gear lever"} <= set(told.missing)
    assert told.views[0].strokes == ()


def test_the_console_is_drawn_bare_for_a_test_fit_and_as_designed_for_the_saw() -> None:
    """Bare it has no cover line; as cut its nose stands where the file says, not let down."""
    loaded = load(EXAMPLES / FILES[0])
    drawn = {how: views(loaded, "v", AT_MM, None, how) for how in ("covered", "test fit", "as cut")}
    section = {
        how: next(v for v in told.views if v.name == "section") for how, told in drawn.items()
    }
    leather = {how: [s for s in v.strokes if s.pen == "leather"] for how, v in section.items()}
    assert leather["covered"]
    assert not leather["test fit"]
    nose = ("console", "deck", 0, "height")
    figure = next(one for one in drawn["as cut"].views[0].sizes if one.path == nose)
    assert float(figure.words) == 184.0  # as written, no rest added
    at_rest = next(one for one in drawn["test fit"].views[0].sizes if one.path == nose)
    assert float(at_rest.words) > 190.0


def test_the_lever_is_drawn_at_the_ends_of_the_engines_play() -> None:
    """Four more knobs for every gear, each off its own by the play as written."""
    loaded = load(EXAMPLES / FILES[0])
    still = next(v for v in views(loaded, "v").views if v.name == "plan")
    moved = next(
        v for v in views(loaded, "v", None, None, "engine moved").views if v.name == "plan"
    )
    lever = loaded.build.car.lever
    gears = len(lever.moves) if isinstance(lever, Lever) else 0
    assert gears > 0
    assert len(moved.rings) == len(still.rings) + 4 * gears
    play = loaded.build.car.engine_moves
    centres = {one.centre for one in moved.rings}
    for ring in still.rings[-gears:]:
        x, y = ring.centre
        for way in ((play.along.value, 0.0), (0.0, play.across.value)):
            spot = np.array([x + way[0], y + way[1]])
            assert min(np.hypot(*(np.array(one) - spot)) for one in centres) < NEAR_MM


@pytest.mark.parametrize("text", [LONG, SHORT], ids=["long", "short"])
def test_whatever_the_file_takes_is_drawn(text: str) -> None:
    """With any one text written anew, or left out, there are views; none falls over."""
    shapes: dict[tuple[str, ...], tuple[str | int, ...]] = {}
    said = written(text)
    for path in said:
        shapes.setdefault(tuple(step for step in path if isinstance(step, str)), path)
    for path in [*shapes.values()][:: 1 if text == SHORT else 4]:
        for other in (bumped(said[path]), None):
            try:
                loaded = parse(edited(text, [Edit(path, other)]))
            except (ValueError, InputError):
                continue
            assert len(views(loaded, "v").views) == 3


def bumped(text: str) -> str:
    """Return a text with its first figure one higher."""
    return re.sub(r"\d+", lambda found: str(int(found[0]) + 1), text, count=1)
