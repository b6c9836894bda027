"""What may be said of a circuit's state: atoms, and what joins them."""

from collections.abc import Callable, Sequence
from typing import Generic, TypeVar

from msgspec import Struct

Value = TypeVar("Value")


class Is(Struct, frozen=True):
    """A fact has a value, or a unit stands in a state."""

    of: str
    value: str


class Pulled(Struct, frozen=True):
    """A relay is pulled in."""

    relay: str


class Live(Struct, frozen=True):
    """A node is joined to a live feed."""

    node: str


class Grounded(Struct, frozen=True):
    """A node is joined to ground."""

    node: str


class Fed(Struct, frozen=True):
    """One side of a load is joined to a live feed, the other to ground."""

    load: str


class Closed(Struct, frozen=True):
    """A contact is closed."""

    contact: str


class Shorted(Struct, frozen=True):
    """A feed is live and joined to ground through nothing but wires and closed contacts."""

    feed: str


class Not(Struct, frozen=True):
    """What is said does not hold."""

    of: "Condition"


class And(Struct, frozen=True):
    """All parts hold; with no parts it always holds."""

    of: tuple["Condition", ...]


class Or(Struct, frozen=True):
    """At least one part holds; with no parts it never holds."""

    of: tuple["Condition", ...]


Atom = Is | Pulled | Live | Grounded | Fed | Closed | Shorted
Condition = Atom | Not | And | Or

ALWAYS, NEVER = And(()), Or(())


class Algebra(Struct, Generic[Value], frozen=True):
    """How values of conditions are made: of an atom, of what is not, of all and of any."""

    atom: Callable[[Atom], Value]
    no: Callable[[Value], Value]
    every: Callable[[Sequence[Value]], Value]
    some: Callable[[Sequence[Value]], Value]


def evaluated(condition: Condition, algebra: Algebra[Value]) -> Value:
    """Return what a condition comes to: truth, or a literal that stands for it."""
    if isinstance(condition, Not):
        return algebra.no(evaluated(condition.of, algebra))
    if isinstance(condition, And):
        return algebra.every([evaluated(part, algebra) for part in condition.of])
    if isinstance(condition, Or):
        return algebra.some([evaluated(part, algebra) for part in condition.of])
    return algebra.atom(condition)


def atoms(condition: Condition) -> tuple[Atom, ...]:
    """Return the atoms of a condition, each once, in the order in which they are named.

    Examples
    --------
    >>> atoms(And((Is("key", "on"), Not(Pulled("K1")), Is("key", "on"))))
    (Is(of='key', value='on'), Pulled(relay='K1'))
    """
    if isinstance(condition, Not):
        return atoms(condition.of)
    if isinstance(condition, And | Or):
        return tuple(dict.fromkeys(atom for part in condition.of for atom in atoms(part)))
    return (condition,)
