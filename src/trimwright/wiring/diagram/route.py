"""Ways of joins across a page: straight down a current path, else over to it, else by a lane."""

from msgspec import Struct, field

from trimwright.wiring.diagram.column import Columns, Key
from trimwright.wiring.diagram.part import At, Joint

# Places down a page are counted: -1 the rails, 2 r - 1 above row r, 2 r below it, last the feet.
# Between 2 r and 2 r + 1 no join runs across: there words stand.
RAIL = -1


class Line(Struct, frozen=True):
    """An upright line that joins run along: a column, or a lane right of a column (-1: of none)."""

    column: int
    lane: int = -1


class Route(Struct, frozen=True):
    """The way of a join: an upright line from a place to one below, and what it meets on the level.

    `line` is None where it runs on the level only, at `top`.
    """

    joint: Joint
    line: Line | None
    top: int
    bottom: int


class Lanes(Struct):
    """The lanes of a page: what they hold from place to place, and which need room for words."""

    held: dict[Line, list[tuple[int, int]]] = field(default_factory=dict)
    wide: set[Line] = field(default_factory=set)


class Router:
    """Finds a way for one join after another."""

    def __init__(self, made: Columns, row: dict[str, int]) -> None:
        """Claim the place of every part."""
        self.made, self.row = made, row
        self.foot = 2 * max(row.values(), default=1) + 2
        self.lanes = Lanes()
        self._claims: dict[tuple[int, int], set[object]] = {}
        for name, part in made.parts.items():
            self._claim_part(name)
            first = made.place[name][0]
            if part.lead_up:
                self._claim(first, RAIL, 2 * row[name] - 1, name)
            if part.lead_down:
                self._claim(first, 2 * row[name], self.foot, name)

    def _claim_part(self, name: str) -> None:
        """Claim where a part stands, from its first slot to its last, and its ports."""
        part, row = self.made.parts[name], self.row[name]
        spots = [self.made.order.index(one) for one in self.made.place[name]]
        for spot in range(min(spots), max(spots) + 1):
            self._claims.setdefault((self.made.order[spot], 4 * row - 1), set()).add(name)
        for port in part.ports:
            key = (name, port.terminal)
            at = 4 * row - 2 if port.side == "top" else 4 * row
            self._claims.setdefault((self.made.place[name][port.slot], at), set()).add(key)

    def _claim(self, column: int, top: int, bottom: int, token: object) -> None:
        """Claim a column from place to place."""
        for spot in range(2 * top, 2 * bottom + 1):
            self._claims.setdefault((column, spot), set()).add(token)

    def _free(self, column: int, top: int, bottom: int, tokens: set[object]) -> bool:
        """Return whether nobody else has claimed a column from place to place."""
        return all(
            self._claims.get((column, spot), set()) <= tokens
            for spot in range(2 * top, 2 * bottom + 1)
        )

    def place(self, at: At) -> int:
        """Return the place down the page of an end."""
        if at.what == "port":
            row = self.row[at.name]
            return 2 * row - 1 if self.made.port(at).side == "top" else 2 * row
        return RAIL if at.what == "rail" else self.foot

    def routes(self, joints: tuple[Joint, ...]) -> tuple[Route, ...]:
        """Return the way of each join: first of those that go straight on, last of those by lanes."""
        owned = set(self.made.owner.values())
        ends = ("rail", "foot")
        first = [one for one in joints if one in owned]
        second = [j for j in joints if j not in owned and {j.start.what, j.end.what} & {*ends}]
        third = [j for j in joints if j not in owned and j not in second]
        found = {one: self._route(one) for one in (*first, *second)}
        found |= {one: self._along(one) for one in third}
        found |= {one: way or self._by_lane(one) for one, way in found.items()}
        return tuple(way for one in joints if (way := found[one]) is not None)

    def _route(self, joint: Joint) -> Route | None:
        """Return the way of a join along a column, a new one where it comes to a rail or foot."""
        found = self._along(joint)
        if found is not None or joint.start.what == joint.end.what == "port":
            return found
        ports = [at for at in joint.ends if at.what == "port"]
        made = self.made
        column = made.after(made.column(ports[0])) if ports else made.new()
        top, bottom = sorted(map(self.place, joint.ends))
        self._claim(column, top, bottom, joint.name)
        return Route(joint, Line(column), top, bottom)

    def _along(self, joint: Joint) -> Route | None:
        """Return the way of a join along the column of one of its ends; None if neither is free."""
        top, bottom = sorted(map(self.place, joint.ends))
        keys: set[object] = {(a.name, a.terminal) for a in joint.ends if a.what == "port"}
        if top == bottom:
            return Route(joint, None, top, bottom)
        for at in self._leaf_first(joint):
            key, column = (at.name, at.terminal), self.made.column(at)
            faces = self.place(at) == (bottom if self.made.port(at).side == "top" else top)
            if not faces or self.made.owner.get(key, joint) != joint:
                continue
            if self._free(column, top, bottom, keys):
                self.made.owner[key] = joint
                self._claim(column, top, bottom, joint.name)
                return Route(joint, Line(column), top, bottom)
        return None

    def _leaf_first(self, joint: Joint) -> list[At]:
        """Return the ports of a join, first the one whose column it goes on in already."""
        ports = [at for at in (joint.end, joint.start) if at.what == "port"]
        owner = self.made.owner
        return sorted(ports, key=lambda at: owner.get((at.name, at.terminal)) != joint)

    def _by_lane(self, joint: Joint) -> Route:
        """Return the way of a join along a lane, as near to both its ends as one is free."""
        top, bottom = sorted(map(self.place, joint.ends))
        passed = [r for r in range(1, self.foot // 2) if top <= 2 * r - 1 and 2 * r <= bottom]
        order = self.made.order
        spans = [
            sorted(map(order.index, self.made.place[name]))
            for name, row in self.row.items()
            if row in passed
        ]
        ends = [order.index(self.made.column(at)) for at in joint.ends]
        gaps = [g for g in range(len(order) + 1) if not any(s[0] < g <= s[-1] for s in spans)]
        gap = min(gaps, key=lambda g: (sum(i - g if i >= g else g - 1 - i for i in ends), g))
        line = self._lane(order[gap - 1] if gap else -1, top, bottom)
        if not passed:
            self.lanes.wide.add(line)
        return Route(joint, line, top, bottom)

    def _lane(self, column: int, top: int, bottom: int) -> Line:
        """Return the first lane right of a column that is free from place to place, and hold it."""
        number = 0
        while any(
            low <= bottom and top <= high
            for low, high in self.lanes.held.get(Line(column, number), [])
        ):
            number += 1
        line = Line(column, number)
        self.lanes.held.setdefault(line, []).append((top, bottom))
        return line


def level_runs(routes: tuple[Route, ...], made: Columns) -> dict[Key, list[Route]]:
    """Return by port the ways that leave it on the level to an upright line beside it."""
    found: dict[Key, list[Route]] = {}
    for way in routes:
        for at in way.joint.ends:
            if way.line is None or at.what != "port":
                continue
            if way.line.lane >= 0 or way.line.column != made.column(at):
                found.setdefault((at.name, at.terminal), []).append(way)
    return found
