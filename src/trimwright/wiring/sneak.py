"""Ways that current finds once a ground point is lost: what runs, or pulls in, though it is off."""

from collections.abc import Iterator
from functools import lru_cache

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Wiring
from trimwright.quantities import Unit
from trimwright.wiring.logic import Fault
from trimwright.wiring.metered import Met, Stand
from trimwright.wiring.outcome import KEPT, Electrics, electrics
from trimwright.wiring.rig import Rig, rig_of
from trimwright.wiring.use import Row

SHARE = 0.1  # of the feed's voltage that a load may get while it is off
LEAST_A = 2e-3  # below this nothing flows but what electronics pass while they are off
TIED_V = 1e-6  # what differs by less is equal: the first state is told

Pair = tuple[Row, tuple[Stand, Stand]]


class Sneak(Struct, frozen=True):
    """A load that runs, or a relay that moves, by a way nobody wired for it.

    Attributes
    ----------
    load : str
        What runs, or the relay.
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
    relay : str
        '' of a load; else what the relay does: 'pulls in', 'drops out' or 'chatters'.
    runs : tuple of str
        The loads that run, or no longer run, because the relay does so.
    """

    load: str
    ground: str
    row: Row
    volts: float
    sound_v: float
    through: tuple[str, ...]
    relay: str = ""
    runs: tuple[str, ...] = ()

    @property
    def backwards(self) -> bool:
        """Whether it ran with the ground whole, and now runs the other way round."""
        return self.volts * self.sound_v < 0 and abs(self.sound_v) > abs(self.volts) * SHARE


@lru_cache(maxsize=KEPT)
def sneaks(wiring: Wiring, unit: Unit) -> tuple[Sneak, ...]:
    """Return for each load or relay and ground point the state in which most sneaks through it.

    Every ground point is lost in turn, in the first of the plainest states with the same loads on
    that sends a current there, and the relays settle anew, by what contacts join and by the volts
    at their coils. Loads that run because a relay has moved are told with the relay.
    """
    own, rig = electrics(wiring, unit), rig_of(wiring, unit)
    if own is None or rig is None:
        return ()
    best: dict[tuple[str, str], Sneak] = {}
    for ground in wiring.grounds:
        fault = Fault("ground lost", f"{ground.name} stud")
        pairs = list(_pairs(rig, fault, _plain(own, ground.name)))
        met, settled = rig.met(
            [one for part in (0, 1) for _, both in pairs for one in [both[part]]]
        )
        for number, (row, (_, lost)) in enumerate(pairs):
            places = (number, number + len(pairs))
            now = _Lost(rig, ground.name, row, (lost, settled[places[1]]))
            for one in (*now.relays(), *now.loads(met, places)):
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


def _pairs(rig: Rig, fault: Fault, rows: tuple[Row, ...]) -> Iterator[Pair]:
    """Yield the states with nothing wrong and with a fault, where relays find rest in both."""
    for row in rows:
        sound, lost = (rig.stand(row.mode, row.state, one) for one in (None, fault))
        if sound is not None and lost is not None:
            yield row, (sound, lost)


class _Lost(Struct, frozen=True):
    """One state with a ground lost: by contacts alone, and as coils have it."""

    rig: Rig
    ground: str
    row: Row
    lost: tuple[Stand, Stand]

    def _fed(self) -> tuple[frozenset[str], frozenset[str]]:
        """Return the loads that are fed by contacts alone, and as coils have it."""
        loads = {one.name for one in self.rig.network.loads}
        board = self.rig.board(self.lost[0].fault)
        before, after = (board.fed(self.rig.standing(one)) & loads for one in self.lost)
        return before, after

    def relays(self) -> Iterator[Sneak]:
        """Yield the relays that stand otherwise than contacts alone have them."""
        begun, settled = self.lost
        before, after = self._fed()
        for relay in dict.fromkeys(one.relay for one in settled.urged):
            volts = next(one.volts for one in settled.urged if one.relay == relay)
            was, now = (relay in one.state.pulled for one in (begun, settled))
            if settled.chatters == relay:
                yield Sneak(relay, self.ground, self.row, volts, 0.0, (), "chatters")
            elif was != now and not settled.chatters:
                runs = tuple(sorted(after - before if now else before - after))
                does = "pulls in" if now else "drops out"
                yield Sneak(relay, self.ground, self.row, volts, 0.0, (), does, runs)

    def loads(self, met: Met, places: tuple[int, int]) -> Iterator[Sneak]:
        """Yield the loads that sneak current in the state, beside it with the ground whole."""
        before, after = self._fed()
        names = [one.name for one in self.rig.wiring.loads if one.name not in after - before]
        told = [_across(met, number, names) for number in places]
        if any(one is None for one in told):
            return
        (was_v, _, feed), (now_v, amps, _) = (one for one in told if one is not None)
        for place, name in enumerate(names):
            was, now = float(was_v[place]), float(now_v[place])
            off, turned = abs(was) < SHARE * feed, was * now < 0
            if abs(now) > SHARE * feed and (off or turned) and amps[place] > LEAST_A:
                others = tuple(
                    n
                    for n, a in zip(names, amps, strict=True)
                    if n != name and a > LEAST_A and n in self.row.on
                )
                yield Sneak(name, self.ground, self.row, now, was, others)


def _across(
    met: Met, number: int, names: list[str]
) -> tuple[NDArray[np.float64], NDArray[np.float64], float] | None:
    """Return volts and amps of some loads in one state, and its highest voltage; None if unsolved."""
    place = met.of(number)
    if place is None or met.void[number]:
        return None
    solved, row = place
    at = {one.name: n for n, one in enumerate(solved.circuit.elements)}
    volts, amps = np.zeros(len(names)), np.zeros(len(names))  # 0 of what is in no part
    own = [n for n, name in enumerate(names) if name in at]
    there = [at[names[n]] for n in own]
    volts[own] = np.nan_to_num(solved.across[row, there])
    amps[own] = np.abs(np.nan_to_num(solved.currents[row, there]))
    return volts, amps, max(float(np.nanmax(np.abs(solved.voltages[row]))), 1.0)
