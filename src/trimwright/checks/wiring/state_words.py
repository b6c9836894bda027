"""States and single faults in words."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trimwright.wiring import Example, FaultBreak

RESTING = ("rest", "no", "out", "stopped")


def told(example: "Example") -> str:
    """Return the positions of a state in words: what is not at rest."""
    parts = []
    for name, value in example.state.facts:
        if value in RESTING:
            continue
        parts.append(f"{name} {_value(value)}".strip())
    return f"with {', '.join(parts)}" if parts else "with all at rest"


def _value(value: str) -> str:
    """Return a fact's value as it is said."""
    return {
        "yes": "",
        "ignition": "at ignition",
        "start": "at start",
        "accessory": "at accessory",
    }.get(value, value)


def fault_told(one: "FaultBreak") -> str:
    """Return a single fault in words: what became of what."""
    kind, of = one.fault.kind, one.fault.of.removesuffix(" stud")
    return {
        "contact welded": f"{of} welded",
        "contact open": f"{of} not closing",
        "wire broken": f"{of} broken",
        "fuse blown": f"{of} blown",
        "ground lost": f"{of} lost",
        "coil open": f"coil of {of} broken",
    }[kind]
