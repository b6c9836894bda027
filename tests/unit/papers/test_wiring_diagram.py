"""The wiring diagram, read back from its drawing: every wire once, from terminal to terminal."""

from collections import Counter
from collections.abc import Callable, Hashable
from functools import cache
from pathlib import Path

import pytest

from tests.drawn_wiring import Drawn, Sets, meet, nets_of, on_line, read_back, struck
from tests.invented_wiring import invented_wiring
from tests.small_wiring import changed
from trimwright.build import Build, devices, load, parse
from trimwright.cabin import cabin
from trimwright.drawing import (
    SIZES_OF_TYPE_MM,
    Document,
    Size,
    Text,
    named,
    outline,
    overlaps,
    pdf,
)
from trimwright.papers.leaf import pages
from trimwright.papers.wiring_diagram import leaves, pages_of, set_out
from trimwright.wiring import Wire, WiringOutcome
from trimwright.wiring.diagram import Symbol
from trimwright.wiring.logic import Network
from trimwright.wiring.loom import loom

DEMO = Path(__file__).parents[3] / "examples" / "dunlin" / "first-wired.yaml"
CIRCUITS = (3, 8, 15, 25, 40)
ODD = {
    "lone load": "[always, fuse 1, lamp 1, stud 1]",
    "in series": "[always, fuse 1, lamp 1, lamp 2, stud 1]",
    "from a relay on": "[relay 1 87, lamp 1, stud 1]",
    "upside down": "[stud 1, lamp 1, relay 1 87-30, fuse 1, always]",
    "in a ring": "[fuse 1, lamp 1, lamp 2, fuse 2, fuse 1]",
    "two wires side by side": "[fuse 1, lamp 1, fuse 1, lamp 1]",
    "stud to stud": "[stud 1, stud 2]",
    "feed to feed": "[ignition feed, battery +]",
    "a plug twice": "[fuse 1, plug 1, plug 2, lamp 1]",
    "tall": "[always, fuse 1, " + ", ".join(f"plug {n}" for n in range(1, 31)) + ", lamp 1, stud 1]",
    "wide": "[fuse 1, lamp 1]}" + "".join(
        f"\n    - {{name: w{n}, goes: [fuse 1, lamp {1 + n % 3}]" + "}" * (n < 29) for n in range(30)
    ),
    "to feeds on both sides": "[always, lamp 1, ignition feed]",
}  # fmt: skip
ODD_TEXT = """build: Harlow Petrel
unit: mm
wiring:
  battery: {{}}
  alternator: {{gives: 55 A}}
  feeds: [{{name: always}}, {{name: ignition feed, live: ignition}}]
  grounds: [{{name: stud 1}}, {{name: stud 2}}]
  fuses: [{{name: fuse 1, rated: 10 A}}, {{name: fuse 2, rated: 5 A}}]
  relays: [{{name: relay 1}}]
  plugs: [{{name: plug, cavities: 40}}]
  loads:
    - {{name: lamp 1, kind: lamp}}
    - {{name: lamp 2, kind: lamp}}
    - {{name: lamp 3, kind: LED}}
  paths:
    - {{name: p, goes: {}}}
"""


class Case:
    """A wiring with its diagram set out, its pages drawn, and these read back."""

    def __init__(self, build: Build, size: Size = "A4") -> None:
        """Set out and draw."""
        assert build.wiring is not None
        self.wiring = build.wiring.model_copy(update={"rules": ()})  # they are not proven here
        laid = loom(self.wiring)
        self.outcome = WiringOutcome(self.wiring, laid, Network(), (), None, (), (), (), (), ())
        self.laid, self.build, self.size = laid, build, size
        self.ground, self.made = set_out(self.outcome, build, size)
        self.pages = pages(pages_of(self.outcome, build, size), build)
        self.read = read_back(self.pages[: len(self.made.pages)])

    def symbols(self) -> list[tuple[int, Symbol]]:
        """Return every symbol with the number of its page from 0."""
        return [(n, one) for n, page in enumerate(self.made.pages) for one in page.symbols]

    def ports(self) -> list[tuple[int, str, tuple[float, float]]]:
        """Return where every terminal is: page, name, place; halves of a plug apart."""
        found = []
        for page, symbol in self.symbols():
            for port in symbol.part.ports:
                x, y = symbol.port_point(port.terminal)
                at = (x + self.ground.room.x, y + self.ground.room.y)
                found.append((page, terminal_of(symbol, port.terminal), at))
        return found

    def drawn_wires(self) -> list[Wire]:
        """Return the wires that lead from one terminal to another."""
        return [one for one in self.laid.wires if one.start.node != one.end.node]


