"""What is proven of invented networks, against the whole table of every state there is."""

import os
import subprocess
import sys
from collections.abc import Iterator

import pytest

from tests.contact_table import Row, Table
from tests.invented_network import network, rivals, rules
from trimwright.wiring.logic import (
    Example,
    FactChange,
    Network,
    Rule,
    Settler,
    Shorted,
    UnitMove,
    contradictions,
    fault_breaks,
    known_facts,
    loop_findings,
    loops,
    offending_sequence,
    shorts,
    single_faults,
    verdicts,
)

EACH = 50
LOTS = [range(first, first + EACH) for first in range(0, 500, EACH)]


def movers(net: Network) -> list[str]:
    return [*(coil.relay for coil in net.coils), *(unit.name for unit in net.units)]


def chatters(table: Table) -> bool:
    return not all(table.settings_by_facts().values())


def alike(table: Table, row: Row, loose: set[str]) -> int:
    """Return the rows that differ from one in loose relays and units at most."""
    (values, pulled) = row
    return sum(
        1 << number
        for number, (others, setting) in enumerate(table.rows)
        if all(others[name] == value for name, value in values.items() if name not in loose)
        and setting - loose == pulled - loose
    )


def assert_agrees(table: Table, rule: Rule, example: Example | None) -> None:
    """Assert that an example, or that there is none, is what the whole table says."""
    breaking = table.broken(rule) & table.settled
    if example is None:
        assert not breaking
        return
    at = table.row(example.state)
    assert at & table.broken(rule) & table.lawful
    unsettled = [name for name in movers(table.network) if not at & table.at_rest(name)]
    assert unsettled == list(example.unsettled)
    if not unsettled:
        fewest = min(table.off_rest(row) for row in table.told(breaking))
        assert table.off_rest(table.told(at)[0]) == fewest
        return
    # there is no such state at rest: but however what is restless stands, the rule is broken
    assert not breaking
    loose = set(unsettled)
    while True:
        rows = alike(table, table.told(at)[0], loose)
        more = {n for n in movers(table.network) if rows & ~table.at_rest(n)} - loose
        if not more:
            break
        loose |= more
    assert not rows & ~table.broken(rule)


@pytest.mark.parametrize("lot", LOTS, ids=str)
def test_rules_are_judged_as_the_whole_table_judges_them(lot: range) -> None:
    for seed in lot:
        net = network(seed)
        table = Table(net)
        for found in verdicts(net, rules(net, seed)):
            assert_agrees(table, found.rule, found.example)
            asked = table.asked(found.rule) & table.settled
            if found.answer in ("vacuous", "unsettled"):
                assert not asked
            elif found.answer == "proven" and not chatters(table):
                assert asked


@pytest.mark.parametrize("lot", LOTS, ids=str)
def test_every_single_fault_is_judged_as_the_whole_table_judges_it(lot: range) -> None:
    for seed in lot:
        net = network(seed)
        kept = [one.rule for one in verdicts(net, rules(net, seed)) if one.answer != "broken"]
        found = {(one.rule, one.fault): one.example for one in fault_breaks(net, rules(net, seed))}
        for fault in single_faults(net):
            table = Table(net, fault)
            for rule in kept:
                assert_agrees(table, rule, found.pop((rule, fault), None))
        assert found == {}


@pytest.mark.parametrize("lot", LOTS, ids=str)
def test_settings_at_rest_are_those_of_the_whole_table(lot: range) -> None:
    for seed in lot:
        net = network(seed)
        table = Table(net)
        alone = not loops(net) and not net.units
        for values, rows in table.settings_by_facts().items():
            facts = zip((fact.name for fact in net.facts), values, strict=True)
            found = Settler(net).settings(facts)
            assert sorted(map(table.row, found)) == sorted(1 << table.rows.index(r) for r in rows)
            assert len(rows) == 1 or not alone


@pytest.mark.parametrize("lot", LOTS, ids=str)
def test_loops_do_what_the_whole_table_says(lot: range) -> None:
    for seed in lot:
        net = network(seed)
        table = Table(net)
        counts = [len(rows) for rows in table.settings_by_facts().values()]
        kinds = {found.kind for found in loop_findings(net)}
        assert "unfinished" not in kinds
        if not all(counts):
            assert "chatter" in kinds
        elif "chatter" in kinds:  # it chatters only while another loop is latched
            assert "latch" in kinds or net.units
        elif not net.units:
            assert ("latch" in kinds) == (max(counts) > 1)


@pytest.mark.parametrize("lot", LOTS, ids=str)
def test_shorts_and_contradictions_are_those_of_the_whole_table(lot: range) -> None:
    for seed in lot:
        net = network(seed)
        table = Table(net)
        short = {one.feed: one.example for one in shorts(net)}
        for feed in net.feeds:
            rule = Rule(feed.name, "never", Shorted(feed.name))
            assert_agrees(table, rule, short.get(feed.name))
        asked = rules(net, seed)
        if chatters(table):
            continue
        found = [(one.never.name, one.always.name) for one in contradictions(net, asked)]
        assert found == [
            (one.name, other.name)
            for one in asked
            for other in asked
            if (one.asks, other.asks) == ("never", "always") and one.subject == other.subject
            if table.asked(one) & table.asked(other) & table.settled
        ]


@pytest.mark.parametrize("lot", LOTS, ids=str)
def test_a_fact_that_no_wire_carries_moves_nothing(lot: range) -> None:
    for seed in lot:
        net = network(seed)
        table = Table(net)
        if loops(net) or net.units:
            continue
        for rule in rules(net, seed):
            known = known_facts(rule, net)
            subject = table.column(rule.subject)
            said: dict[tuple[str, ...], bool] = {}
            for number, (values, _) in enumerate(table.rows):
                if table.settled >> number & 1:
                    holds = bool(subject >> number & 1)
                    assert said.setdefault(tuple(values[name] for name in known), holds) == holds


