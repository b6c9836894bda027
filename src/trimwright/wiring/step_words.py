"""The steps that lead from rest to a broken rule, in plain words."""

from trimwright.build import Switch, Wiring
from trimwright.wiring.logic import FactChange, RelayMove, Step
from trimwright.wiring.wording import RESTING

ENGINE = {"stopped": "the engine stops", "cranking": "the starter turns", "running": "the engine runs"}  # fmt: skip


def step_words(steps: tuple[Step, ...], wiring: Wiring) -> tuple[str, ...]:
    """Return steps, what follows each at once beside it."""
    told: list[str] = []
    for step in steps:
        if isinstance(step, FactChange):
            told.append(" and ".join(_change(name, value, wiring) for name, value in step.facts))
            continue
        if isinstance(step, RelayMove):
            words = f"{step.relay} {'pulls in' if step.pulls_in else 'drops out'}"
        else:
            words = f"{step.unit} goes to {step.to}"
        told[-1:] = [f"{told[-1]}, {words}"] if told else [words]
    return tuple(told)


def _change(name: str, value: str, wiring: Wiring) -> str:
    """Return one change of the car's facts."""
    if name == "key":
        return "the key is taken out" if value == "out" else f"the key goes to {value}"
    if name == "engine":
        return ENGINE[value]
    switch = next((one for one in wiring.switches if one.name == name), None)
    if isinstance(switch, Switch):
        if value == "rest":
            return f"{name} is let go"
        return f"{name} is worked" + ("" if value == "worked" else f" {value}")
    return f"{name} no more" if value in RESTING else name
