"""A move that a control unit lacks: it leaves a state as soon as what let it in is gone."""

from collections.abc import Iterator

from trimwright.build import ControlUnit, UnitMove, Wiring
from trimwright.findings import Edit, Remedy
from trimwright.wiring import Offence, WiringOutcome, keeps

WIRING, UNITS = "wiring", "units"


def lets_go(found: WiringOutcome, number: int, offence: Offence) -> tuple[Remedy, ...]:
    """Return the first move out of an offending state with which a rule is kept on every way.

    A unit that needs a terminal live to enter a state, and does not look at it again, stays there
    when it is let go. Each such terminal is tried as a reason to leave, back to where the unit
    came from.

    Parameters
    ----------
    found : WiringOutcome
        Of the build's wiring.
    number : int
        Of the rule, in the order of the file.
    offence : Offence
        The steps that break it, and where the units then stand.
    """
    stands = dict(offence.state.units) if offence.state else {}
    for place, unit in enumerate(found.wiring.units):
        state = stands.get(unit.name, "")
        if any(state in one.closed for one in unit.outputs):
            for entered, said in _let_in_by(unit, state):
                left = UnitMove.model_validate(
                    {"from": state, "to": entered.leaves, "when": (f"not {said}",)}
                )
                if keeps(_with(found.wiring, place, left), number):
                    return (_remedy(unit, place, left, said),)
    return ()


def _let_in_by(unit: ControlUnit, state: str) -> Iterator[tuple[UnitMove, str]]:
    """Yield each move into a state with each terminal of the unit that it asks to be live."""
    for move in unit.moves:
        for part in (part for text in move.when for part in text.strip().split(" and ")):
            words = " ".join(part.split())
            if move.enters == state and words.startswith(f"{unit.name} ") and " live" in words:
                yield move, words


def _with(wiring: Wiring, place: int, move: UnitMove) -> Wiring:
    """Return a wiring in which a unit has one more move."""
    unit = wiring.units[place]
    more = unit.model_copy(update={"moves": (*unit.moves, move)})
    units = (*wiring.units[:place], more, *wiring.units[place + 1 :])
    return wiring.model_copy(update={"units": units})


def _remedy(unit: ControlUnit, place: int, left: UnitMove, said: str) -> Remedy:
    """Return the move as an edit: one more reason for a move that is there, or a move of its own."""
    at = (WIRING, UNITS, place, "moves")
    same = [(one.leaves, one.enters, one.waits) for one in unit.moves]
    (reason,) = left.when
    if (left.leaves, left.enters, None) in same:
        number = same.index((left.leaves, left.enters, None))
        edits = [Edit((*at, number, "when", len(unit.moves[number].when)), reason)]
    else:
        number = len(unit.moves)
        told = (("from", left.leaves), ("to", left.enters))
        edits = [Edit((*at, number, key), text) for key, text in told]
        edits.append(Edit((*at, number, "when", 0), reason))
    says = f"Have {unit.name} go from {left.leaves} to {left.enters} as soon as {said.removesuffix(' live')} is not live."
    return Remedy(says, tuple(edits))
