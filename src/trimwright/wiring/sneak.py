"""Ways that current finds once a ground point is lost: loads that run though they should be off."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from trimwright.build import Wiring
from trimwright.quantities import Unit
from trimwright.wiring.logic import Board, Fault
from trimwright.wiring.metered import Stand, metered, stand
from trimwright.wiring.network import Solved, conducting_part, solve
from trimwright.wiring.outcome import KEPT, Electrics, connections, electrics
from trimwright.wiring.use import Row

SHARE = 0.1  # of the feed's voltage that a load may get while it is off
LEAST_A = 2e-3  # below this nothing flows but what electronics pass while they are off
TIED_V = 1e-6  # what differs by less is equal: the first state is told


@dataclass(frozen=True, slots=True)
class Sneak:
    """A load that runs by a way nobody wired for it.

    Attributes
    ----------
    load : str
        What runs.
    ground : str
        The ground point that is lost.
    row : Row
        How the car stands.
    volts : float
        Across it, from its first terminal to its second [V].
    sound_v : float
        The same with the ground as it should be [V].
    through : tuple of str
        The other loads that carry current then and did not carry it, or not that way round, before;
        and those whose current went to the lost ground.
    """

    load: str
    ground: str
    row: Row
    volts: float
    sound_v: float
    through: tuple[str, ...]

    @property
    def backwards(self) -> bool:
        """Whether it ran with the ground whole, and now runs the other way round."""
        return self.volts * self.sound_v < 0 and abs(self.sound_v) > abs(self.volts) * SHARE


@lru_cache(maxsize=KEPT)
def sneaks(wiring: Wiring, unit: Unit) -> tuple[Sneak, ...]:
    """Return for each load and ground point the state in which most sneaks through the load.

    Every ground point is lost in turn, in the first of the plainest states with the same loads on
    that sends a current there, and the relays settle anew.
    """
    own = electrics(wiring, unit)
    if own is None:
        return ()
    _, network, _ = connections(wiring)
    names = [one.name for one in wiring.loads]
    best: dict[tuple[str, str], Sneak] = {}
    board = Board(network)
    for ground in wiring.grounds:
        fault = Fault("ground lost", f"{ground.name} stud")
        pairs = _stands(board, board.with_fault(fault), _plain(own, ground.name))
        if not pairs:
            continue
        asked = [*(sound for _, sound, _ in pairs), *(lost for _, _, lost in pairs)]
        circuit = own.solved.circuit
        solved = solve(*conducting_part(circuit, metered(circuit, asked, network, wiring)))
        for number, (row, _, _) in enumerate(pairs):
            for one in _found(solved, (number, number + len(pairs)), row, ground.name, names):
                old = best.get((one.load, one.ground))
                if old is None or abs(one.volts) > abs(old.volts) + TIED_V:
                    best[one.load, one.ground] = one
    return tuple(best.values())


def _plain(own: Electrics, ground: str) -> tuple[Row, ...]:
    """Return the plainest states that send a current to a ground point, one for what is on."""
    place = own.solved.circuit.element(f"{ground} to body")
    flows = ~(np.abs(own.solved.currents[:, place]) <= LEAST_A)  # or is not known
    plain: dict[frozenset[str], Row] = {}
    for row, has in zip(own.rows, flows, strict=True):
        if has and not row.crowd:
            plain.setdefault(row.on, row)
    return tuple(plain.values())


def _stands(sound: Board, lost: Board, rows: tuple[Row, ...]) -> list[tuple[Row, Stand, Stand]]:
    """Return the states with nothing wrong and with a ground lost, where relays find rest in both."""
    both = [
        (row, stand(sound, row.mode, row.state), stand(lost, row.mode, row.state)) for row in rows
    ]
    return [(row, one, other) for row, one, other in both if one is not None and other is not None]


def _found(
    solved: Solved, numbers: tuple[int, int], row: Row, ground: str, loads: list[str]
) -> list[Sneak]:
    """Return the loads that sneak current in one state, sound and with the ground lost."""
    before, after = numbers
    at = {one.name: n for n, one in enumerate(solved.circuit.elements)}
    places = {name: at[name] for name in loads if name in at}
    feed = max(np.nanmax(np.abs(solved.voltages[before]), initial=0.0), 1.0)
    across = np.nan_to_num(solved.across[[before, after]])  # 0 where a load hangs on nothing
    volts = {name: across[:, place].tolist() for name, place in places.items()}
    amps = np.abs(np.nan_to_num(solved.currents[after]))
    told = []
    for name, (was, now) in volts.items():
        off = abs(was) < SHARE * feed
        turned = was * now < 0
        if abs(now) > SHARE * feed and (off or turned) and amps[places[name]] > LEAST_A:
            others = tuple(
                n for n, p in places.items() if n != name and amps[p] > LEAST_A and n in row.on
            )
            told.append(Sneak(name, ground, row, now, was, others))
    return told
