"""A wiring diagram shared out to pages, with references where a wire goes on on another."""

from collections.abc import Mapping

from msgspec.structs import replace

from trimwright.build import Wiring
from trimwright.wiring.diagram.column import columns
from trimwright.wiring.diagram.drawn import Diagram, DiagramPage, Symbol, Type
from trimwright.wiring.diagram.page import page
from trimwright.wiring.diagram.part import At, Joint, Part, Port, Side
from trimwright.wiring.diagram.row import rows
from trimwright.wiring.diagram.symbol import PLUS, UNKNOWN, Symbols, symbols
from trimwright.wiring.loom import Loom

AHEAD = 2  # columns more that are tried where one more does not fit
PAGE_COSTS = 3  # as many wires cut between pages are as bad as one page more
Places = dict[tuple[str, str], int]
Room = tuple[float, float]
Made = tuple[DiagramPage, Places]


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
    best: tuple[int, int, list[Made]] | None = None
    for number, room in enumerate(rooms):
        if best is not None and number > 1:
            break
        made = Sheets(found, kind, rails, room).pages()
        if made is not None and (best is None or len(made) < best[0]):
            best = (len(made), number, made)
    if best is None:
        raise ValueError("rooms must hold a part with all its wires, got none that does")
    return Diagram(_numbered(best[2]), _left_out(wiring, loom, found), best[1])


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
        lasts = [n for n in range(1, len(self.order)) if self._starts(first, n)]
        self.bounds = [*lasts, len(self.order)]
        self.cuts: dict[int, int] = {}

    def _starts(self, first: dict[str, int], number: int) -> bool:
        """Return whether a part is the first of its column."""
        return first[self.order[number].name] != first[self.order[number - 1].name]

    def pages(self) -> list[Made] | None:
        """Return the pages, None if a part fits on none: few, and few wires cut between them.

        The least of `PAGE_COSTS` a page and one a wire that is cut, over the ways to share the
        columns out in their order; a column that fits on no page is cut between its parts.
        """
        best: dict[int, tuple[int, list[Made]]] = {0: (0, [])}
        count = len(self.order)
        for start in range(count):
            if start not in best:
                continue
            cost, before = best[start]
            fits = self._ends(start)
            if not fits:
                return None
            for end, made in fits.items():
                total = cost + PAGE_COSTS + self._cut(end)
                if end not in best or total < best[end][0]:
                    best[end] = (total, [*before, made])
        return best[count][1]

    def _ends(self, start: int) -> dict[int, Made]:
        """Return the pages that begin at a part and are worth a try, by where they end."""
        found, far = self._tried(start, [end for end in self.bounds if end > start])
        if not found:
            found, far = self._tried(start, list(range(start + 1, len(self.order) + 1)))
        least = min((self._cut(end) for end in found), default=0)
        return {
            end: made for end, made in found.items() if end == far or self._cut(end) <= least + 1
        }

    def _tried(self, start: int, ends: list[int]) -> tuple[dict[int, Made], int]:
        """Return the pages from a part to some ends that have room, and the farthest end."""
        found: dict[int, Made] = {}
        failed = 0
        for end in ends:
            made = self._fitting(self.order[start:end])
            failed = 0 if made else failed + 1
            if made:
                found[end] = made
            if failed == AHEAD:
                break
        return found, max(found, default=0)

    def _cut(self, end: int) -> int:
        """Return how many joins lead from the parts ahead of a place to those after it."""
        if end not in self.cuts:
            self.cuts[end] = self._crossing(self.order[:end], self.order[end:])
        return self.cuts[end]

    def _crossing(self, taken: list[Part], left: list[Part]) -> int:
        """Return how many joins lead from some parts to others."""
        here, there = ({one.name for one in some} for some in (taken, left))
        return sum(
            1
            for joint in self.found.joints
            if {at.name for at in joint.ends} & here and {at.name for at in joint.ends} & there
        )

    def _fitting(self, taken: list[Part]) -> Made | None:
        """Return a page with some parts; None if it has no room for them."""
        parts, joints = part_page(tuple(taken), self.found.joints, self.found.parts)
        return page(parts, joints, self.kind, self.rails, self.room)


def part_page(
    taken: tuple[Part, ...], joints: tuple[Joint, ...], every: tuple[Part, ...]
) -> tuple[tuple[Part, ...], tuple[Joint, ...]]:
    """Return the parts and joins of a page, with a reference for each end on another."""
    here = {one.name for one in taken}
    parts, found = list(taken), []
    sides = {(p.name, q.terminal): q.side for p in every if not p.turns for q in p.ports}
    for joint in joints:
        away = [at for at in joint.ends if at.what == "port" and at.name not in here]
        ports = [at for at in joint.ends if at.what == "port"]
        if not away and ports:
            found.append(joint)
        elif len(away) == 1 and len(ports) == 2:  # noqa: PLR2004  the other end is here
            other = _reference(joint, away[0], _side(joint, away[0], sides))
            parts.append(other)
            at = At("port", other.name, "half")
            first = joint.start == away[0]
            half = replace(joint, half=2 if first else 1)
            found.append(replace(half, start=at) if first else replace(half, end=at))
    return tuple(parts), tuple(found)


def _side(joint: Joint, away: At, sides: Mapping[tuple[str, str], Side]) -> Side | None:
    """Return the side a reference faces: a wire from one tap to the next leaves downwards."""
    both = {sides.get((at.name, at.terminal)) for at in joint.ends}
    return "top" if both == {"top"} and away == joint.end else None


def _reference(joint: Joint, away: At, side: Side | None) -> Part:
    """Return the mark that stands for an end on another page."""
    half = away.terminal in ("in", "out")
    title = away.name if half else f"{away.name} {away.terminal}"
    return Part(
        f"{joint.name} to {away.name} {away.terminal}",
        away.name,
        "reference",
        (Port("half", 0, side or "top"),),
        1,
        (f"path {UNKNOWN}",),
        turns=side is None,
        title=title,
        refers=(away.name, away.terminal),
    )


def _numbered(made: list[Made]) -> tuple[DiagramPage, ...]:
    """Return pages with their paths numbered through, and what refers to them."""
    first, every = 0, Places()
    starts = []
    for one, places in made:
        starts.append(first)
        every |= {key: number + first for key, number in places.items() if key[1] != "half"}
        first += len(one.heads)
    return tuple(
        _page_numbered(one, start, every) for (one, _), start in zip(made, starts, strict=True)
    )


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
        coil = next(
            (every[part.name, p.terminal] for p in part.ports if p.terminal in ("85", "86")), 0
        )
        contact = next(
            (every[part.name, p.terminal] for p in part.ports if p.terminal not in ("85", "86")), 0
        )
        numbers = [coil, contact]
    words = []
    for one in symbol.words:
        if UNKNOWN in one.text and numbers:
            words.append(replace(one, text=one.text.replace(UNKNOWN, str(numbers.pop(0)))))
        else:
            words.append(one)
    return replace(symbol, words=tuple(words))
