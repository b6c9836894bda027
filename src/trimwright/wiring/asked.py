"""What is asked for its worst in every state: voltages, losses, currents, grounds apart."""

from collections.abc import Mapping, Sequence

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Wiring
from trimwright.wiring.network import Circuit, Solved
from trimwright.wiring.use import Row, Use

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

OFF = 1e3  # V: what drops out stands worse than at any voltage


class Asked(Struct, frozen=True):
    """One figure that is to be as large as it can be.

    Attributes
    ----------
    name : str
        What it is of: a consumer, an element of the circuit, a signal lead.
    kind : str
        'low' is a voltage with a minus, 'lost' what is lost on a way, 'to' and 'fro' a current one
        way and the other, 'above' and 'below' how far the start of a signal lead stands above its
        end, and below it.
    on : frozenset of str
        What has to be on, and what closed, for it.
    lasting : bool
        Whether only states count in which nothing is on that is on for moments.
    """

    name: str
    kind: str
    on: frozenset[str]
    lasting: bool


class Figures:
    """The figures that are asked in one mode, laid out for reading them off many states."""

    def __init__(
        self, wiring: Wiring, circuit: Circuit, uses: tuple[Use, ...], carries: Sequence[str]
    ) -> None:
        """List what is asked of some uses, all of one mode, and of what carries current."""
        at = {one.name: number for number, one in enumerate(circuit.elements)}
        own = [use for use in uses if use.consumer.name in at]
        self._places = [at[use.consumer.name] for use in own]
        self._ways = np.zeros((len(circuit.elements), len(own)))
        for number, use in enumerate(own):
            way = [at[name] for name in (*use.path.to, *use.path.back) if name in at]
            self._ways[way, number] = 1.0
        self._carry = [at[name] for name in carries if name in at]
        signals = [one for one in wiring.signals if {one.start, one.end} <= at.keys()]
        pairs = [(at[one.start], at[one.end]) for one in signals]
        self._pairs = circuit.ends[np.array(pairs, np.intp).reshape(-1, 2), 1]
        names = [circuit.elements[number].name for number in self._carry]
        nothing = frozenset[str]()
        fed = [(use.consumer.name, frozenset([use.consumer.name])) for use in own]
        both = [frozenset([one.start, one.end]) for one in signals]
        ways = [one[1] | use.path.parts for one, use in zip(fed, own, strict=True)]
        lasts = [use.consumer.on_for_s is None for use in own]
        self.asked = (
            *(Asked(name, "low", on, lasting=False) for name, on in fed),
            *(
                Asked(one.consumer.name, "lost", way, lasting=long)
                for one, way, long in zip(own, ways, lasts, strict=True)
            ),
            *(
                Asked(name, kind, nothing, lasting=lasting)
                for lasting in (False, True)
                for kind in ("to", "fro")
                for name in names
            ),
            *(
                Asked(one.name, kind, n, lasting=False)
                for kind in ("above", "below")
                for one, n in zip(signals, both, strict=True)
            ),
        )
        begin = 2 * len(own)
        self.shared = slice(begin, begin + 4 * len(names))  # currents: the same in every mode
        self._lasting = np.array([one.lasting for one in self.asked], np.bool_)

    def of(self, solved: Solved) -> Floats:
        """Return every figure in every state, shape (states, figures)."""
        volts = np.abs(solved.across[:, self._places])
        off = solved.dropped[:, self._places] | ~np.isfinite(volts)
        lost = np.abs(np.nan_to_num(solved.across)) @ self._ways
        amps = np.nan_to_num(solved.currents[:, self._carry])
        minus = solved.voltages[:, self._pairs]
        apart = np.nan_to_num(minus[:, :, 0] - minus[:, :, 1])
        low = np.where(off, OFF, -volts)
        parts = (low, lost, amps, -amps, amps, -amps, apart, -apart)
        return np.concatenate(parts, axis=1)

    def counts(self, rows: list[Row], brief: frozenset[str]) -> Bools:
        """Return in which states each figure counts, shape (states, figures)."""
        there = [row.on | row.closed for row in rows]
        needs: Mapping[frozenset[str], list[bool]] = {
            on: [on <= one for one in there] for on in dict.fromkeys(a.on for a in self.asked)
        }
        fed = np.array([needs[one.on] for one in self.asked], np.bool_).T
        lasts = np.array([not row.on & brief for row in rows], np.bool_)
        return np.asarray(fed & (lasts[:, None] | ~self._lasting))
