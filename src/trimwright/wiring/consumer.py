"""What takes current: loads and the coils of relays, each with what it takes."""

from msgspec import Struct

from trimwright.build import Load, Relay, Wiring, terminals
from trimwright.stock import LoadKind, load_kind
from trimwright.wiring.filament import COLD_SHARE
from trimwright.wiring.logic import Condition, Fed, Pulled
from trimwright.wiring.network import ConstantPower, Element, Lamp, Resistor

LETS_GO_V = (
    6.0  # below which electronics are off where nobody wrote when; common practice, no source
)
KINDS = {
    "lamp": "driving lamp",
    "LED": "electronics",
    "heater": "heater",
    "motor": "motor",
    "solenoid": "coil",
    "electronics": "electronics",
}
CONTACT = {"lamp": "lamp", "LED": "resistive", "heater": "resistive", "motor": "motor",
           "solenoid": "inductive", "electronics": "resistive"}  # fmt: skip
COIL = "coil"


class Consumer(Struct, frozen=True):
    """A load or coil.

    Attributes
    ----------
    name : str
        As in the build.
    kind : LoadKind
        What it may lose on the way, by the stock table.
    contact : str
        What its kind of load is to a contact: 'lamp', 'inductive', 'resistive', 'motor'.
    current_a, volts : float or None
        What it takes, and at which voltage; None where that is not written.
    first_a : float or None
        What it takes at first, where that is more.
    on_for_s : float or None
        How long it is on at a time, where that is short.
    """

    name: str
    kind: LoadKind
    contact: str
    current_a: float | None
    volts: float
    first_a: float | None = None
    on_for_s: float | None = None
    is_coil: bool = False

    @property
    def fed(self) -> Condition:
        """The condition that it works."""
        return Pulled(self.name) if self.is_coil else Fed(self.name)


def consumers(wiring: Wiring) -> tuple[Consumer, ...]:
    """Return every load and coil, in the order of the file."""
    return (*(_load(one) for one in wiring.loads), *(_coil(one) for one in wiring.relays))


def _load(load: Load) -> Consumer:
    volts, current = load.at_volts.value, None
    if load.current is not None:
        current = load.current.value
    elif load.power is not None:
        current = load.power.value / volts
    first = None if load.starts_with is None else load.starts_with.value
    on_for = None if load.on_for is None else load.on_for.value
    kind = load_kind(KINDS[load.kind])
    return Consumer(load.name, kind, CONTACT[load.kind], current, volts, first, on_for)


def _coil(relay: Relay) -> Consumer:
    volts = 12.0
    current = volts / relay.coil.value
    return Consumer(relay.name, load_kind(COIL), "inductive", current, volts, is_coil=True)


def load_element(load: Load, ends: tuple[str, str]) -> Element | None:
    """Return what a load is in the solved network; None where nobody wrote what it takes."""
    one = _load(load)
    if one.current_a is None or one.current_a == 0:
        return None
    watts = one.current_a * one.volts
    if load.kind == "lamp":
        cold = one.volts**2 / watts * COLD_SHARE
        return Lamp(load.name, *ends, one.volts, watts, cold)
    if load.kind in ("LED", "electronics"):
        cut_out = LETS_GO_V if load.cuts_out is None else load.cuts_out.value
        return ConstantPower(load.name, *ends, watts, cut_out)
    return Resistor(load.name, *ends, one.volts / one.current_a)


def ends_of(load: Load) -> tuple[str, str]:
    """Return a load's two terminals in the network."""
    plus, minus = terminals(load)
    return f"{load.name} {plus}", f"{load.name} {minus}"
