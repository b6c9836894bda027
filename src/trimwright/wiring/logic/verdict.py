"""Rules over every state of a network: proven, or broken by the plainest state that breaks them."""

from collections.abc import Sequence
from typing import Literal

from msgspec import Struct

from trimwright.wiring.logic.condition import And, Condition, Not, Shorted
from trimwright.wiring.logic.fault import Fault, single_faults
from trimwright.wiring.logic.network import Network, Rule, refuse_unknown
from trimwright.wiring.logic.proof import Example, Prover


class Verdict(Struct, frozen=True):
    """What became of a rule.

    'proven' in every settled state; 'broken', with an example; 'vacuous': no state asks for it;
    'unsettled': in every state that asks for it, relays that it hangs on find no rest.
    """

    rule: Rule
    answer: Literal["proven", "broken", "vacuous", "unsettled"]
    example: Example | None = None


class FaultBreak(Struct, frozen=True):
    """A single fault under which a rule is broken, with the plainest state in which it is."""

    rule: Rule
    fault: Fault
    example: Example


class Contradiction(Struct, frozen=True):
    """Two rules that cannot both be kept, and a state in which one forbids what the other asks."""

    never: Rule
    always: Rule
    example: Example


class Short(Struct, frozen=True):
    """A feed that is live and joined to ground, and the plainest state in which it is."""

    feed: str
    example: Example


def asked(rule: Rule) -> Condition:
    """Return the condition under which a rule asks for something: `when`, but not `unless`."""
    return And((rule.when, Not(rule.unless)))


def broken(rule: Rule) -> Condition:
    """Return the condition under which a rule is broken."""
    return And((asked(rule), rule.subject if rule.asks == "never" else Not(rule.subject)))


def verdicts(network: Network, rules: Sequence[Rule]) -> tuple[Verdict, ...]:
    """Return what becomes of each rule over all facts and all settled relays and units.

    A unit is taken to stand in any of its states in which it has no move to make at once, whether
    or not something leads there: `offending_sequence` says what does.

    Raises
    ------
    ValueError
        If a rule names what the network does not have.
    """
    for rule in rules:
        refuse_unknown(network, rule)
    prover = Prover(network) if rules else None
    return tuple(_verdict(prover, rule) for rule in rules if prover)


def _verdict(prover: Prover, rule: Rule) -> Verdict:
    if not prover.possible(asked(rule)):
        return Verdict(rule, "vacuous")
    example = prover.example(broken(rule), rule.subject)
    if example:
        return Verdict(rule, "broken", example)
    settles = prover.possible(asked(rule), rule.subject)
    return Verdict(rule, "proven" if settles else "unsettled")


def fault_breaks(network: Network, rules: Sequence[Rule]) -> tuple[FaultBreak, ...]:
    """Return each single fault that breaks a rule, rule by rule.

    A rule that is broken without a fault is left out: `verdicts` tells of it.

    Raises
    ------
    ValueError
        If a rule names what the network does not have.
    """
    for rule in rules:
        refuse_unknown(network, rule)
    if not rules:
        return ()
    faults = single_faults(network)
    prover = Prover(network, faults)
    found = [
        (rule, fault, prover.example(broken(rule), rule.subject, fault))
        for rule in rules
        if not prover.possible(broken(rule))
        for fault in faults
        if prover.bears(fault, broken(rule))
    ]
    return tuple(FaultBreak(rule, fault, example) for rule, fault, example in found if example)


def contradictions(network: Network, rules: Sequence[Rule]) -> tuple[Contradiction, ...]:
    """Return each pair of rules of which one forbids, in some state, what the other asks."""
    prover = Prover(network) if rules else None
    found = [
        (never, always, prover.example(And((asked(never), asked(always))), never.subject))
        for never in rules
        for always in rules
        if prover and (never.asks, always.asks) == ("never", "always")
        if never.subject == always.subject
    ]
    return tuple(Contradiction(never, always, shown) for never, always, shown in found if shown)


def shorts(network: Network) -> tuple[Short, ...]:
    """Return each feed that is, in some settled state, live and joined to ground."""
    if not (network.feeds and network.grounds):
        return ()
    prover = Prover(network)
    atoms = [Shorted(feed.name) for feed in network.feeds]
    found = [(atom.feed, prover.example(atom, atom)) for atom in atoms]
    return tuple(Short(feed, example) for feed, example in found if example)