def terminal_of(symbol: Symbol, terminal: str) -> str:
    """Return the name of a terminal: of a plug with its half, of a splice one for both sides."""
    part = symbol.part
    if part.kind == "splice":
        return f"{part.device} joint"
    if part.kind == "post":
        down = part.ports[0].side == "bottom"
        return bar_node("ground" if down else "rail", part.device)
    return f"{part.name} {terminal}"


def bar_node(kind: str, name: str) -> str:
    """Return the terminal that a rail or foot is."""
    if kind == "ground":
        return f"{name} stud"
    return name if name == "battery +" else f"{name} out"


@cache
def case(seed: int) -> Case:
    """Return an invented case."""
    wiring = invented_wiring(seed, CIRCUITS[seed % len(CIRCUITS)])
    build = parse("build: Harlow Petrel\nunit: mm\n").build
    size: Size = "Letter" if seed % 2 else "A4"
    return Case(build.model_copy(update={"wiring": wiring}), size)


@cache
def odd(name: str) -> Case:
    """Return a case with a path that hardly anybody would draw."""
    return Case(parse(ODD_TEXT.format(ODD[name])).build)


@cache
def demo() -> Case:
    """Return the example car."""
    return Case(load(DEMO).build)


EVERY = [
    pytest.param(demo, id="demo"),
    *(pytest.param(lambda seed=seed: case(seed), id=f"invented {seed}") for seed in range(12)),
    *(pytest.param(lambda name=name: odd(name), id=name) for name in ODD),
]
each = pytest.mark.parametrize("get", EVERY)


@each
def test_no_words_stand_on_others_or_leave_the_page(get: Callable[[], Case]) -> None:
    one = get()
    assert [overlaps(page) for page in one.pages] == [()] * len(one.pages)


@each
def test_no_line_runs_through_words(get: Callable[[], Case]) -> None:
    assert [struck(page) for page in get().pages if struck(page)] == []


@each
def test_all_stands_in_the_room_above_the_words_and_the_title(get: Callable[[], Case]) -> None:
    one = get()
    room = one.ground.room
    for page in one.pages[: len(one.made.pages)]:
        for group, shape in named(page.drawing.elements):
            if group:
                xs, ys = zip(*outline(shape), strict=True)
                assert room.x - 0.3 <= min(xs), group
                assert max(xs) <= room.right + 0.3, group
                assert room.y - 0.3 <= min(ys), group
                assert max(ys) <= room.bottom + 0.3, group


@each
def test_words_are_of_the_sizes_of_the_system(get: Callable[[], Case]) -> None:
    sizes = {
        shape.size_mm
        for page in get().pages
        for _, shape in named(page.drawing.elements)
        if isinstance(shape, Text)
    }
    assert sizes <= set(SIZES_OF_TYPE_MM)


@each
def test_every_wire_is_drawn_once_or_in_two_halves_that_name_each_other(
    get: Callable[[], Case],
) -> None:
    one = get()
    lines = Counter(d.group for d in one.read.lines if d.group.startswith("wire "))
    halves = Counter(
        symbol.part.name.split(" to ")[0]
        for _, symbol in one.symbols()
        if symbol.part.kind == "reference"
    )
    assert set(lines) == {f"wire {wire.name}" for wire in one.drawn_wires()}
    assert {name: count for name, count in lines.items() if count != 1} == {
        f"wire {name}": count for name, count in halves.items()
    }
    assert set(halves.values()) <= {2}


