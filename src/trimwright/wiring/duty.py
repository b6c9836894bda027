"""What fuses and relays are there for: what they feed, bear, look after and join."""

import numpy as np
from msgspec import Struct

from trimwright.build import Fuse, Relay
from trimwright.wiring.loom import End, Wire
from trimwright.wiring.outcome import Electrics, WiringOutcome
from trimwright.wiring.use import DIGITS


class FuseDuty(Struct, frozen=True):
    """One fuse.

    Attributes
    ----------
    fuse : Fuse
        As in the build.
    feeds : tuple of str
        The loads and coils whose current goes through it, in the order of the file.
    lasting_a : float or None
        The most that goes through it for good [A]; None where no network could be solved.
    wires : tuple of str
        The wires it is the last fuse ahead of.
    """

    fuse: Fuse
    feeds: tuple[str, ...]
    lasting_a: float | None
    wires: tuple[str, ...]


class RelayDuty(Struct, frozen=True):
    """One relay: for each of its terminals that is wired, the wires there."""

    relay: Relay
    wires: tuple[tuple[str, tuple[Wire, ...]], ...]


def lasting_a(solution: Electrics, element: str) -> float:
    """Return the most that goes through an element of a solved network for good [A]."""
    return most_a(solution, element, lasting=True)[0]


def most_a(solution: Electrics, element: str, *, lasting: bool) -> tuple[float, int]:
    """Return the most that goes through an element of a solved network [A], and in which state.

    Where it is to last, states in which a load that is on for a short time only draws are left out.
    """
    place = solution.solved.circuit.element(element)
    amps = np.abs(np.nan_to_num(solution.solved.currents[:, place]))
    if lasting:
        supplies = (one.use.consumer for one in solution.supplies)
        brief = {consumer.name for consumer in supplies if consumer.on_for_s is not None}
        amps = amps * np.array([not (row.on & brief) for row in solution.rows], dtype=bool)
    state = int(np.argmax(amps.round(DIGITS)))
    return float(amps[state]), state


def fuse_duties(found: WiringOutcome) -> tuple[FuseDuty, ...]:
    """Return what each fuse is there for, in the order of the file."""
    sizings = () if found.electrics is None else found.electrics.sizings
    return tuple(
        FuseDuty(
            fuse,
            tuple(
                dict.fromkeys(use.consumer.name for use in found.uses if fuse.name in use.path.to)
            ),
            None if found.electrics is None else lasting_a(found.electrics, fuse.name),
            tuple(one.wire for one in sizings if one.met.fuse == fuse.name),
        )
        for fuse in found.wiring.fuses
    )


def relay_duties(found: WiringOutcome) -> tuple[RelayDuty, ...]:
    """Return what each relay joins, in the order of the file."""
    return tuple(
        RelayDuty(
            relay,
            tuple(
                (terminal, some)
                for terminal in ("30", "87", "87a", "85", "86")
                if (some := wires_at(found, relay.name, terminal))
            ),
        )
        for relay in found.wiring.relays
    )


def wires_at(found: WiringOutcome, device: str, terminal: str) -> tuple[Wire, ...]:
    """Return the wires that end at a terminal, in the order of the loom."""
    there = (device, terminal)
    return tuple(
        one
        for one in found.loom.wires
        if there in ((one.start.device, one.start.terminal), (one.end.device, one.end.terminal))
    )


def other_end(wire: Wire, device: str) -> End:
    """Return the end of a wire that is not at a device."""
    return wire.end if wire.start.device == device else wire.start
