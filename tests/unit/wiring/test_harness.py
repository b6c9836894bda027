"""The loom laid flat: true lengths, loops cut open, nothing on anything else."""

from itertools import combinations
from math import dist

import pytest
from shapely import LineString

from tests.invented_loom import loom_cabin
from trimwright.wiring import Board, WiringOutcome, boards
from trimwright.wiring.board_layout import Twig, fanned, outward, spots_of


def _found() -> WiringOutcome:
    found = loom_cabin().wiring
    assert found is not None
    return found


def test_every_trunk_has_its_true_length() -> None:
    found = _found()
    laid = {one.trunk: one for board in boards(found) for one in board.branches}
    assert set(laid) == {n for n in range(len(found.wiring.trunks)) if found.loom.through(n)}
    for one in laid.values():
        written = found.wiring.trunks[one.trunk].long
        assert written is not None
        assert dist(one.start.at, one.end.at) == pytest.approx(written.value, abs=0.1)


def test_every_wire_is_as_long_on_the_board_as_its_way() -> None:
    found = _found()
    laid = {one.trunk: one for board in boards(found) for one in board.branches}
    for wire in found.loom.wires:
        if wire.route is not None:
            along = [dist(laid[n].start.at, laid[n].end.at) for n in wire.route.trunks]
            assert sum(along) == pytest.approx(wire.route.long_mm, abs=0.1)


def test_of_a_loop_the_trunk_with_the_fewest_wires_is_cut() -> None:
    # dash, tunnel, door: 4 wires to the tunnel, one each way to the door; the later is cut
    (board,) = (one for one in boards(_found()) if one.branches)
    (cut,) = board.cut
    assert (cut.trunk, cut.end.place, cut.end.free) == (4, "door", True)
    named = [(spot.place, spot.free) for spot in board.spots]
    assert sorted(named) == sorted(
        [(name, False) for name in ("engine bay", "fuse box", "dash", "tunnel", "door")]
        + [("door", True)]
    )


def _clear_of_each_other(board: Board) -> bool:
    """Return whether bands that do not meet keep apart, and those that do meet in a point."""
    for a, b in combinations(board.branches, 2):
        first, second = LineString([a.start.at, a.end.at]), LineString([b.start.at, b.end.at])
        meet = {a.start, a.end} & {b.start, b.end}
        if not meet and first.distance(second) < 2.0:
            return False
        if meet and first.intersection(second).length > 1e-6:
            return False
    return True


def test_bands_keep_apart() -> None:
    assert all(_clear_of_each_other(board) for board in boards(_found()))


def test_a_star_of_many_branches_is_fanned_out() -> None:
    count = 14  # more than there are directions at half a square
    order = outward(count, [Twig(n, 0, 1 + n, 400.0 + n) for n in range(count - 1)])
    placed = spots_of(count, order)
    ends = [LineString([placed[one.start], placed[one.end]]) for one in order]
    assert [round(one.length, 6) for one in ends] == [round(one.long_mm, 6) for one in order]
    for a, b in combinations(ends, 2):
        assert a.intersection(b).length == 0.0
        assert dist(a.coords[-1], b.coords[-1]) > 100.0


def test_a_fan_never_crosses_itself() -> None:
    # a short trunk with long ones behind it, three times over
    twigs = []
    for n in range(3):
        hub = 1 + 4 * n
        twigs.append(Twig(4 * n, 0, hub, 60.0))
        twigs += [Twig(4 * n + k, hub, hub + k, 900.0 * k) for k in (1, 2, 3)]
    order = outward(13, twigs)
    placed = fanned(13, order)
    lines = [(one, LineString([placed[one.start], placed[one.end]])) for one in order]
    for (a, first), (b, second) in combinations(lines, 2):
        if not {a.start, a.end} & {b.start, b.end}:
            assert not first.crosses(second)
            assert first.distance(second) > 2.0


def test_trunks_without_a_loop_are_laid_square() -> None:
    order = outward(4, [Twig(0, 0, 1, 500.0), Twig(1, 1, 2, 300.0), Twig(2, 1, 3, 200.0)])
    placed = spots_of(4, order)
    for one in order:
        (x0, y0), (x1, y1) = placed[one.start], placed[one.end]
        assert 0.0 in (x1 - x0, y1 - y0)
