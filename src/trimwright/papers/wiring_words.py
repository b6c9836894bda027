"""What is said in words on a wiring diagram: wires' labels, colours, rules, ways out."""

from collections.abc import Iterable

from trimwright.build import Wiring
from trimwright.quantities import Quantity
from trimwright.wiring import (
    Proof,
    State,
    WiringOutcome,
    fault_words,
    rule_words,
    state_words,
    step_words,
)

CAUTION = (
    "Disconnect the battery before you work on it; local codes and licensed practice come first."
)
CHECKED = "Checked in every position of key, engine, switches and doors:"
REST = "All drawn at rest: key out, engine stopped, nothing worked. Terminals after DIN 72552."
COLOURS = {
    "BK": "black",
    "BN": "brown",
    "RD": "red",
    "OG": "orange",
    "YE": "yellow",
    "GN": "green",
    "BU": "blue",
    "VT": "violet",
    "GY": "grey",
    "WH": "white",
    "PK": "pink",
    "TQ": "turquoise",
    "GD": "gold",
    "SR": "silver",
}


def labels(outcome: WiringOutcome) -> dict[str, str]:
    """Return what is written along each wire: its size, in brackets where it is chosen; colour."""
    chosen = {}
    if outcome.electrics is not None:
        chosen = {one.wire: one.needed for one in outcome.electrics.sizings}
    found = {}
    for wire in outcome.loom.wires:
        needed = chosen.get(wire.name)
        size = f"({needed.name.removesuffix(' mm2')})" if needed else "(?)"
        if wire.size is not None:
            size = size_words(wire.size)
        found[wire.name] = f"{size} {wire.colour or ''}".strip()
    return found


def size_words(size: Quantity) -> str:
    """Return a written wire size as it stands along a wire: mm2 without its unit, AWG with it."""
    text = size.text.strip()
    return f"{size.value:g}" if "mm" in text.lower() else text.upper()


def key_words(outcome: WiringOutcome) -> str:
    """Return what sizes, brackets and colours along the wires mean: only what is on the wires."""
    used = list(dict.fromkeys(code for w in outcome.loom.wires for code in _codes(w.colour)))
    words = []
    along = labels(outcome).values()
    if any(one.startswith("(") for one in along):
        words.append("In brackets: chosen, the thinnest that does; (?): not known.")
    if any("AWG" not in one and "(?)" not in one for one in along):
        words.append("Plain figures are mm².")
    if used:
        words.append(
            f"{', '.join(f'{code} {COLOURS[code]}' for code in sorted(used))} (IEC 60757)."
        )
    return " ".join(words)


def _codes(colour: str | None) -> Iterable[str]:
    """Return the codes of a colour."""
    return () if colour is None else (colour[n : n + 2] for n in range(0, len(colour), 2))


def rules_told(outcome: WiringOutcome) -> tuple[str, ...]:
    """Return each rule in words, what was checked of it, and the single faults that break it."""
    rules = zip(outcome.wiring.rules, outcome.proofs, strict=True)
    return tuple(
        f"Rule: {rule_words(rule)}. {_answer(proof, outcome.wiring)}" for rule, proof in rules
    )


def _answer(proof: Proof, wiring: Wiring) -> str:
    """Return what became of a rule."""
    answer, state = proof.answer, proof.broken_in
    if answer == "vacuous":
        return "It asks nothing: no position is as it says."
    if answer == "unsettled":
        return "It cannot be told: relays that it hangs on find no rest."
    if answer == "unfinished":
        return "It could not be told: its units go through too many states."
    if answer == "broken":
        if proof.offence is not None and proof.offence.steps:
            steps = enumerate(step_words(proof.offence.steps, wiring), 1)
            return f"It does not hold. From rest: {'; '.join(f'{n}. {one}' for n, one in steps)}."
        return f"It does not hold{f': {_state(state)}' if state else ''}."
    faults = ", ".join(fault_words(one.fault) for one in proof.faults)
    return f"{CHECKED} it holds. " + (
        f"Single faults that break it: {faults}." if faults else "No single fault breaks it."
    )


def ways_out(wiring: Wiring) -> tuple[str, ...]:
    """Return how each way out that a load unlatches opens without power."""
    return tuple(
        f"Without power, the {load.opens}: {load.by_hand or 'nobody wrote how it opens by hand'}."
        for load in wiring.loads
        if load.opens
    )


def unshown(outcome: WiringOutcome, left_out: tuple[str, ...]) -> tuple[str, ...]:
    """Return what the diagram does not show, and what nothing sets to work."""
    found = []
    if left_out:
        found.append(f"Not drawn, for no wire leads on from it: {', '.join(left_out)}.")
    if outcome.idle:
        found.append(f"Nothing sets to work: {', '.join(one.name for one in outcome.idle)}.")
    return tuple(found)


def _state(state: State) -> str:
    """Return the positions of a state: what is not at rest."""
    parts = state_words(state)
    return f"with {', '.join(parts)}" if parts else "with all at rest"
