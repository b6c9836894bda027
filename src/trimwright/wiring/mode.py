"""How the car stands: the key, the engine, and what supplies it."""

from typing import Literal

from msgspec import Struct

from trimwright.wiring.logic import And, Condition, Is


class Mode(Struct, frozen=True):
    """One way in which the car stands, in words, and what then holds its voltage up."""

    name: str
    key: str
    engine: str
    supply: Literal["battery", "idle", "speed"]

    @property
    def condition(self) -> Condition:
        """What the facts say in it."""
        return And((Is("key", self.key), Is("engine", self.engine)))


MODES = (
    Mode("key out", "out", "stopped", "battery"),
    Mode("key at accessory", "accessory", "stopped", "battery"),
    Mode("ignition on, engine stopped", "ignition", "stopped", "battery"),
    Mode("cranking", "start", "cranking", "battery"),
    Mode("idling hot", "ignition", "running", "idle"),
    Mode("running", "ignition", "running", "speed"),
)
