"""Which facts a wire carries to what a rule is about."""

from trimwright.wiring.logic.bearing import cone, influence_of
from trimwright.wiring.logic.clauses import Clauses
from trimwright.wiring.logic.condition import And, Is, Not, atoms, evaluated
from trimwright.wiring.logic.encoding import Given, algebra, given
from trimwright.wiring.logic.network import Network, Rule, refuse_unknown
from trimwright.wiring.logic.search import Search


def known_facts(rule: Rule, network: Network) -> tuple[str, ...]:
    """Return the facts that can move what a rule is about, by wire, however many relays between."""
    refuse_unknown(network, rule)
    return cone(influence_of(network), rule.subject).facts


def uninformed(rule: Rule, network: Network) -> tuple[str, ...]:
    """Return the facts that a rule names and that no wire carries to what it is about.

    A fact is carried if it works a contact or feed, or moves a unit, that what the rule is about
    hangs on; or if constraints leave it no freedom once the carried facts are known. Where the
    carried facts settle whether the rule asks anything, no fact is missing.

    Raises
    ------
    ValueError
        If the rule names what the network does not have.
    """
    known = known_facts(rule, network)
    facts = {fact.name for fact in network.facts}
    named = [one for one in atoms(And((rule.when, rule.unless))) if isinstance(one, Is)]
    unknown = [one for one in named if one.of in facts and one.of not in known]
    if not unknown:
        return ()
    clauses = Clauses()
    one, other = given(clauses, network), given(clauses, network)
    equal = [
        clauses.same(literal, other.values[pair])
        for pair, literal in one.values.items()
        if pair[0] in known
    ]
    search = Search(clauses, (), ())
    whole = And((rule.when, Not(rule.unless)))
    if all(isinstance(atom, Is) for atom in atoms(whole)):
        told = (evaluated(whole, algebra(clauses, stands)) for stands in (one, other))
        if not search.possible(*equal, -clauses.same(*told)):
            return ()
    return tuple(
        dict.fromkeys(
            atom.of
            for atom in unknown
            if search.possible(*equal, _differ(atom, one, other, clauses))
        )
    )


def _differ(atom: Is, one: Given, other: Given, clauses: Clauses) -> int:
    pair = (atom.of, atom.value)
    return -clauses.same(one.values[pair], other.values[pair])
