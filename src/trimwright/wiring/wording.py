"""Faults, positions and names of the wiring in words."""

from collections.abc import Iterable

from trimwright.build import WiringRule
from trimwright.wiring.logic import Fault, State

RESTING = ("rest", "no", "out", "stopped")
STUD = " stud"
_SAID = {
    "contact welded": "{} welded",
    "contact open": "{} not closing",
    "wire broken": "{} broken",
    "fuse blown": "{} blown",
    "ground lost": "{} lost",
    "coil open": "coil of {} broken",
    "bad crimp": "a bad crimp in {}",
}


def fault_words(fault: Fault) -> str:
    """Return a fault in words.

    Examples
    --------
    >>> fault_words(Fault("ground lost", "tail stud stud")), fault_words(Fault("coil open", "horn"))
    ('tail stud lost', 'coil of horn broken')
    """
    return _SAID[fault.kind].format(fault.of.removesuffix(STUD))


def faults_words(faults: Iterable[Fault]) -> tuple[str, ...]:
    """Return faults in words, the wires of one path together.

    Examples
    --------
    >>> faults_words([Fault("wire broken", f"horn {n}") for n in (1, 2, 4)])
    ('horn 1, 2 or 4 broken',)
    """
    return tuple(words for words, _ in faults_told(faults))


def faults_told(faults: Iterable[Fault]) -> tuple[tuple[str, tuple[Fault, ...]], ...]:
    """Return the wires of one path together, and every other fault, in words and each by itself."""
    told: dict[tuple[str, str], list[tuple[str, Fault]]] = {}
    for fault in faults:
        stem, _, number = fault.of.rpartition(" ")
        wire = fault.kind in ("wire broken", "bad crimp") and number.isdigit()
        told.setdefault((fault.kind, stem if wire else fault.of), []).append(
            (number if wire else "", fault)
        )
    found = []
    for (kind, of), own in told.items():
        numbers = [number for number, _ in own]
        name = f"{of} {_either(numbers)}" if numbers[0] else of.removesuffix(STUD)
        found.append((_SAID[kind].format(name), tuple(fault for _, fault in own)))
    return tuple(found)


def _either(words: list[str]) -> str:
    """Return words as a choice: '1, 2 or 4'."""
    return " or ".join([", ".join(words[:-1])] * (len(words) > 1) + words[-1:])


def rule_words(rule: WiringRule) -> str:
    """Return a rule in words: what it asks of which load, and when."""
    load, how = (rule.never, "never") if rule.never else (rule.always, "always")
    unless = f", unless {' or '.join(rule.excepting)}" if rule.excepting else ""
    return f"{load} {how} on while {' or '.join(rule.when)}{unless}"


def state_words(state: State) -> tuple[str, ...]:
    """Return the positions of a state that are not at rest, in words."""
    return tuple(
        f"{name} {fact_words(value)}".strip() for name, value in state.facts if value not in RESTING
    )


def fact_words(value: str) -> str:
    """Return a fact's value as it is said."""
    return {
        "yes": "",
        "ignition": "at ignition",
        "start": "at start",
        "accessory": "at accessory",
    }.get(value, value)
