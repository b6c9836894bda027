"""Named nodes, and what stands between them."""

from collections.abc import Iterable
from functools import cached_property

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.wiring.network.element import Element
from trimwright.wiring.network.states import States

Whole = NDArray[np.intp]
Bools = NDArray[np.bool_]


class Circuit(Struct, frozen=True, dict=True):
    """Elements between nodes, one of which is what voltages are told against.

    Parameters
    ----------
    reference : str
        The node at 0 V, such as the battery's negative post.
    elements : tuple of Element
        Each with its own name. In `plus` and `minus` a circuit's nodes are named.

    Raises
    ------
    ValueError
        If two elements share a name, or one has both its ends at one node.
    """

    reference: str
    elements: tuple[Element, ...]

    def __post_init__(self) -> None:
        """Refuse elements that no circuit can be made of."""
        names = [one.name for one in self.elements]
        if len(set(names)) < len(names):
            twice = next(name for name in names if names.count(name) > 1)
            raise ValueError(f"elements must have names of their own, got {twice!r} twice")
        for one in self.elements:
            if one.plus == one.minus:
                raise ValueError(f"{one.name!r} must join two nodes, got {one.plus!r} at both ends")

    @cached_property
    def nodes(self) -> tuple[str, ...]:
        """The reference first, the others as the elements name them."""
        named = (name for one in self.elements for name in (one.plus, one.minus))
        return tuple(dict.fromkeys((self.reference, *named)))

    @cached_property
    def ends(self) -> Whole:
        """Positions in `nodes` of each element's plus and minus end, (elements, 2)."""
        at = {name: place for place, name in enumerate(self.nodes)}
        ends = np.array([(at[one.plus], at[one.minus]) for one in self.elements], np.intp)
        ends = ends.reshape(-1, 2)
        ends.flags.writeable = False
        return ends

    @cached_property
    def masks(self) -> dict[type[Element], Bools]:
        """Which elements are of each kind that there is, (elements,) each."""
        kinds = np.array([type(one) for one in self.elements], object)
        return {kind: kinds == kind for kind in set(kinds)}

    def node(self, name: str) -> int:
        """Return a node's position."""
        if name not in self.nodes:
            raise ValueError(f"name must be a node of the circuit, got {name!r}")
        return self.nodes.index(name)

    def element(self, name: str) -> int:
        """Return an element's position."""
        for position, one in enumerate(self.elements):
            if one.name == name:
                return position
        raise ValueError(f"name must be an element of the circuit, got {name!r}")

    def among(self, names: Iterable[str]) -> Bools:
        """Return which elements bear one of these names, shape (elements,)."""
        found = np.zeros(len(self.elements), np.bool_)
        for name in names:
            found[self.element(name)] = True
        return found

    def kind(self, *kinds: type[Element]) -> Bools:
        """Return which elements are of some kinds, shape (elements,)."""
        found = np.zeros(len(self.elements), np.bool_)
        for kind in kinds:
            found |= self.masks.get(kind, False)
        return found

    def states(self, rows: int = 1) -> States:
        """Return so many states in which every element is as it was given."""
        table = np.array([one.values() for one in self.elements], np.float64).reshape(-1, 5).T
        siemens, volts, watts, most_a, cold = (np.tile(row, (rows, 1)) for row in table)
        return States(siemens, volts, watts, most_a, cold, np.zeros_like(siemens))
