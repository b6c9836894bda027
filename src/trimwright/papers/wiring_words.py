"""What is said in words on a wiring diagram: wires' labels, colours, rules, ways out."""

from collections.abc import Iterable

from trimwright.build import Wiring
from trimwright.quantities import Quantity
from trimwright.wiring import Proof, WiringOutcome

CAUTION = "Disconnect the battery before you work on it; local codes and licensed practice come first."
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
    sizes = [wire.size for wire in outcome.loom.wires]
    if any(size is None for size in sizes):
        words.append("In brackets: chosen, the thinnest that does; (?): not known.")
    if any(size is None or "mm" in size.text.lower() for size in sizes):
        words.append("Plain figures are mm².")
    if used:
        words.append(f"{', '.join(f'{code} {COLOURS[code]}' for code in sorted(used))} (IEC 60757).")
    return " ".join(words)


def _codes(colour: str | None) -> Iterable[str]:
    """Return the codes of a colour."""
    return () if colour is None else (colour[n : n + 2] for n in range(0, len(colour), 2))


def rule_words(proof: Proof) -> str:
    """Return a rule in words, what was checked, and the single faults that break it."""
    rule = f"Rule: {proof.rule.name}"
    return rule


def ways_out(wiring: Wiring) -> tuple[str, ...]:
    """Return how each way out that a load unlatches opens without power."""
    found = []
    for load in wiring.loads:
        if load.opens:
            how = load.by_hand or "not written; find out before the trim is on"
            found.append(f"Without power, {load.opens}: {how}.")
    return tuple(found)
