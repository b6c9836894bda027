"""If a wire is rubbed through: behind each fuse what flows, how soon it opens, how warm it gets."""

from collections.abc import Iterator
from functools import partial
from math import ceil, inf

from msgspec import Struct

from trimwright.cabin import Cabin
from trimwright.drawing import Column, Row, Size
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import tabled
from trimwright.papers.wiring.fitting_row import fitting_row
from trimwright.papers.wiring.wire_list import wire_number
from trimwright.papers.wiring.wording import named
from trimwright.quantities import shown_current, shown_seconds
from trimwright.wiring import Rub, Wire, WiringOutcome, dies_with, shorted

NAMES = ("If a wire is rubbed through", "wiring", "rubbed through")
COLUMNS = (
    (Column("wires", 50.0), 50),
    (Column("flows", 30.0), 30),
    (Column("opens after", 54.0), 54),
    (Column("warmest then, and what that wire bears", 52.0), 52),
)
WORDS = (
    "Bare copper pressed on the body at either end of a wire, nothing else on. Most flows with the"
    " engine running and cold wires, least with the engine off and wires as warm as they bear. A"
    " fuse opens after the times of its class at these currents; the latest is what wires are held"
    " to. What only touches passes less and may open no fuse. Disconnect the battery and find the"
    " place before a new fuse goes in."
)
MELTS_C = 1083.0
MOST = 100  # numbers told in one row
STEP_S = 0.01  # to which the time of a short is rounded up


class Group(Struct, frozen=True):
    """Wires of one path that end alike."""

    path: str
    wires: tuple[tuple[Wire, Rub], ...]

    @property
    def rubs(self) -> tuple[Rub, ...]:
        """What happens to each."""
        return tuple(rub for _, rub in self.wires)


