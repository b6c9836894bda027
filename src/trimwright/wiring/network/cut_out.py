"""Which constant-power loads can run together."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trimwright.wiring.network.descent import Core, descended
from trimwright.wiring.network.reduction import stamped, totalled

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class Settled:
    """Voltages (rows, nodes) [V]; which loads run, and which bring the voltage down for good.

    `on` and `collapsed` have shape (rows, elements), `reached` (rows,).
    """

    voltages: Floats
    on: Bools
    collapsed: Bools
    reached: Bools


def settled(core: Core, wanted: Bools) -> Settled:
    """Return a network with the most of its constant-power loads on that its voltage carries.

    All that have at least their cut-out with no such load on are switched on together. Where one
    is below its cut-out, or there is no solution, the one that stands lowest in share of its
    cut-out drops out, of equals the first, and the rest is solved anew, until all that are on can
    stay. Each that is off at or above its cut-out is then tried again, in order, and stays on if
    with it no load falls below its cut-out; where it stands below already, its own current could
    only lower it. Where no load's current raises another's voltage, no further one could be
    on. Where there is no solution and no load that is on has a cut-out, the voltage collapses.

    Parameters
    ----------
    core : Core
        The network.
    wanted : ndarray of bool, shape (rows, elements)
        Which constant-power loads are switched on and have a way for their current.
    """
    none = np.zeros_like(wanted)
    free, reached = descended(core, none, _first(core))
    unloaded = core.across(free)
    able = wanted & (unloaded > 0) & reached[:, None]
    on = able & (unloaded >= core.laws.states.volts)
    voltages, held = _dropped(core, on, free)
    for load in np.flatnonzero(core.laws.load):
        enough = core.across(voltages)[:, load] >= core.laws.states.volts[:, load]
        rows = np.flatnonzero(able[:, load] & ~on[:, load] & held & enough)
        if not len(rows):
            continue
        more = on[rows]
        more[:, load] = True
        there, stays = _stay(core.rows_of(rows), more, free[rows])
        on[rows[stays]], voltages[rows[stays]] = more[stays], there[stays]
    collapsed = none
    for row in np.flatnonzero(reached & ~held):
        alone = np.array([row])
        overtaxed = _overtaxed(core.rows_of(alone), voltages[alone], on[alone])
        collapsed[row, overtaxed] = True
    return Settled(voltages, on, collapsed, reached)


def _first(core: Core) -> Floats:
    """Return voltages to begin from: lamps as at design voltage, alternators as they regulate."""
    laws, states, nodes = core.laws, core.laws.states, core.network.inflow.shape[1]
    matrix = core.network.matrix + stamped(core.ends, states.siemens, nodes)
    driven = np.where(laws.alternator, states.siemens * states.volts, 0.0)
    inflow = core.network.inflow + totalled(core.ends, driven, -driven, nodes)
    voltages = np.zeros_like(inflow)
    voltages[:, 1:] = np.linalg.solve(matrix[:, 1:, 1:], inflow[:, 1:, None])[:, :, 0]
    return voltages


def _dropped(core: Core, on: Bools, free: Floats) -> tuple[Floats, Bools]:
    """Take loads out of `on` until the others run; return the voltages and where they hold."""
    voltages, reached = free.copy(), np.ones(len(free), np.bool_)
    left = np.flatnonzero(on.any(axis=1))
    while len(left):
        part = core.rows_of(left)
        there, held = descended(part, on[left], free[left])
        voltages[left], reached[left] = there, held
        across, least = part.across(there), part.laws.states.volts
        low = on[left] & (least > 0) & (~held[:, None] | (across < least))
        share = np.full_like(across, np.inf)
        np.divide(across, least, out=share, where=low)
        drops = low.any(axis=1)
        on[left[drops], np.argmin(share, axis=1)[drops]] = False
        left = left[drops]
    return voltages, reached


def _stay(core: Core, on: Bools, free: Floats) -> tuple[Floats, Bools]:
    """Return voltages with loads on, and in which states all of them stay on."""
    there, held = descended(core, on, free)
    enough = core.across(there) >= core.laws.states.volts
    return there, held & np.all(enough | ~on, axis=1)


def _overtaxed(core: Core, voltages: Floats, on: Bools) -> int:
    """Return the load of a state that is nearest the limit of what its feed carries.

    P Z / u^2 (P its power [W], u the voltage across it [V], Z the resistance that it sees [ohm]) is
    1 where it reaches that limit by itself.
    """
    slopes = core.slopes(voltages, np.zeros_like(on))[0]
    ends = np.zeros((voltages.shape[1], len(core.ends)))
    ends[core.ends[:, 0], np.arange(len(core.ends))] = 1.0
    ends[core.ends[:, 1], np.arange(len(core.ends))] -= 1.0
    seen = np.sum(ends[1:] * np.linalg.solve(slopes, ends[1:]), axis=0)
    near = np.zeros_like(seen)
    asks = core.laws.states.watts[0] * seen
    np.divide(asks, core.across(voltages)[0] ** 2, out=near, where=on[0])
    return int(np.argmax(near))
