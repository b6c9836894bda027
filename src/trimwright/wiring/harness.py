"""The loom as it is laid out on a board: trunks at true length, loops cut open, branches apart."""

from msgspec import Struct

from trimwright.wiring.board_layout import Point, Twig, outward, spots_of
from trimwright.wiring.loom import trunk_mm
from trimwright.wiring.outcome import WiringOutcome


class Spot(Struct, frozen=True):
    """A point of the board: a place, or the free end of a trunk that was cut off one.

    Attributes
    ----------
    place : str
        The place's name.
    free : bool
        Whether it is the cut end of a trunk that meets the place in the car.
    at : tuple of float
        Where it is on the board [mm], x to the right, y down.
    """

    place: str
    free: bool
    at: Point


class Branch(Struct, frozen=True):
    """A trunk on the board: its number, its two ends and its length [mm]."""

    trunk: int
    start: Spot
    end: Spot
    long_mm: float


class Board(Struct, frozen=True):
    """Trunks that hang together, laid flat; places without a trunk stand alone."""

    spots: tuple[Spot, ...]
    branches: tuple[Branch, ...]

    @property
    def cut(self) -> tuple[Branch, ...]:
        """The trunks that were cut off a place so that no loop is left."""
        return tuple(one for one in self.branches if one.end.free)


def boards(found: WiringOutcome) -> tuple[Board, ...]:
    """Return the loom laid flat: a board for each lot of trunks that hang together.

    Of the trunks that close a loop those with the fewest wires are cut off their far end. Trunks
    are laid square to each other, the whole as compact as goes; where that finds no room they are
    laid at half a square, and failing that fanned out, in wedges that never meet.
    """
    places, twigs = _tree(found)
    return tuple(
        _laid([places[spot] for spot in spots], _renumbered(spots, some))
        for spots, some in _lots(len(places), twigs)
    )


def _tree(found: WiringOutcome) -> tuple[list[tuple[str, bool]], list[Twig]]:
    """Return the spots (place, whether it is a free end) and the trunks between them."""
    wiring, counts = found.wiring, {}
    for number in range(len(wiring.trunks)):
        if wires := found.loom.through(number):
            counts[number] = len(wires)
    used = {end.place for one in found.loom.wires if one.route for end in (one.start, one.end)}
    for number in counts:
        used |= {wiring.trunks[number].start, wiring.trunks[number].end}
    names = [one.name for one in wiring.places if one.name in used]
    spots = [(name, False) for name in names]
    joined = list(range(len(names)))
    twigs = []
    for number in sorted(counts, key=lambda n: (-counts[n], n)):
        trunk = wiring.trunks[number]
        start, end = names.index(trunk.start), names.index(trunk.end)
        if joined[start] == joined[end]:
            spots.append((trunk.end, True))
            end = len(spots) - 1
        else:
            joined = [joined[start] if one == joined[end] else one for one in joined]
        twigs.append(Twig(number, start, end, trunk_mm(trunk, wiring)))
    return spots, twigs


def _lots(count: int, twigs: list[Twig]) -> list[tuple[list[int], list[Twig]]]:
    """Return the spots that hang together, with the trunks between them, in the order of spots."""
    lots = []
    seen: set[int] = set()
    for first in range(count):
        if first in seen:
            continue
        mine, grown = {first}, True
        while grown:
            more = {
                end for one in twigs if mine & {one.start, one.end} for end in (one.start, one.end)
            }
            grown = not more <= mine
            mine |= more
        seen |= mine
        lots.append((sorted(mine), [one for one in twigs if one.start in mine]))
    return lots


def _renumbered(spots: list[int], twigs: list[Twig]) -> list[Twig]:
    """Return trunks by the numbers that their spots have in a list."""
    return [
        Twig(one.trunk, spots.index(one.start), spots.index(one.end), one.long_mm) for one in twigs
    ]


def _laid(places: list[tuple[str, bool]], twigs: list[Twig]) -> Board:
    """Return one lot of trunks laid flat."""
    order = outward(len(places), twigs)
    placed = spots_of(len(places), order)
    spots = [Spot(place, free, at) for (place, free), at in zip(places, placed, strict=True)]
    branches = (
        Branch(one.trunk, spots[one.start], spots[one.end], one.long_mm)
        for one in sorted(order, key=lambda one: one.trunk)
    )
    return Board(tuple(spots), tuple(branches))