@pytest.mark.parametrize("said", ["verdicts", "fault_breaks", "loop_findings", "shorts"])
def test_the_same_network_is_judged_in_the_same_words(said: str) -> None:
    text = (
        "from tests.invented_network import network, rules; import trimwright.wiring.logic as logic;"
        f"of = logic.{said};"
        "asked = [() if of in (logic.loop_findings, logic.shorts) else (rules(network(k), k),)"
        " for k in range(20)];"
        "print([of(network(k), *given) for k, given in enumerate(asked)])"
    )
    printed = [
        subprocess.run(  # noqa: S603  this interpreter
            [sys.executable, "-c", text],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)},
            check=True,
            capture_output=True,
        ).stdout
        for seed in ("1", "2")
    ]
    assert len(printed[0]) > 1000
    assert printed[0] == printed[1]


class Ways:
    """Every state of rest that there is a way to, in steps, by the whole table."""

    def __init__(self, table: Table) -> None:
        self.table = table
        self.net = table.network
        self.number = {self._key(row): k for k, row in enumerate(table.rows)}
        self.restless = self.races = False
        values = {fact.name: fact.values[0] for fact in self.net.facts}
        values |= {unit.name: unit.states[0] for unit in self.net.units}
        ring = self._rests(self.number[self._key((values, frozenset()))])
        self.races |= len(ring) > 1
        self.steps = dict.fromkeys(ring, 0)
        while ring:
            ends = [self._rests(after) for one in ring for after in self._next(one)]
            self.races |= any(len(rests) > 1 for rests in ends)
            ring = {rest for rests in ends for rest in rests} - self.steps.keys()
            self.steps |= dict.fromkeys(ring, max(self.steps.values()) + 1)

    @staticmethod
    def _key(row: Row) -> tuple[object, ...]:
        return tuple(row[0].items()), row[1]

    def _unit_moves(self, number: int, *, waits: bool) -> Iterator[int]:
        values, pulled = self.table.rows[number]
        for unit in self.net.units:
            for move in unit.moves:
                ready = self.table.column(move.when) >> number & 1
                stands = values[unit.name] == move.state != move.to
                if ready and stands and move.waits is waits:
                    yield self.number[self._key(({**values, unit.name: move.to}, pulled))]

    def _at_once(self, number: int) -> Iterator[int]:
        values, pulled = self.table.rows[number]
        for coil in self.net.coils:
            if not self.table.at_rest(coil.relay) >> number & 1:
                yield self.number[self._key((values, pulled ^ {coil.relay}))]
        yield from self._unit_moves(number, waits=False)

    def _rests(self, number: int) -> set[int]:
        reached, waiting = {number}, [number]
        while waiting:
            more = set(self._at_once(waiting.pop())) - reached
            reached |= more
            waiting += more
        rests = {one for one in reached if self.table.settled >> one & 1}
        leading = set(rests)
        while more := {n for n in reached - leading if leading & set(self._at_once(n))}:
            leading |= more
        self.restless |= leading != reached
        return rests

    def _next(self, number: int) -> Iterator[int]:
        values, pulled = self.table.rows[number]
        yield from self._unit_moves(number, waits=True)
        ones = [(f.name, v) for f in self.net.facts for v in f.values if v != values[f.name]]
        at = {one: self.number[self._key(({**values, one[0]: one[1]}, pulled))] for one in ones}
        lawful = {one for one in ones if self.table.lawful >> at[one] & 1}
        yield from (at[one] for one in ones if one in lawful)
        for one in ones:
            for other in ones:
                if one[0] < other[0] and not lawful & {one, other}:
                    both = self.number[self._key(({**values, **dict([one, other])}, pulled))]
                    if self.table.lawful >> both & 1:
                        yield both


@pytest.mark.parametrize("lot", LOTS, ids=str)
def test_the_shortest_way_to_an_offence_is_as_long_as_the_whole_table_says(lot: range) -> None:
    looked = 0
    for seed in lot:
        net = network(seed)
        table = Table(net)
        ways = Ways(table)
        if ways.restless:
            continue
        for rule in rules(net, seed):
            broken = table.broken(rule)
            lengths = [steps for one, steps in ways.steps.items() if broken >> one & 1]
            found = offending_sequence(net, rule)
            assert found.answer == ("broken" if lengths else "kept")
            if found.state:
                looked += 1
                assert table.row(found.state) & broken
                waits = {u.name: {m.to for m in u.moves if m.waits} for u in net.units}
                least = sum(isinstance(step, FactChange) for step in found.steps)
                most = least + sum(
                    isinstance(step, UnitMove) and step.to in waits[step.unit]
                    for step in found.steps
                )
                assert least <= min(lengths) <= most
    assert looked > EACH / 2


def test_races_are_those_of_the_whole_table() -> None:
    found = {"race": 0, "latch": 0, "chatter": 0, "none": 0}
    for seed in range(200):
        net = rivals(seed)
        table = Table(net)
        ways = Ways(table)
        kinds = {found.kind for found in loop_findings(net)}
        counts = [len(rows) for rows in table.settings_by_facts().values()]
        if ways.restless or not all(counts):
            assert "chatter" in kinds
        else:
            assert ("race" in kinds) == ways.races
            assert ("latch" in kinds) == (max(counts) > 1) or "chatter" in kinds
        for kind in (*kinds, *(() if kinds else ("none",))):
            found[kind] += 1
    assert min(found.values()) >= 10
