"""What each wire meets where it lies: how warm, in what company, after which fuse, what current."""

from collections.abc import Iterable
from math import sqrt

import numpy as np
from msgspec import Struct

from trimwright.build import Wiring
from trimwright.stock import bundle_factors
from trimwright.wiring.copper import bundle_factor
from trimwright.wiring.loom import Loom, Wire
from trimwright.wiring.network import Solved
from trimwright.wiring.use import Row, Use
from trimwright.wiring.zone import AMBIENT_C

UNPLACED_MM = 2000.0  # taken for a wire whose way is not known; a finding says so
MOST_WIRES = bundle_factors()[-1].wires


class Met(Struct, frozen=True):
    """What one wire meets.

    Attributes
    ----------
    lasting_a, most_a : float
        The most it carries for good, and at all [A].
    ambient_c : float
        The warmest place it runs through [degC].
    fullest : int or None
        The trunk in which it has most company.
    beside : int
        How many wires lie there, itself included.
    fuse : str or None
        The last fuse ahead of it, on the way from source to load.
    ahead : bool
        Whether it lies between source and load, where a short to ground drives a current.
    """

    lasting_a: float
    most_a: float
    ambient_c: float
    fullest: int | None
    beside: int
    fuse: str | None
    ahead: bool


def length_m(one: Wire) -> float:
    """Return how long a wire is [m]; taken for now where its way is not known."""
    return (UNPLACED_MM if one.cut_mm is None else one.cut_mm) / 1000.0


def met(
    wiring: Wiring, loom: Loom, found: tuple[Use, ...], rows: tuple[Row, ...], solved: Solved
) -> dict[str, Met]:
    """Return what each wire of a loom meets, by its name.

    Parameters
    ----------
    wiring, loom : Wiring, Loom
        The build's, and its wires.
    found : tuple of Use
        For the ways that current takes.
    rows : tuple of Row
        The states that were solved.
    solved : Solved
        What flows in them.
    """
    amps = np.abs(np.nan_to_num(solved.currents))
    brief = {use.consumer.name for use in found if use.consumer.on_for_s is not None}
    lasting = np.array([not (row.on & brief) for row in rows], dtype=bool)
    ahead = _ahead(wiring, found)
    crowds = {number: len(loom.through(number)) for number in range(len(wiring.trunks))}
    told: dict[str, Met] = {}
    for one in loom.wires:
        own = amps[:, solved.circuit.element(one.name)]
        trunks = () if one.route is None else one.route.trunks
        zones: Iterable[float] = (AMBIENT_C[wiring.trunks[t].zone] for t in trunks)
        fullest = max(trunks, key=lambda t: crowds[t], default=None)
        told[one.name] = Met(
            float(np.max(own[lasting], initial=0.0)),
            float(np.max(own, initial=0.0)),
            max(zones, default=AMBIENT_C["cabin"]),
            fullest,
            1 if fullest is None else crowds[fullest],
            ahead.get(one.name),
            one.name in ahead,
        )
    return told


def _ahead(wiring: Wiring, found: tuple[Use, ...]) -> dict[str, str | None]:
    """Return for all that lies between a source and a load the last fuse ahead of it."""
    fuses = {fuse.name for fuse in wiring.fuses}
    told: dict[str, str | None] = {}
    for use in found:
        fuse: str | None = None
        for name in use.path.to:
            if name in fuses:
                fuse = name
            told[name] = told.get(name) or fuse
    return told


def first_fuses(wiring: Wiring, found: tuple[Use, ...]) -> dict[str, str]:
    """Return for what lies ahead of all fuses the next one on its way, of several the largest."""
    rated = {fuse.name: fuse.rated.value for fuse in wiring.fuses}
    told: dict[str, str] = {}
    for use in found:
        place = next((n for n, name in enumerate(use.path.to) if name in rated), 0)
        for name in use.path.to[:place]:
            told[name] = max(
                told.get(name, ""), use.path.to[place], key=lambda it: rated.get(it, 0)
            )
    return told


def company(told: dict[str, Met], loom: Loom, bears_a: dict[str, float]) -> dict[str, float]:
    """Return the share of what it could carry alone that each wire may carry in its company.

    Its neighbours in the fullest trunk count by the root of the mean of the squares of what they
    carry, as shares of what they may: heat goes with the square of the current.
    """
    squares = {
        name: (own.lasting_a / bears_a[name]) ** 2 if bears_a.get(name) else 0.0
        for name, own in told.items()
    }
    found: dict[str, float] = {}
    for name, own in told.items():
        if own.fullest is None or own.beside < 2:  # noqa: PLR2004  nobody beside it
            found[name] = 1.0
            continue
        heat = sum(squares[one.name] for one in loom.through(own.fullest)) - squares[name]
        load = min(1.0, sqrt(heat / (own.beside - 1)))
        found[name] = bundle_factor(min(own.beside, MOST_WIRES), load_share=load)
    return found
