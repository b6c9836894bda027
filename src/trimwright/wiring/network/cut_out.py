"""Which constant-power loads can run together."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.wiring.network.descent import Core, descended
from trimwright.wiring.network.law import DEAD_V

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


class Settled(Struct, frozen=True, eq=False):
    """What elements draw [A], see `Core`; which loads run, and which bring the voltage down for good.

    All of shape (rows, elements) but `reached`, (rows,).
    """

    drawn: Floats
    on: Bools
    collapsed: Bools
    reached: Bools


def settled(core: Core, wanted: Bools) -> Settled:
    """Return a network with the most of its constant-power loads on that its voltage carries.

    All that have a voltage, and at least their cut-out, with no such load on are switched on
    together. Where one is below its cut-out, or there is no solution, the one that stands lowest in
    share of its cut-out drops out, of equals the first, and the rest is solved anew, until all that
    are on can stay. Each that is off at or above its cut-out is then tried again, in order, and stays on if
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
    free, reached = descended(core, none, np.zeros(wanted.shape))
    unloaded, least = core.across(free), core.laws.least_v
    able = wanted & (unloaded > DEAD_V) & reached[:, None]
    on = able & (unloaded >= least)
    drawn, held = _dropped(core, on, free)
    for load in np.arange(wanted.shape[1])[core.laws.load]:
        tried = np.flatnonzero(able[:, load] & ~on[:, load] & held)
        rows = tried[core.rows_of(tried).across(drawn[tried])[:, load] >= least[tried, load]]
        if not len(rows):
            continue
        more = on[rows]
        more[:, load] = True
        there, stays = _stay(core.rows_of(rows), more, drawn[rows])
        on[rows[stays]], drawn[rows[stays]] = more[stays], there[stays]
    collapsed = none
    for row in np.flatnonzero(reached & ~held):
        alone = np.array([row])
        overtaxed = _overtaxed(core.rows_of(alone), drawn[alone], on[alone])
        collapsed[row, overtaxed] = True
    return Settled(drawn, on, collapsed, reached)


def _dropped(core: Core, on: Bools, free: Floats) -> tuple[Floats, Bools]:
    """Take loads out of `on` until the others run; return what is drawn and where it holds."""
    drawn, reached = free.copy(), np.ones(len(free), np.bool_)
    left = np.flatnonzero(on.any(axis=1))
    while len(left):
        part = core.rows_of(left)
        # without a solution the lowest is that where a search ends: all begin from the same place
        there, held = descended(part, on[left], free[left])
        drawn[left], reached[left] = there, held
        across, least = part.across(there), part.laws.least_v
        low = on[left] & (least > 0) & (~held[:, None] | (across < least))
        share = np.full_like(across, np.inf)
        np.divide(across, least, out=share, where=low)
        drops = low.any(axis=1)
        on[left[drops], np.argmin(share, axis=1)[drops]] = False
        left = left[drops]
    return drawn, reached


def _stay(core: Core, on: Bools, fewer: Floats) -> tuple[Floats, Bools]:
    """Return what is drawn with loads on, and in which states all of them stay on."""
    there, held = descended(core, on, fewer)
    enough = core.across(there) >= core.laws.least_v
    return there, held & np.all(enough | ~on, axis=1)


def _overtaxed(core: Core, drawn: Floats, on: Bools) -> int:
    """Return the load of a state that is nearest the limit of what its feed carries.

    P Z / u^2 (P its power [W], u the voltage across it [V], Z the resistance that it sees [ohm]) is
    1 where it reaches that limit by itself.
    """
    here = core.at(drawn, np.zeros_like(on))
    seen = np.diagonal(core.seen(here.slopes, on[0])[0])
    near = np.zeros(on.shape[1])
    near[on[0]] = core.laws.watts[0, on[0]] * seen / here.across[0, on[0]] ** 2
    return int(np.argmax(near))