@each
def test_size_and_colour_stand_along_every_wire(get: Callable[[], Case]) -> None:
    one = get()
    lines = Counter(d.group for d in one.read.lines if d.group.startswith("wire "))
    said = {wire.name: f"{'(?)' if wire.size is None else f'{wire.size.value:g}'} "
            f"{wire.colour or ''}".strip() for wire in one.drawn_wires()}  # fmt: skip
    wanted = Counter(said[group.removeprefix("wire ")] for group in lines.elements())
    assert Counter(label.text for page in one.made.pages for label in page.labels) == wanted


@each
def test_every_device_is_drawn_or_named_as_left_out(get: Callable[[], Case]) -> None:
    one = get()
    shown = {symbol.part.device for _, symbol in one.symbols() if symbol.part.kind != "reference"}
    shown |= {bar.name for page in one.made.pages for bar in page.bars}
    assert {device.name for device in devices(one.wiring)} - set(one.made.left_out) <= shown


@each
def test_the_drawing_joins_what_the_loom_joins(get: Callable[[], Case]) -> None:
    one = get()
    sets, lines = Sets(), one.read.joining()
    for n, line in enumerate(lines):
        name = line.group
        if not name.startswith("lead "):
            kind, _, rest = name.partition(" ")
            sets.join(line.number, name if kind == "wire" else bar_node(kind, rest))
        for other in lines[n + 1 :]:
            if meet(line, other):
                sets.join(line.number, other.number)
    for page, name, at in one.ports():
        for line in lines:
            if line.page == page and on_line(at, line.points):
                sets.join(plain(name, one), line.number)
    wanted = nets_of(one.laid)
    assert sets.of(node for net in wanted for node in net) == wanted


def plain(name: str, one: Case) -> str:
    """Return a terminal without the half of its plug."""
    head, _, half = name.rpartition(" ")
    plugs = {symbol.part.name for _, symbol in one.symbols() if symbol.part.kind == "plug"}
    return head if half in ("in", "out") and head in plugs else name


@each
def test_every_wire_ends_at_its_own_terminals(get: Callable[[], Case]) -> None:
    one = get()
    fixed, sets = fixed_nets(one)
    by_name: dict[str, list[Drawn]] = {}
    for line in one.read.lines:
        by_name.setdefault(line.group, []).append(line)
    for wire in one.drawn_wires():
        touched: set[Hashable] = set()
        for line in by_name[f"wire {wire.name}"]:
            for end in (line.points[0], line.points[-1]):
                touched |= touching(one, sets, fixed, line, end, wire)
        assert touched == {sets.root(half(one, wire, "start")), sets.root(half(one, wire, "end"))}


def fixed_nets(one: Case) -> tuple[list[Drawn], Sets]:
    """Return the lines that are no wires, and what they and the ports join."""
    fixed = [line for line in one.read.joining() if not line.group.startswith("wire ")]
    sets = Sets()
    for n, line in enumerate(fixed):
        if not line.group.startswith("lead "):
            kind, _, rest = line.group.partition(" ")
            sets.join(line.number, bar_node(kind, rest))
        for other in fixed[n + 1 :]:
            if meet(line, other):
                sets.join(line.number, other.number)
    for page, name, at in one.ports():
        sets.root((page, name))
        sets.join((page, name), name if not name.endswith(" half") else (page, name))
        for line in fixed:
            if line.page == page and on_line(at, line.points):
                sets.join(name if not name.endswith(" half") else (page, name), line.number)
    return fixed, sets


def half(one: Case, wire: Wire, which: str) -> str:
    """Return the terminal of an end of a wire, of a plug with its half."""
    end = wire.start if which == "start" else wire.end
    plugs = {symbol.part.name for _, symbol in one.symbols() if symbol.part.kind == "plug"}
    return f"{end.node} {'out' if which == 'start' else 'in'}" if end.node in plugs else end.node


