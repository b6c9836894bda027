"""One fault tried in one state: what no longer works, what works that should not, what breaks."""

from msgspec import Struct

from trimwright.build import Wiring
from trimwright.quantities import Unit
from trimwright.wiring.contacts import rule_of
from trimwright.wiring.faulted import STOPPED
from trimwright.wiring.lit import Lit, Looked, facts_put, looked_at, seen_lit, units_put
from trimwright.wiring.logic import Board, Fault, Standing, at_rest, broken
from trimwright.wiring.meter import APART_V
from trimwright.wiring.mode import Mode
from trimwright.wiring.outcome import connections

Pair = tuple[float | None, float | None]


class Tried(Struct, frozen=True):
    """A state with a fault beside the same state without it.

    Attributes
    ----------
    lit : Lit or None
        What follows with the fault; None where relays find no rest then.
    stopped : tuple of str
        Loads that work without the fault and not with it.
    wrongly : tuple of (str, float or None)
        Loads that work with it, or get a voltage through others, and do not without it [V].
    moved : tuple of (str, float, float)
        Loads that work with and without it, and whose voltage it moves: from, to [V].
    breaks : tuple of int
        Numbers of the rules that are kept in this state without the fault and not with it.
    """

    lit: Lit | None
    stopped: tuple[str, ...] = ()
    wrongly: tuple[tuple[str, float | None], ...] = ()
    moved: tuple[tuple[str, float, float], ...] = ()
    breaks: tuple[int, ...] = ()


def tried(wiring: Wiring, unit: Unit, mode: Mode, put: dict[str, str], fault: Fault) -> Tried:
    """Return what a fault does in a mode of the car with some switches worked."""
    network = connections(wiring)[1]
    facts, units = facts_put(network, mode, put), units_put(network, put)

    def looked(board: Board) -> Looked | None:
        begun = at_rest(board, facts, units)
        return None if begun is None else looked_at(wiring, unit, mode, (board, begun))

    before, after = looked(Board(network)), looked(Board(network, fault))
    if after is None:
        return Tried(None)
    now, breaks = seen_lit(wiring, after), broken_rules(wiring, after.board, after.seen)
    if before is None:
        return Tried(now, breaks=breaks)
    kept = broken_rules(wiring, before.board, before.seen)
    told = tuple(n for n in breaks if n not in kept)
    return Tried(now, *_differing(seen_lit(wiring, before), now), told)


def broken_rules(wiring: Wiring, board: Board, seen: Standing) -> tuple[int, ...]:
    """Return the numbers of the rules that are broken in a state."""
    laid, network, _ = connections(wiring)
    rules = (rule_of(one, wiring, network, laid) for one in wiring.rules)
    return tuple(n for n, rule in enumerate(rules) if board.holds(broken(rule), seen))


def _differing(
    was: Lit, now: Lit
) -> tuple[
    tuple[str, ...], tuple[tuple[str, float | None], ...], tuple[tuple[str, float, float], ...]
]:
    """Return what stops, what works wrongly, and whose voltage moves."""
    before, after = dict(was.on), dict(now.on)
    stopped = tuple(n for n in before if n not in after or _stops((before[n], after[n])))
    strayed = {name for name, _ in was.stray}
    wrongly = (
        *((name, volts) for name, volts in now.on if name not in before),
        *((n, volts) for n, volts in now.stray if n not in strayed and n not in before),
    )
    both = ((name, before[name], after[name]) for name in before if name in after)
    moved = tuple(
        (name, one, other)
        for name, one, other in both
        if one is not None and other is not None and abs(other - one) > APART_V
        if name not in stopped
    )
    return stopped, wrongly, moved


def _stops(volts: Pair) -> bool:
    """Return whether a load that worked stops for lack of voltage."""
    before, after = volts
    return before is not None and (after is None or after < STOPPED * before)
