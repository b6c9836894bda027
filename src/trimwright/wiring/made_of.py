"""What each wire is made of: the size that was written, else the one that was chosen."""

from msgspec import Struct

from trimwright.stock import Wire as StockWire
from trimwright.wiring.outcome import WiringOutcome
from trimwright.wiring.sold import sold


class MadeOf(Struct, frozen=True):
    """One wire's copper.

    Attributes
    ----------
    size : str
        As a shop names it: '2.5 mm2', '16 AWG'; '' where none is written and none could be chosen.
    chosen : bool
        Whether it was chosen here, not written by the builder.
    stock : StockWire or None
        The wire as sold, for its outside diameter; None where the stock table has none.
    area_mm2 : float
        Its copper [mm2], to put sizes in order; 0 where the size is not known.
    fine : bool
        Whether it is taken with fine strands, as it crosses a hinge.
    """

    size: str
    chosen: bool
    stock: StockWire | None
    area_mm2: float
    fine: bool = False

    @property
    def bought(self) -> str:
        """The size as it is asked for in a shop; '' where it is not known.

        Examples
        --------
        >>> MadeOf("2.5 mm2", chosen=False, stock=None, area_mm2=2.5, fine=True).bought
        '2.5 mm2, fine strands'
        """
        return f"{self.size}, fine strands" if self.fine and self.size else self.size


def made_of(found: WiringOutcome) -> dict[str, MadeOf]:
    """Return what every wire of a loom is made of, by its name, in the loom's order."""
    sizings = () if found.electrics is None else found.electrics.sizings
    needed = {one.wire: one.needed for one in sizings}
    fine = _fine(found)
    told: dict[str, MadeOf] = {}
    for wire in found.loom.wires:
        own = needed.get(wire.name) if wire.size is None else sold(wire.size)
        size, area = "", 0.0
        if own is not None:
            size, area = own.name, own.conductor.area_mm2
        elif wire.size is not None:
            size, area = wire.size.text, wire.size.value
        chosen = wire.size is None and own is not None
        told[wire.name] = MadeOf(size, chosen, own, area, wire.name in fine)
    return told


def _fine(found: WiringOutcome) -> frozenset[str]:
    """Return the names of wires that are taken with fine strands, as they cross a hinge."""
    return frozenset(
        wire.name
        for number, trunk in enumerate(found.wiring.trunks)
        if trunk.hinge is not None and trunk.hinge.strands == "fine"
        for wire in found.loom.through(number)
    )