def touching(
    one: Case,
    sets: Sets,
    fixed: list[Drawn],
    line: Drawn,
    end: tuple[float, float],
    wire: Wire,
) -> set[Hashable]:
    """Return what an end of a line touches, but for the mark of its other half."""
    found: set[Hashable] = {
        sets.root(other.number)
        for other in fixed
        if other.page == line.page and on_line(end, other.points)
    }
    for page, name, at in one.ports():
        if page == line.page and on_line(end, (at, at)):
            if name.startswith(f"{wire.name} to ") and name.endswith(" half"):
                continue
            found.add(sets.root(name))
    return found


@each
def test_lines_that_meet_have_a_dot_and_lines_that_cross_have_none(get: Callable[[], Case]) -> None:
    one = get()
    lines = one.read.joining()
    dots = {(page, round(x, 1), round(y, 1)) for page, (x, y) in one.read.dots}
    for page, x, y in dots:
        ends = [
            end
            for line in lines
            if line.page == page
            for end in (line.points[0], line.points[-1])
            if abs(end[0] - x) < 0.1 and abs(end[1] - y) < 0.1
        ]
        assert ends, (page, x, y)
    for line in lines:
        for end in (line.points[0], line.points[-1]):
            inside = [o for o in lines if o is not line and o.page == line.page
                      and on_line(end, o.points) and not at_end(end, o)]  # fmt: skip
            if inside:
                assert (line.page, round(end[0], 1), round(end[1], 1)) in dots, line.group


def at_end(point: tuple[float, float], line: Drawn) -> bool:
    """Return whether a line ends at a point."""
    return any(on_line(point, (end, end)) for end in (line.points[0], line.points[-1]))


def test_the_same_wiring_gives_the_same_bytes() -> None:
    one = case(2)
    again = pages(pages_of(one.outcome, one.build, one.size), one.build)
    assert pdf(Document(one.pages)) == pdf(Document(again))


def test_the_caution_stands_once() -> None:
    words = " ".join(
        shape.words
        for page in demo().pages
        for _, shape in named(page.drawing.elements)
        if isinstance(shape, Text)
    )
    assert words.count("Disconnect the battery before you work on it") == 1


def test_a_control_unit_is_drawn_with_every_terminal_that_a_wire_comes_to() -> None:
    unit = "  units:\n    - {name: start unit, terminals: [30, 31, 50], states: [asleep, awake]}\n"
    paths = (
        "    - {name: unit, goes: [always, fuse 2, start unit 30], size: 1 mm2}\n"
        "    - {name: unit ground, goes: [start unit 31, dash stud], size: 1 mm2}\n"
    )
    cab = cabin(parse(changed(more=paths + unit)).build)
    assert cab.wiring is not None
    _, made = set_out(cab.wiring, cab.build, "A4")
    drawn = next(one for page in made.pages for one in page.symbols if one.part.kind == "unit")
    assert {"start unit", "at rest asleep", "30", "31"} <= {one.text for one in drawn.words}
    for port in drawn.part.ports:
        assert drawn.left < drawn.port_point(port.terminal)[0] < drawn.right
    assert leaves(cab, "A4")


def test_words_that_no_foot_holds_stand_beside_a_narrow_diagram(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    said = tuple(f"Rule {number}: lamp {number} never on while it is dark." for number in range(20))
    monkeypatch.setattr("trimwright.papers.wiring_diagram._said", lambda *_: said)
    one = Case(parse(ODD_TEXT.format(next(iter(ODD.values())))).build)
    assert len(one.pages) == len(one.made.pages)
    told = [
        shape.words
        for page in one.pages
        for _, shape in named(page.drawing.elements)
        if isinstance(shape, Text)
    ]
    assert [words for words in told if words.startswith("Rule ")] == list(said)
    assert [overlaps(page) for page in one.pages] == [()] * len(one.pages)
