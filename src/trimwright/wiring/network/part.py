"""The part of a circuit in which anything can flow, so that many states of it are solved quickly."""

from collections.abc import Collection

import numpy as np

from trimwright.wiring.network.circuit import Bools, Circuit, Whole
from trimwright.wiring.network.states import States


def conducting_part(
    circuit: Circuit, states: States, probed: Collection[str] = ()
) -> tuple[Circuit, States]:
    """Return the elements through which current can flow in some of the states.

    What is open in every state is left out, and what hangs on by one end only: no current flows
    in it, and nothing else stands differently for its being there. Nodes that only such elements
    meet are not in the circuit that is returned, but for those that are `probed`.

    Examples
    --------
    >>> from trimwright.wiring.network import Battery, Circuit, Resistor
    >>> circuit = Circuit("post", (
    ...     Battery("battery", "feed", "post", 12.6, 0.01),
    ...     Resistor("bulb", "feed", "post", 2.9),
    ...     Resistor("loose end", "feed", "nowhere", 0.1),
    ... ))
    >>> part, _ = conducting_part(circuit, circuit.states())
    >>> [one.name for one in part.elements]
    ['battery', 'bulb']
    """
    kept = np.any((states.siemens > 0) | (states.watts > 0) | (states.bypass > 0), axis=0)
    hooked = np.array([name in probed for name in circuit.nodes], np.intp)
    while True:
        more = kept & ~_loose(circuit, kept, hooked)
        if (more == kept).all():
            break
        kept = more
    part = tuple(one for one, has in zip(circuit.elements, kept, strict=True) if has)
    return Circuit(circuit.reference, part), states.elements_of(kept)


def _loose(circuit: Circuit, kept: Bools, hooked: Whole) -> Bools:
    """Return which elements have an end that no other one of those kept meets, nor a probe."""
    met = np.bincount(circuit.ends[kept].ravel(), minlength=len(circuit.nodes)) + hooked
    return np.asarray(np.any(met[circuit.ends] < 2, axis=1) & kept)  # noqa: PLR2004  two meet