def groups(found: WiringOutcome, rubs: tuple[Rub, ...]) -> dict[tuple[str, ...], list[Group]]:
    """Return the wires that the battery reaches, by the fuses that end a short, then by path."""
    told: dict[tuple[str, ...], dict[int, list[tuple[Wire, Rub]]]] = {}
    for wire, rub in zip(found.loom.wires, rubs, strict=False):  # none where nothing is solved
        if rub.fed and rub.solved:
            told.setdefault(rub.fuses, {}).setdefault(wire.path, []).append((wire, rub))
    order = {one.name: number for number, one in enumerate(found.wiring.fuses)}
    return {
        fuses: [Group(found.wiring.paths[path].name, tuple(some)) for path, some in its.items()]
        for fuses, its in sorted(told.items(), key=lambda one: [order[name] for name in one[0]])
    }


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return what a short does, fuse by fuse; none where nothing is solved."""
    found = cabin.wiring
    rubs = () if found is None else shorted(found.wiring, cabin.build.unit)
    if found is None or not rubs:
        return ()
    rows = (*_behind_fuses(found, rubs), *_through_loads(found, rubs), *_dead(found, rubs))
    return tabled(size, cabin.build, NAMES, WORDS, COLUMNS, rows)


def _behind_fuses(found: WiringOutcome, rubs: tuple[Rub, ...]) -> Iterator[Row]:
    """Yield the wires under the fuse that opens, with what goes dead with it."""
    for fuses, some in groups(found, rubs).items():
        yield fitting_row(COLUMNS, partial(_over, found, fuses))
        for one in some:
            yield fitting_row(COLUMNS, partial(_row, one))


def _over(found: WiringOutcome, fuses: tuple[str, ...], most: int) -> Row:
    """Return the fuses that end a short as a heading, with what goes dead with them."""
    if not fuses:
        return Row((), over="No fuse ahead: nothing but melting ends it")
    rated = {one.name: shown_current(one.rated.value) for one in found.wiring.fuses}
    told = " then ".join(f"{name}, {rated[name]}" for name in fuses)
    dead = tuple(dict.fromkeys(load for name in fuses for load in dies_with(found, name)))
    goes = named(dead, most) or "nothing that works"
    return Row((), over=f"{told[:1].upper()}{told[1:]}. With it goes: {goes}")


def _row(one: Group, most: int) -> Row:
    """Return the wires of one path behind one fuse."""
    rubs = one.rubs
    least, largest = min(rub.least_a for rub in rubs), max(rub.most_a for rub in rubs)
    return Row(
        (
            f"{one.path} {_numbers([wire for wire, _ in one.wires], most)}",
            f"{shown_current(least)} to {shown_current(largest)}",
            _opens(rubs),
            _warmest(rubs),
        )
    )


def _opens(rubs: tuple[Rub, ...]) -> str:
    """Return between which times a fuse opens, and which other may open before it."""
    if not rubs[0].fuses:
        return "no fuse"
    soonest, latest = min(one.soonest_s for one in rubs), max(one.latest_s for one in rubs)
    also = dict.fromkeys(name for one in rubs for name in one.also)
    words = f"within {shown_seconds(ceil(latest / STEP_S) * STEP_S if latest < inf else latest)}"
    if latest == inf:
        words = "it may never open"
    elif soonest > 0:
        words = f"{shown_seconds(soonest)} to {shown_seconds(latest)}"
    return f"{words}, or {', '.join(also)} first" if also else words


def _numbers(wires: list[Wire], most: int) -> str:
    """Return the numbers of wires, those of one path that follow each other as a range."""
    runs: list[list[str]] = []
    for number in [wire_number(one) for one in wires]:
        path, own = number.rsplit(".", 1)
        if runs and runs[-1][-1] == f"{path}.{int(own) - 1}":
            runs[-1].append(number)
        else:
            runs.append([number])
    told = [run[0] if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs]
    return named(told, most)


def _warmest(rubs: tuple[Rub, ...]) -> str:
    """Return the wire that gets furthest towards what it bears."""
    known = [one.warmest for one in rubs if one.warmest is not None]
    if not known:
        return "not known"
    hot = max(known, key=lambda one: one.share)
    if hot.celsius >= MELTS_C:
        return f"{hot.wire}: melts"
    return f"{hot.wire}: {hot.celsius:.0f} °C of {hot.bears_c:.0f} °C"


def _through_loads(found: WiringOutcome, rubs: tuple[Rub, ...]) -> Iterator[Row]:
    """Yield the wires between a load and the switch that grounds it."""
    told: dict[tuple[int, tuple[str, ...]], list[tuple[Wire, Rub]]] = {}
    for wire, rub in zip(found.loom.wires, rubs, strict=True):
        if rub.loads:
            told.setdefault((wire.path, rub.loads), []).append((wire, rub))
    if told:
        yield Row((), over="Beyond a load: no fuse opens, the load works by itself")
    for (path, loads), some in told.items():
        name, numbers = found.wiring.paths[path].name, _numbers([wire for wire, _ in some], MOST)
        most = shown_current(max(rub.most_a for _, rub in some))
        yield Row((f"{name} {numbers}", most, "never", f"works: {', '.join(loads)}"))


def _dead(found: WiringOutcome, rubs: tuple[Rub, ...]) -> Iterator[Row]:
    """Yield the wires to ground, and those that could not be solved."""
    ground = [
        wire
        for wire, rub in zip(found.loom.wires, rubs, strict=True)
        if rub.solved and not rub.fed and not rub.loads
    ]
    if ground:
        yield _listed("Ground in every state, nothing flows", ground)
    unsolved = [wire for wire, rub in zip(found.loom.wires, rubs, strict=True) if not rub.solved]
    if unsolved:
        yield _listed("Could not be solved, so not told here", unsolved)


def _listed(words: str, wires: list[Wire]) -> Row:
    """Return wires of which nothing more is told, by their numbers across the whole table."""
    return Row((), over=f"{words}: {_numbers(wires, MOST)}")
