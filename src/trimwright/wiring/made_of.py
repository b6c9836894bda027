"""What each wire is made of: the size that was written, else the one that was chosen."""

from dataclasses import dataclass

from trimwright.stock import Wire as StockWire
from trimwright.wiring.outcome import WiringOutcome
from trimwright.wiring.sold import sold


@dataclass(frozen=True, slots=True)
class MadeOf:
    """One wire's copper.

    Attributes
    ----------
    size : str
        As a shop names it: '2.5 mm2', '16 AWG'; '' where none is written and none could be chosen.
    chosen : bool
        Whether it was chosen here, not written by the builder.
    stock : StockWire or None
        The wire as sold, for its outside diameter; None where the stock table has none.
    """

    size: str
    chosen: bool
    stock: StockWire | None


def made_of(found: WiringOutcome) -> dict[str, MadeOf]:
    """Return what every wire of a loom is made of, by its name, in the loom's order."""
    sizings = () if found.electrics is None else found.electrics.sizings
    needed = {one.wire: one.needed for one in sizings}
    told: dict[str, MadeOf] = {}
    for wire in found.loom.wires:
        if wire.size is not None:
            stock = sold(wire.size)
            size = stock.name if stock else wire.size.text
            told[wire.name] = MadeOf(size, chosen=False, stock=stock)
            continue
        own = needed.get(wire.name)
        told[wire.name] = MadeOf(own.name if own else "", chosen=own is not None, stock=own)
    return told
