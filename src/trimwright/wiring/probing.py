"""Where a meter may be read, and how the car stands for it."""

from collections.abc import Iterator
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from trimwright.build import FEED_SIDE, OTHER_WAY, RUNNING, Wiring
from trimwright.wiring.contacts import MINUS
from trimwright.wiring.fact import DOWN, UP
from trimwright.wiring.logic import Board, Coil, Load, Network, Path, at_rest, paths, wakes
from trimwright.wiring.use import Use

Kind = Literal["load", "feed side", "fuse", "feed", "ground"]


class Probing(Struct, frozen=True):
    """One reading that may be taken.

    Attributes
    ----------
    name : str
        As a builder enters it.
    kind : str
        Across a load or coil, or of what against the battery's minus post.
    of : str
        The device that is read.
    use : Use
        How the car stands for it, and the way of the current that it looks at.
    red, black : str
        The nodes where the two probes go.
    """

    name: str
    kind: Kind
    of: str
    use: Use
    red: str
    black: str


def loads_read(network: Network, found: tuple[Use, ...]) -> tuple[Probing, ...]:
    """Return the reading across each consumer, and on its feed side, for each way of its current.

    Of a consumer's uses the first with the engine stopped, else the first but while cranking, of
    those rather one that every unit wakes into;
    that with the engine running, if its current then takes another way; a reversed motor both ways.
    """
    ends: dict[str, Coil | Load] = {one.name: one for one in network.loads}
    ends |= {one.relay: one for one in network.coils}
    across: list[Probing] = []
    for name, use in _ways(network, found):
        own = ends[use.consumer.name]
        red, black = _sides(network, own, use.path)
        across.append(Probing(name, "load", use.consumer.name, use, red, black))
    sides = [
        Probing(f"{FEED_SIDE}{one.name}", "feed side", one.of, one.use, one.red, MINUS)
        for one in across
    ]
    return (*across, *sides)


def points_read(
    wiring: Wiring, network: Network, loads: tuple[Probing, ...]
) -> tuple[Probing, ...]:
    """Return a reading behind each fuse, at each feed and each ground point that a current passes.

    Each is taken as the car stands for the first reading of a load whose current goes there.
    """
    node = {join.name: join.b for join in network.joins}
    node |= {feed.name: feed.node for feed in network.feeds}
    node |= {one.name: one.b for one in network.contacts}
    node |= {ground.name: f"{ground.name} stud" for ground in wiring.grounds}
    told: tuple[tuple[Kind, tuple[str, ...]], ...] = (
        ("fuse", tuple(one.name for one in wiring.fuses)),
        ("feed", tuple(one.name for one in wiring.feeds)),
        ("ground", tuple(one.name for one in wiring.grounds)),
    )
    found = []
    for kind, names in told:
        for name in names:
            use = next((one.use for one in loads if _passes(one.use.path, name)), None)
            if use is not None:
                found.append(Probing(name, kind, name, use, node[name], MINUS))
    return tuple(found)


def _passes(path: Path, name: str) -> bool:
    """Return whether a current goes through a device or ends at its ground point."""
    return (
        name in path.to or name in path.back or name == path.feed or path.ground == f"{name} stud"
    )


def _ways(network: Network, found: tuple[Use, ...]) -> Iterator[tuple[str, Use]]:
    """Yield each way of each consumer's current, with the words of its reading."""
    by_name: dict[str, list[Use]] = {}
    for use in found:
        if use.mode.engine != "cranking":
            by_name.setdefault(use.consumer.name, []).append(use)
    board = Board(network)
    for name, uses in by_name.items():
        first = min(
            uses, key=lambda use: (use.mode.engine != "stopped", not wakes(board, use.state))
        )
        yield name, first
        turned = _turned(board, first)
        if turned is not None:
            yield f"{name}{OTHER_WAY}", turned
        running = next((use for use in uses if use.mode.supply == "speed"), first)
        if running is not first and running.path != first.path:
            yield f"{name}{RUNNING}", running


def _turned(board: Board, use: Use) -> Use | None:
    """Return the use with the switches that reverse it put the other way; None if none does."""
    swapped = {UP: DOWN, DOWN: UP}
    facts = tuple((name, swapped.get(value, value)) for name, value in use.state.facts)
    seen = None if facts == use.state.facts else at_rest(board, facts, use.state.units)
    if seen is None or not board.holds(use.consumer.fed, seen):
        return None
    (path,) = paths(board, seen, use.consumer.fed)
    return replace(use, state=seen.state, path=path)


def _sides(network: Network, own: Coil | Load, path: Path) -> tuple[str, str]:
    """Return the terminal that the current comes to, and the one it leaves by."""
    last = next((one for one in path.to[::-1]), None)
    ends = {one.name: {one.a, one.b} for one in network.joins}
    ends |= {one.name: {one.a, one.b} for one in network.contacts}
    at = ends[last] if last else {feed.node for feed in network.feeds if feed.name == path.feed}
    return (own.a, own.b) if own.a in at else (own.b, own.a)
