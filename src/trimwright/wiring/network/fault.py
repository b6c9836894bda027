"""One thing wrong at a time."""

from collections.abc import Sequence

import numpy as np

from trimwright.wiring.network.circuit import Circuit
from trimwright.wiring.network.states import States


def opened_singly(circuit: Circuit, state: States, names: Sequence[str]) -> States:
    """Return a state so many times, in each row with another element open.

    Parameters
    ----------
    circuit : Circuit
        Names the elements.
    state : States
        One row: the state without a fault.
    names : sequence of str
        The elements that fail, one a row, such as all wires.

    Raises
    ------
    ValueError
        If `state` has not one row, or the circuit has no element of a name.

    Examples
    --------
    >>> from trimwright.wiring.network import Circuit, Resistor
    >>> circuit = Circuit("post", (Resistor("a", "x", "post", 2.0), Resistor("b", "x", "post", 4.0)))
    >>> opened_singly(circuit, circuit.states(), ["a", "b"]).siemens
    array([[0.  , 0.25],
           [0.5 , 0.  ]])
    """
    return _repeated(state, names).opened(_diagonal(circuit, names))


def shorted_singly(circuit: Circuit, state: States, names: Sequence[str], ohms: float) -> States:
    """Return a state so many times, in each row with a short beside another element.

    Parameters
    ----------
    circuit, state, names
        As in `opened_singly`.
    ohms : float
        What the short itself resists [ohm], above 0.

    Raises
    ------
    ValueError
        As `opened_singly`, or if `ohms` is not above 0.
    """
    return _repeated(state, names).shorted(_diagonal(circuit, names), ohms)


def _repeated(state: States, names: Sequence[str]) -> States:
    if state.rows != 1:
        raise ValueError(f"state must have one row, got {state.rows}")
    return state.repeated(len(names))


def _diagonal(
    circuit: Circuit, names: Sequence[str]
) -> np.ndarray[tuple[int, int], np.dtype[np.bool_]]:
    where = np.zeros((len(names), len(circuit.elements)), np.bool_)
    where[np.arange(len(names)), [circuit.element(name) for name in names]] = True
    return where
