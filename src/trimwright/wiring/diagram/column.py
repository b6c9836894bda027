"""Which current path of a page every part stands in: chains of parts, one below the other."""

from collections.abc import Iterator

from msgspec import Struct, field

from trimwright.wiring.diagram.part import At, Joint, Part, Port

Key = tuple[str, str]  # a part and its terminal


class Columns(Struct):
    """Parts in columns.

    Attributes
    ----------
    order : list of int
        Columns from left to right.
    parts : dict of str to Part
        By name, the right way up.
    place : dict of str to tuple of int
        The column of each slot of a part.
    owner : dict of Key to Joint
        The join that goes straight on from a port, in its column.
    below : list of (str, str)
        Parts that must stand below others, the surest first: upper, lower.
    """

    order: list[int] = field(default_factory=list)
    parts: dict[str, Part] = field(default_factory=dict)
    place: dict[str, tuple[int, ...]] = field(default_factory=dict)
    owner: dict[Key, Joint] = field(default_factory=dict)
    below: list[tuple[str, str]] = field(default_factory=list)

    def port(self, at: At) -> Port:
        """Return the port that an end is at."""
        return self.parts[at.name].port(at.terminal)

    def column(self, at: At) -> int:
        """Return the column of the port that an end is at."""
        return self.place[at.name][self.port(at).slot]

    def new(self) -> int:
        """Return a column that is new at the right."""
        self.order.append(len(self.order))
        return self.order[-1]

    def after(self, column: int) -> int:
        """Return a column that is new beside another, between no slots of one part."""
        spans = [sorted(map(self.order.index, own)) for own in self.place.values()]
        here = self.order.index(column) + 1
        while any(span[0] < here <= span[-1] for span in spans):
            here += 1
        made = len(self.order)
        self.order.insert(here, made)
        return made


def joined(parts: tuple[Part, ...], joints: tuple[Joint, ...]) -> dict[str, list[tuple[Joint, At]]]:
    """Return by part the joins that come to it, each with its end there, in their order."""
    found: dict[str, list[tuple[Joint, At]]] = {one.name: [] for one in parts}
    for joint in joints:
        for at in joint.ends:
            if at.what == "port":
                found[at.name].append((joint, at))
    return found


def columns(parts: tuple[Part, ...], joints: tuple[Joint, ...]) -> Columns:
    """Return the parts of a page in columns: from each part onwards along its joins.

    The first join that leads down from a port to a port that faces up, or up to one that faces
    down, goes on in the same column; every other opens a column at the right.
    """
    made = Columns(parts={one.name: one for one in parts})
    at_part = joined(parts, joints)
    _rails_first(made, joints)
    for at in _seeds(made, joints):
        if at.name not in made.place:
            made.place[at.name] = _fresh(made, at.name)
            _explore(made, at.name, at_part)
    for one in parts:
        if one.name not in made.place:
            made.place[one.name] = _fresh(made, one.name)
    return made


def _seeds(made: Columns, joints: tuple[Joint, ...]) -> list[At]:
    """Return the ends to begin from, in order: last those at parts that may be turned."""
    ports = [at for joint in joints for at in joint.ends if at.what == "port"]
    return sorted(ports, key=lambda at: made.parts[at.name].turns)


def _fresh(made: Columns, name: str) -> tuple[int, ...]:
    """Return new columns for a part."""
    return tuple(made.new() for _ in range(made.parts[name].slots))


def _rails_first(made: Columns, joints: tuple[Joint, ...]) -> None:
    """Let a join to a rail or foot go straight on from the port it faces."""
    for joint in joints:
        for at, other in ((joint.start, joint.end), (joint.end, joint.start)):
            if at.what != "port" or other.what == "port" or made.parts[at.name].turns:
                continue
            facing = "top" if other.what == "rail" else "bottom"
            key = (at.name, at.terminal)
            if made.port(at).side == facing and key not in made.owner:
                made.owner[key] = joint


def _explore(made: Columns, start: str, at_part: dict[str, list[tuple[Joint, At]]]) -> None:
    """Place all that is joined to a part, and all that is joined to that."""
    waiting = [(start, iter(at_part[start]))]
    while waiting:
        _, left = waiting[-1]
        found = _next(made, left)
        if found is None:
            waiting.pop()
            continue
        joint, here, there = found
        _turn(made, here, there)
        if not _straight(made, joint, here, there):
            made.place[there.name] = _fresh(made, there.name)
        waiting.append((there.name, iter(at_part[there.name])))


def _next(made: Columns, left: Iterator[tuple[Joint, At]]) -> tuple[Joint, At, At] | None:
    """Return the next join of a part that leads to one without a place."""
    for joint, here in left:
        there = joint.other(here)
        if there.what == "port" and there.name not in made.place:
            return joint, here, there
    return None


def _turn(made: Columns, here: At, there: At) -> None:
    """Stand a part that may be turned so that it faces where it is come from."""
    part = made.parts[there.name]
    if part.turns and made.port(there).side == made.port(here).side:
        made.parts[there.name] = part.turned()


def _straight(made: Columns, joint: Joint, here: At, there: At) -> bool:
    """Place a part in the column it is come from, if it can go on there; say whether it does."""
    part, keys = made.parts[there.name], ((here.name, here.terminal), (there.name, there.terminal))
    if made.port(here).side == made.port(there).side or any(key in made.owner for key in keys):
        return False
    column, slot = made.column(here), made.port(there).slot
    if part.slots > 1 and (made.order[-1] != column or slot not in (0, part.slots - 1)):
        return False
    if slot and part.kind != "relay":
        return False  # only a relay's coil may stand at its left as well
    more = (column, *(made.new() for _ in range(part.slots - 1)))
    if slot:
        more = (*more[1:], more[0])
    made.place[there.name] = more
    for key in keys:
        made.owner[key] = joint
    down = made.port(here).side == "bottom"
    made.below.append((here.name, there.name) if down else (there.name, here.name))
    return True
