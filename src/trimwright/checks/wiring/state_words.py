"""States and single faults in words."""

from trimwright.wiring import Example, FaultBreak, fault_words, state_words


def told(example: Example) -> str:
    """Return the positions of a state in words: what is not at rest."""
    parts = state_words(example.state)
    return f"with {', '.join(parts)}" if parts else "with all at rest"


def fault_told(one: FaultBreak) -> str:
    """Return a single fault in words: what became of what."""
    return fault_words(one.fault)
