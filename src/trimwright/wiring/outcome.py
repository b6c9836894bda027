"""All that is computed of a build's wiring."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Literal

from msgspec import Struct

from trimwright.build import Wiring
from trimwright.quantities import Unit
from trimwright.wiring.consumer import Consumer, consumers
from trimwright.wiring.contacts import contact_network, rule_of
from trimwright.wiring.electric import circuit, flows
from trimwright.wiring.laid import length_m
from trimwright.wiring.logic import (
    Contradiction,
    Example,
    FaultBreak,
    LoopFinding,
    Network,
    Offence,
    Prover,
    Rule,
    Short,
    State,
    Verdict,
    broken,
    cone,
    contradictions,
    fault_breaks,
    influence_of,
    loop_findings,
    offending_sequence,
    shorts,
    single_faults,
    uninformed,
    verdicts,
)
from trimwright.wiring.loom import Loom, loom
from trimwright.wiring.network import Solved
from trimwright.wiring.sizing import Sizing, sizings, with_chosen
from trimwright.wiring.sold import ohm_per_m
from trimwright.wiring.supply import Supply, supplies
from trimwright.wiring.use import Row, Use, rows, uses
from trimwright.wiring.worst import Found, Searched, worst_states

KEPT = 32


class Electrics(Struct, frozen=True, eq=False):
    """A solved wiring: the states, what flows in them, what reaches each consumer.

    `searched` tells how far the worst states were looked for in each mode. `sizings`, the size of every wire, are computed when they are first asked for.
    """

    wiring: Wiring
    unit: Unit
    rows: tuple[Row, ...]
    solved: Solved
    supplies: tuple[Supply, ...]
    searched: tuple[Searched, ...]

    @property
    def sizings(self) -> tuple[Sizing, ...]:
        """The size of every wire, in the order of the loom."""
        return _sizings(self.wiring, self.unit)


class Proof(Struct, frozen=True):
    """What became of one rule: its verdict, the single faults that break it, what no wire knows.

    `offence` is what the ways from rest lead to, asked where there are control units.
    """

    rule: Rule
    verdict: Verdict
    faults: tuple[FaultBreak, ...]
    unknown: tuple[str, ...]
    offence: Offence | None = None

    @property
    def answer(self) -> Literal["proven", "broken", "vacuous", "unsettled", "unfinished"]:
        """What became of it: where a control unit bears on it, on the ways from rest."""
        if self.offence is None or self.verdict.answer == "vacuous":
            return self.verdict.answer
        walked = self.offence.answer
        return "proven" if walked == "kept" else walked

    @property
    def broken_in(self) -> State | None:
        """The state that shows that it does not hold, if it does not."""
        if self.offence is not None:
            return self.offence.state
        return self.verdict.example.state if self.verdict.example else None


class WiringOutcome(Struct, frozen=True):
    """Everything computed of a wiring.

    `electrics` is None where the battery, or what is inside it, is not written. `idle` are the
    consumers that nothing sets to work in any mode.
    """

    wiring: Wiring
    loom: Loom
    network: Network
    uses: tuple[Use, ...]
    electrics: Electrics | None
    proofs: tuple[Proof, ...]
    contradictions: tuple[Contradiction, ...]
    shorts: tuple[Short, ...]
    loops: tuple[LoopFinding, ...]
    idle: tuple[Consumer, ...]


@lru_cache(maxsize=KEPT)
def wiring_outcome(wiring: Wiring, unit: Unit) -> WiringOutcome:
    """Return everything computed of a wiring.

    Parameters
    ----------
    wiring : Wiring
        The build's.
    unit : {'mm', 'in'}
        The build's: which sizes of wire are to be chosen from.
    """
    laid, network, found = connections(wiring)
    works = {use.consumer.name for use in found}
    return WiringOutcome(
        wiring,
        laid,
        network,
        found,
        electrics(wiring, unit),
        _proofs(wiring, network, laid),
        contradictions(network, [rule_of(one, wiring, network, laid) for one in wiring.rules]),
        shorts(network),
        loop_findings(network),
        tuple(one for one in consumers(wiring) if one.name not in works),
    )


def _proofs(wiring: Wiring, network: Network, laid: Loom) -> tuple[Proof, ...]:
    """Return what becomes of each rule; single faults are asked only of what is kept without one.

    A rule that a control unit bears on is looked at along every way from rest: a unit may have
    states in which the rule is broken and to which nothing leads.
    """
    rules = [rule_of(one, wiring, network, laid) for one in wiring.rules]
    found = verdicts(network, rules)
    moved = {one.rule for one in found if network.units and _moved_by_unit(one.rule, network)}
    proven = [one.rule for one in found if one.answer == "proven" and one.rule not in moved]
    faults = fault_breaks(network, proven)
    walker = Prover(network, single_faults(network)) if moved else None
    return tuple(
        _along_the_way(one, network, walker)
        if walker and one.rule in moved
        else Proof(
            one.rule,
            one,
            tuple(fault for fault in faults if fault.rule == one.rule),
            uninformed(one.rule, network),
        )
        for one in found
    )


def keeps(wiring: Wiring, number: int) -> bool:
    """Return whether one rule of a wiring is kept on every way from rest, with nothing wrong."""
    laid = loom(wiring)
    network = contact_network(wiring, laid)
    rule = rule_of(wiring.rules[number], wiring, network, laid)
    return offending_sequence(network, rule).answer == "kept"


def _moved_by_unit(rule: Rule, network: Network) -> bool:
    """Return whether a control unit bears on what a rule asks."""
    return bool(cone(influence_of(network), broken(rule)).units)


def _along_the_way(verdict: Verdict, network: Network, prover: Prover) -> Proof:
    """Return what becomes of a rule on every way from rest, without a fault and with each.

    Ways are walked only with a fault that breaks the rule in some state, whether or not one leads
    there.
    """
    rule, faults = verdict.rule, list[FaultBreak]()
    offence, wrong = offending_sequence(network, rule), broken(rule)
    if offence.answer == "kept" and verdict.answer != "vacuous":
        for fault in single_faults(network):
            if not (prover.bears(fault, wrong) and prover.possible(wrong, fault=fault)):
                continue
            one = offending_sequence(network, rule, fault)
            if one.state is not None:
                faults.append(FaultBreak(rule, fault, Example(one.state, one.paths, (), fault)))
    return Proof(rule, verdict, tuple(faults), uninformed(rule, network), offence)


@lru_cache(maxsize=KEPT)
def connections(wiring: Wiring) -> tuple[Loom, Network, tuple[Use, ...]]:
    """Return the wires of a wiring, what they join as contacts, and what can be set to work."""
    laid = loom(wiring)
    network = contact_network(wiring, laid)
    return laid, network, uses(wiring, network)


@lru_cache(maxsize=KEPT)
def electrics(wiring: Wiring, unit: Unit) -> Electrics | None:
    """Return the solved wiring with every wire as written, or as thin as will do.

    None where the battery, or what is inside it, is not written, or nothing can be set to work.
    """
    laid, _, found = connections(wiring)
    ohms = {one.name: ohm_per_m(one.size, unit) * length_m(one) for one in laid.wires}
    worst = _worst(wiring, ohms)
    if worst is None:
        return None
    if any(one.size is None for one in laid.wires):
        sized = sizings(wiring, laid, found, worst.rows, worst.solved, unit)
        worst = _worst(wiring, with_chosen(laid, sized, unit)) or worst
    told = supplies(found, worst.rows, worst.solved)
    return Electrics(wiring, unit, worst.rows, worst.solved, told, worst.searched)


def _worst(wiring: Wiring, ohms: dict[str, float]) -> Found | None:
    """Return the states that tell, with some resistances of the wires; None if nothing is solved."""
    laid, network, found = connections(wiring)
    built = circuit(wiring, laid, network, ohms)
    if built is None or not found:
        return None

    def solved(told: Sequence[Row]) -> Solved:
        return flows(built, [(row.mode, row.closed) for row in told], network, wiring)

    return worst_states(wiring, network, found, rows(network, found), solved)


@lru_cache(maxsize=KEPT)
def _sizings(wiring: Wiring, unit: Unit) -> tuple[Sizing, ...]:
    """Return the size of every wire of a solved wiring."""
    laid, _, found = connections(wiring)
    own = electrics(wiring, unit)
    if own is None:
        return ()
    return tuple(sizings(wiring, laid, found, own.rows, own.solved, unit).values())
