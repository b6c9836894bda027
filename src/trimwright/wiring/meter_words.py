"""A reading of a meter in words: where the probes go, how the car stands, what is expected."""

import math

from trimwright.build import Wiring
from trimwright.wiring.probing import Probing
from trimwright.wiring.wording import state_words


def probe_words(one: Probing) -> tuple[str, str]:
    """Return where the red and the black probe go, a device's own terminals by themselves."""
    own = f"{one.of} "
    red, black = (
        f"its {end.removeprefix(own)}" if end.startswith(own) else end
        for end in (one.red, one.black)
    )
    return red, black


def position_words(one: Probing, wiring: Wiring) -> tuple[str, ...]:
    """Return how key, engine and switches are put for a reading, and where units stand by then.

    A unit that stands as it wakes is not told of, like all that is at rest.
    """
    asleep = {(unit.name, unit.states[0]) for unit in wiring.units}
    said = (text for text in state_words(one.use.state) if not text.startswith(("key", "engine")))
    units = (
        f"{name} {state}" for name, state in one.use.state.units if (name, state) not in asleep
    )
    return (one.use.mode.name, *said, *units)


def limit_words(low: float, high: float) -> str:
    """Return limits in words, rounded away from each other.

    Examples
    --------
    >>> limit_words(10.96, 12.27)
    '10.9 to 12.3 V'
    """
    return f"{math.floor(low * 10) / 10:g} to {math.ceil(high * 10) / 10:g} V"
