"""Contact networks by the whole table: every row of facts, relays and units, looked at at once.

A column of the table is a whole number whose bit k tells of row k. Reach is the closure of what is
joined over one node after another [warshall 1962], where the tool itself goes outwards by levels.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import reduce
from itertools import product

from trimwright.wiring.logic import (
    And,
    Closed,
    Condition,
    Fault,
    Fed,
    Grounded,
    Is,
    Live,
    Network,
    Not,
    Or,
    Pulled,
    Rule,
    Shorted,
    State,
)

Row = tuple[dict[str, str], frozenset[str]]  # value of each fact and unit; relays pulled in


@dataclass
class Table:
    """A network's whole table, with a fault or none."""

    network: Network
    fault: Fault | None = None
    rows: list[Row] = field(init=False)
    lawful: int = field(init=False)

    def __post_init__(self) -> None:
        """Write the table."""
        net = self.network
        named = [(fact.name, fact.values) for fact in net.facts]
        named += [(unit.name, unit.states) for unit in net.units]
        relays = [coil.relay for coil in net.coils]
        values = [
            dict(zip([n for n, _ in named], row, strict=True))
            for row in product(*(v for _, v in named))
        ]
        settings = [
            frozenset(r for r, bit in zip(relays, bits, strict=True) if bit)
            for bits in product((0, 1), repeat=len(relays))
        ]
        self.rows = [(value, setting) for value in values for setting in settings]
        self.every = (1 << len(self.rows)) - 1
        self._values = {
            (name, value): self._column(row[0][name] == value for row in self.rows)
            for name, choices in named
            for value in choices
        }
        self._pulled = {r: self._column(r in row[1] for row in self.rows) for r in relays}
        self._join()
        self.lawful = self.column(And(net.constraints))
        self._rest = {
            coil.relay: self.every ^ self._pulled[coil.relay] ^ self._fed_coil(coil.relay)
            for coil in net.coils
        }
        self._rest |= {
            unit.name: self.every & ~self._going(unit.name, waits=False) for unit in net.units
        }
        self.settled = reduce(int.__and__, self._rest.values(), self.lawful)

    @staticmethod
    def _column(bits: Iterable[bool]) -> int:
        return sum(1 << number for number, bit in enumerate(bits) if bit)

    def _at_fault(self, name: str, *kinds: str) -> bool:
        return self.fault is not None and self.fault.of == name and self.fault.kind in kinds

    def _join(self) -> None:
        """Work out which nodes are joined to a live feed, and which to ground."""
        net = self.network
        edges = [*self._edges()]
        self._closed = {name: closed for name, _, _, closed in edges}
        ends = [end for _, a, b, _ in edges for end in (a, b)]
        ends += [end for coil in net.coils for end in (coil.a, coil.b)]
        ends += [end for load in net.loads for end in (load.a, load.b)]
        order = sorted({*ends, *net.grounds, *(feed.node for feed in net.feeds)})
        on = {feed.name: self.column(feed.when) for feed in net.feeds}
        kept = {node for node in net.grounds if not self._at_fault(node, "ground lost")}
        feeds = {n: self._any(on[f.name] for f in net.feeds if f.node == n) for n in order}
        grounds = {node: self.every if node in kept else 0 for node in order}
        live = self._joined(edges, feeds, grounds)
        met = self._joined(edges, grounds, feeds)
        self._live = {node: live[node] & ~grounds[node] for node in order}
        self._grounded = {node: met[node] & ~feeds[node] for node in order}
        self._shorted = {feed.name: on[feed.name] & met[feed.node] for feed in net.feeds}

    def _joined(
        self,
        edges: list[tuple[str, str, str, int]],
        sources: dict[str, int],
        ending: dict[str, int],
    ) -> dict[str, int]:
        """Return the rows in which each node is joined to a source by what passes current on."""
        joined = {(a, b): self.every if a == b else 0 for a in sources for b in sources}
        for _, a, b, closed in edges:
            joined[a, b] |= closed & ~ending[a]
            joined[b, a] |= closed & ~ending[b]
        for via, a, b in product(sources, repeat=3):
            joined[a, b] |= joined[a, via] & joined[via, b]
        return {b: self._any(joined[a, b] & sources[a] for a in sources) for b in sources}

    def _edges(self) -> Iterator[tuple[str, str, str, int]]:
        """Yield each join and contact: name, ends, and the rows in which it is closed."""
        for join in self.network.joins:
            cut = self._at_fault(join.name, "wire broken", "fuse blown")
            yield join.name, join.a, join.b, 0 if cut else self.every
        switched = [(one.name, one.a, one.b, one.when) for one in self.network.contacts]
        for unit in self.network.units:
            for out in unit.outputs:
                when = Or(tuple(Is(unit.name, state) for state in out.states))
                switched.append((out.name, out.a, out.b, when))
        for name, a, b, condition in switched:
            welded = self._at_fault(name, "contact welded")
            closed = self.every if welded else self.column(condition)
            yield name, a, b, 0 if self._at_fault(name, "contact open") else closed

    @staticmethod
    def _any(columns: Iterable[int]) -> int:
        return reduce(int.__or__, columns, 0)

    def _between(self, a: str, b: str) -> int:
        return (self._live[a] & self._grounded[b]) | (self._live[b] & self._grounded[a])

    def _fed_coil(self, relay: str) -> int:
        coil = next(coil for coil in self.network.coils if coil.relay == relay)
        return 0 if self._at_fault(relay, "coil open") else self._between(coil.a, coil.b)

    def _going(self, name: str, *, waits: bool) -> int:
        unit = next(unit for unit in self.network.units if unit.name == name)
        return self._any(
            self._values[name, move.state] & self.column(move.when)
            for move in unit.moves
            if move.waits is waits and move.to != move.state
        )

    def column(self, said: Condition) -> int:  # noqa: PLR0911, C901  one line a kind
        """Return the rows in which a condition holds."""
        match said:
            case Not():
                return self.every ^ self.column(said.of)
            case And():
                return reduce(int.__and__, map(self.column, said.of), self.every)
            case Or():
                return self._any(map(self.column, said.of))
            case Is():
                return self._values[said.of, said.value]
            case Pulled():
                return self._pulled[said.relay]
            case Closed():
                return self._closed[said.contact]
            case Live():
                return self._live[said.node]
            case Grounded():
                return self._grounded[said.node]
            case Fed():
                load = next(load for load in self.network.loads if load.name == said.load)
                return self._between(load.a, load.b)
            case Shorted():
                return self._shorted[said.feed]

    def asked(self, rule: Rule) -> int:
        """Return the rows in which a rule asks for something."""
        return self.column(rule.when) & ~self.column(rule.unless)

    def broken(self, rule: Rule) -> int:
        """Return the rows in which a rule is broken."""
        kept = self.column(rule.subject) ^ (self.every if rule.asks == "never" else 0)
        return self.asked(rule) & ~kept

    def told(self, column: int) -> list[Row]:
        """Return the rows of a column."""
        return [row for number, row in enumerate(self.rows) if column >> number & 1]

    def row(self, state: State) -> int:
        """Return the column that holds in one row only: a state's."""
        values = dict((*state.facts, *state.units))
        return 1 << self.rows.index((values, frozenset(state.pulled)))

    def at_rest(self, name: str) -> int:
        """Return the rows in which a relay or unit is at rest."""
        return self._rest[name]

    def off_rest(self, row: Row) -> int:
        """Return how many facts are off rest in a row."""
        return sum(row[0][fact.name] != fact.values[0] for fact in self.network.facts)

    def settings_by_facts(self) -> dict[tuple[str, ...], list[Row]]:
        """Return for each lawful row of facts its rows at rest."""
        found: dict[tuple[str, ...], list[Row]] = {}
        for row in self.told(self.lawful):
            found.setdefault(tuple(row[0][fact.name] for fact in self.network.facts), [])
        for row in self.told(self.settled):
            found[tuple(row[0][fact.name] for fact in self.network.facts)].append(row)
        return found
