"""A wiring diagram shared out to pages, with references where a wire goes on on another."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from trimwright.build import Wiring
from trimwright.wiring.diagram.column import columns
from trimwright.wiring.diagram.drawn import Diagram, DiagramPage, Symbol, Type
from trimwright.wiring.diagram.page import page
from trimwright.wiring.diagram.part import At, Joint, Part, Port
from trimwright.wiring.diagram.row import rows
from trimwright.wiring.diagram.symbol import PLUS, UNKNOWN, Symbols, symbols
from trimwright.wiring.loom import Loom

GUESS = 16  # parts that a page is tried with first
WORTH = 0.7  # of what fits on a page, that it must hold to be cut where fewer wires cross
Places = dict[tuple[str, str], int]
Room = tuple[float, float]


def diagram(
    wiring: Wiring, loom: Loom, labels: Mapping[str, str], kind: Type, rooms: tuple[Room, ...]
) -> Diagram:
    """Return a wiring's diagram in current-path form.

    Parameters
    ----------
    wiring, loom : Wiring, Loom
        The build's, and its wires.
    labels : mapping of str to str
        Size and colour of each wire, by its name.
    kind : Type
        How words are set.
    rooms : tuple of (float, float)
        Width and height that a page has [mm]: of a sheet lying and standing, then of larger ones.
        The first that needs the fewest pages is taken.

    Raises
    ------
    ValueError
        If a part with all that is joined to it fits on none of them.

    References
    ----------
    IEC 61082-1:2014 (circuit diagrams); IEC 60617 (symbols)
    """
    found = symbols(wiring, loom, labels)
    rails = (PLUS, *(feed.name for feed in wiring.feeds))
    best: tuple[int, int, list[tuple[DiagramPage, Places]]] | None = None
    for number, room in enumerate(rooms):
        made = Sheets(found, kind, rails, room).pages()
        if made is not None and (best is None or (number < 2 and len(made) < best[0])):  # noqa: PLR2004
            best = (len(made), number, made)
    if best is None:
        raise ValueError("rooms must hold a part with all its wires, got none that does")
    return Diagram(_numbered(best[2]), _left_out(wiring, loom, found), best[1] % 2 == 0, best[1])


def _left_out(wiring: Wiring, loom: Loom, found: Symbols) -> tuple[str, ...]:
    """Return what stands on no page: devices that no wire comes to, wires from a thing to itself."""
    named = {one.device for one in found.parts}
    named |= {at.name for joint in found.joints for at in joint.ends}
    groups = (
        wiring.feeds, wiring.grounds, wiring.fuses, wiring.switches, wiring.relays, wiring.plugs,
        wiring.splices, wiring.loads,
    )  # fmt: skip
    lone = [one.name for group in groups for one in group if one.name not in named]
    sources = (("battery", wiring.battery), ("alternator", wiring.alternator))
    lone += [name for name, own in sources if own is not None and name not in named]
    drawn = {joint.name for joint in found.joints}
    own = [f"wire {one.name}" for one in loom.wires if one.name not in drawn]
    return (*lone, *own)


class Sheets:
    """Shares parts out to pages of one size."""

    def __init__(self, found: Symbols, kind: Type, rails: tuple[str, ...], room: Room) -> None:
        """Take the parts in the order in which they stand beside one another."""
        self.found, self.kind, self.rails, self.room = found, kind, rails, room
        made = columns(found.parts, found.joints)
        row = rows(made, found.joints)
        spot = {c: n for n, c in enumerate(made.order)}
        first = {name: min(spot[c] for c in own) for name, own in made.place.items()}
        self.order = sorted(found.parts, key=lambda one: (first[one.name], row[one.name]))

    def pages(self) -> list[tuple[DiagramPage, Places]] | None:
        """Return the pages, None if a part fits on none."""
        left, found = list(self.order), []
        while left:
            taken = self._most(left)
            if taken is None:
                return None
            count, made = taken
            found.append(made)
            left = left[count:]
        return found

    def _most(self, left: list[Part]) -> tuple[int, tuple[DiagramPage, Places]] | None:
        """Return how many parts the next page takes, and the page."""
        best, made = 0, None
        count = min(GUESS, len(left))
        tried: dict[int, tuple[DiagramPage, Places] | None] = {}
        while 0 < count <= len(left) and count not in tried:
            tried[count] = self._fitting(left[:count])
            if tried[count] is not None:
                best, made = count, tried[count]
            count += 1 if tried[count] is not None else -1
        if made is None:
            return None
        if best == len(left):
            return best, made
        for fewer in self._cuts(left, best):
            shorter = tried.get(fewer) or self._fitting(left[:fewer])
            if shorter is not None:
                return fewer, shorter
        return best, made

    def _cuts(self, left: list[Part], most: int) -> Iterator[int]:
        """Yield how many parts to take, first where the fewest joins are cut."""
        counts = range(max(1, round(WORTH * most)), most + 1)
        yield from sorted(counts, key=lambda n: (self._crossing(left[:n], left[n:]), -n))

    def _crossing(self, taken: list[Part], left: list[Part]) -> int:
        """Return how many joins lead from some parts to others."""
        here, there = ({one.name for one in some} for some in (taken, left))
        return sum(
            1
            for joint in self.found.joints
            if {at.name for at in joint.ends} & here and {at.name for at in joint.ends} & there
        )

    def _fitting(self, taken: list[Part]) -> tuple[DiagramPage, Places] | None:
        """Return a page with some parts; None if it has no room for them."""
        parts, joints = part_page(tuple(taken), self.found.joints)
        made = page(parts, joints, self.kind, self.rails, self.room[1])
        fits = made[0].width_mm <= self.room[0] and made[0].height_mm <= self.room[1] + 1e-6
        return made if fits else None


def part_page(
    taken: tuple[Part, ...], joints: tuple[Joint, ...]
) -> tuple[tuple[Part, ...], tuple[Joint, ...]]:
    """Return the parts and joins of a page, with a reference for each end on another."""
    here = {one.name for one in taken}
    parts, found = list(taken), []
    for joint in joints:
        away = [at for at in joint.ends if at.what == "port" and at.name not in here]
        ports = [at for at in joint.ends if at.what == "port"]
        if not away and ports:
            found.append(joint)
        elif len(away) == 1 and len(ports) == 2:  # noqa: PLR2004  the other end is here
            other = _reference(joint, away[0])
            parts.append(other)
            at = At("port", other.name, "half")
            first = joint.start == away[0]
            half = replace(joint, half=2 if first else 1)
            found.append(replace(half, start=at) if first else replace(half, end=at))
    return tuple(parts), tuple(found)


def _reference(joint: Joint, away: At) -> Part:
    """Return the mark that stands for an end on another page."""
    half = away.terminal in ("in", "out")
    title = away.name if half else f"{away.name} {away.terminal}"
    return Part(
        f"{joint.name} to {away.name} {away.terminal}",
        away.name,
        "reference",
        (Port("half", 0, "top"),),
        1,
        (f"path {UNKNOWN}",),
        turns=True,
        title=title,
        refers=(away.name, away.terminal),
    )


def _numbered(made: list[tuple[DiagramPage, Places]]) -> tuple[DiagramPage, ...]:
    """Return pages with their paths numbered through, and what refers to them."""
    first, every = 0, Places()
    starts = []
    for one, places in made:
        starts.append(first)
        every |= {key: number + first for key, number in places.items() if key[1] != "half"}
        first += len(one.heads)
    return tuple(_page_numbered(one, start, every) for (one, _), start in zip(made, starts, strict=True))


def _page_numbered(one: DiagramPage, start: int, every: Places) -> DiagramPage:
    """Return one page with the numbers of its paths."""
    return replace(
        one,
        heads=tuple(replace(head, number=head.number + start) for head in one.heads),
        symbols=tuple(_symbol_numbered(symbol, every) for symbol in one.symbols),
    )


def _symbol_numbered(symbol: Symbol, every: Places) -> Symbol:
    """Return a symbol with the numbers of the paths that it names."""
    part = symbol.part
    numbers: list[int] = []
    if part.kind == "reference":
        numbers = [every[part.refers]]
    elif part.kind == "relay":
        coil = next((every[part.name, p.terminal] for p in part.ports if p.terminal in ("85", "86")), 0)
        contact = next((every[part.name, p.terminal] for p in part.ports if p.terminal not in ("85", "86")), 0)
        numbers = [coil, contact]
    words = []
    for one in symbol.words:
        if UNKNOWN in one.text and numbers:
            words.append(replace(one, text=one.text.replace(UNKNOWN, str(numbers.pop(0)))))
        else:
            words.append(one)
    return replace(symbol, words=tuple(words))
