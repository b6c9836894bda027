"""How far down everything of a page stands: rows, and between them tracks on the level and words."""

from msgspec import Struct

from trimwright.wiring.diagram.across import Across
from trimwright.wiring.diagram.column import Columns, Key
from trimwright.wiring.diagram.drawn import Type
from trimwright.wiring.diagram.extent import Extent
from trimwright.wiring.diagram.part import Joint
from trimwright.wiring.diagram.route import Line, Route, Router, level_runs

RAILS_FROM_MM, RAIL_STEP_MM = 3.0, 8.0
TRACK_MM, NAMED_TRACK_MM = 3.0, 4.4  # above a track; above one with words along it
AFTER_TRACKS_MM = 1.8
WORDS_MM = 4.4  # between tracks, where words stand beside the upright lines
APART_MM = 2.5  # between two runs on one track
FEET_MM = 12.0  # below the feet, for ground marks and their names
STRIP_MM, HEAD_LINE_MM = 11.0, 3.2  # the strip with one line of words, and each more


class Run(Struct, frozen=True):
    """Something on the level: of a port, or between two; from x to x [mm]."""

    key: Key | Joint
    left: float
    right: float
    named: bool


class Down(Struct):
    """Heights [mm]: of rails and feet, of each row, of words between rows, of runs by place."""

    rails: dict[str, float]
    rows: dict[int, tuple[float, float]]
    words: dict[int, tuple[float, float]]
    runs: dict[tuple[int, Key | Joint], float]
    feet: float
    head_lines: int = 1

    @property
    def strip(self) -> float:
        """Where the strip of numbers begins."""
        return self.feet + FEET_MM

    @property
    def high(self) -> float:
        """Where it ends."""
        return self.strip + STRIP_MM + (self.head_lines - 1) * HEAD_LINE_MM


def runs(
    made: Columns, router: Router, routes: tuple[Route, ...], wide: Across
) -> dict[int, list[Run]]:
    """Return what runs on the level, by its place down the page."""
    found: dict[int, list[Run]] = {}
    for way in routes:
        if way.line is None:
            xs = sorted(wide.column(made, at) for at in way.joint.ends)
            found.setdefault(way.top, []).append(Run(way.joint, xs[0], xs[1], named=True))
    for key, ways in level_runs(routes, made).items():
        port = made.parts[key[0]].port(key[1])
        row = router.row[key[0]]
        x = wide.xs[_column_line(made, key)]
        xs = [x, *(wide.xs[way.line] for way in ways if way.line is not None)]
        place = 2 * row - 1 if port.side == "top" else 2 * row
        found.setdefault(place, []).append(Run(key, min(xs), max(xs), named=False))
    return found


def _column_line(made: Columns, key: Key) -> Line:

    return Line(made.place[key[0]][made.parts[key[0]].port(key[1]).slot])


def tracks(some: list[Run]) -> list[list[Run]]:
    """Return runs shared out to tracks, the shortest first, none on another."""
    found: list[list[Run]] = []
    for run in sorted(some, key=lambda one: (one.right - one.left, one.left)):
        for track in found:
            if all(
                run.right + APART_MM <= one.left or one.right + APART_MM <= run.left
                for one in track
            ):
                track.append(run)
                break
        else:
            found.append([run])
    return found


def down(
    made: Columns,
    router: Router,
    routes: tuple[Route, ...],
    told: tuple[Across, dict[str, Extent], tuple[str, ...], Type],
    high_mm: float,
    head_lines: int,
) -> Down:
    """Return how far down everything stands; what is left of the height goes between the rows."""
    wide, room, rails, kind = told
    level = runs(made, router, routes, wide)
    deep = max(router.row.values(), default=1)
    tall = _row_heights(router, routes, room, kind)
    shared = {place: tracks(some) for place, some in level.items()}
    least = _stacked(shared, tall, rails, deep, 0.0)
    least.head_lines = head_lines
    found = _stacked(shared, tall, rails, deep, max(0.0, high_mm - least.high) / (deep + 1))
    found.head_lines = head_lines
    return found


def _row_heights(
    router: Router, routes: tuple[Route, ...], room: dict[str, Extent], kind: Type
) -> dict[int, float]:
    """Return how high each row is: its highest part, or words along a lane that passes it."""
    tall: dict[int, float] = {}
    for name, row in router.row.items():
        tall[row] = max(tall.get(row, 0.0), room[name].high)
    for way in routes:
        row = label_row(way, tall)
        if row:
            tall[row] = max(tall[row], kind.wide(way.joint.label) + 1.5)
    return tall


def label_row(way: Route, tall: dict[int, float]) -> int:
    """Return the row beside which words stand along a lane; 0 where they stand elsewhere."""
    if way.line is None or way.line.lane < 0:
        return 0
    passed = [r for r in sorted(tall) if way.top <= 2 * r - 1 and 2 * r <= way.bottom]
    return max(passed, key=lambda r: tall[r], default=0)


def _stacked(
    shared: dict[int, list[list[Run]]],
    tall: dict[int, float],
    rails: tuple[str, ...],
    deep: int,
    more: float,
) -> Down:
    """Return heights from the top down, with more room for words between rows."""
    y = RAILS_FROM_MM + RAIL_STEP_MM * max(0, len(rails) - 1)
    found = Down(
        {name: RAILS_FROM_MM + RAIL_STEP_MM * n for n, name in enumerate(rails)}, {}, {}, {}, 0.0
    )
    for channel in range(deep + 1):
        y = _tracks(shared.get(2 * channel, []), 2 * channel, y, found)
        found.words[channel] = (y, y + WORDS_MM + more)
        y += WORDS_MM + more
        lower = shared.get(2 * channel + 1, [])
        y = _tracks(lower[::-1], 2 * channel + 1, y, found)
        if channel < deep:
            found.rows[channel + 1] = (y, y + tall[channel + 1])
            y += tall[channel + 1]
    found.feet = y
    return found


def _tracks(some: list[list[Run]], place: int, y: float, found: Down) -> float:
    """Give each track its height, and return where they end [mm]."""
    for track in some:
        y += NAMED_TRACK_MM if any(run.named for run in track) else TRACK_MM
        for run in track:
            found.runs[place, run.key] = y
    return y + AFTER_TRACKS_MM if some else y
