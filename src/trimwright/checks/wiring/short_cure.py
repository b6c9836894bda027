"""What lets a short open a fuse in time: a fuse put in, a smaller one, thicker wire."""

from trimwright.build import Wiring
from trimwright.checks.wiring.fuse import outlives, starts_through
from trimwright.checks.wiring.size import shown_size
from trimwright.checks.wiring.words import new_name
from trimwright.findings import Edit, Remedy
from trimwright.quantities import Unit
from trimwright.stock import Wire as StockWire
from trimwright.wiring import (
    FUSE_V,
    FUSES_SOLD,
    Rub,
    Wire,
    WiringOutcome,
    choice,
    fuse_of_class,
    lasting_a,
    length_m,
    resistance_factor,
    smallest_fuse,
    sure_a,
)

BLADE = "blade"


def fuse_put_in(found: WiringOutcome, path: int, wire: Wire, rub: Rub) -> Remedy | None:
    """Return a fuse where a path leaves the battery; None where none as sold bears what it takes."""
    wiring, electrics = found.wiring, found.electrics
    if electrics is None:
        return None
    goes, name = wiring.paths[path].goes, wiring.paths[path].name
    lasting = max(lasting_a(electrics, wire.name), _charging_a(wiring, path))
    rating = smallest_fuse(BLADE, lasting, starts_through(found, wire.name))
    if rating is None:
        return None
    fuse = new_name(wiring, f"{name} fuse")
    near = wire.end if rub.from_end else wire.start
    at = len(goes) - 1 if rub.from_end else 1
    new = len(wiring.fuses)
    entry = (("name", fuse), ("at", near.place), ("rated", f"{rating:g} A"))
    edits = (
        *(Edit(("wiring", "fuses", new, key), text) for key, text in entry if text),
        Edit(("wiring", "paths", path, "goes", at), fuse, inserts=True),
    )
    return Remedy(
        f"Put a fuse of {rating:g} A at its beginning, by {near.device}, with as little wire between"
        " as can be.",
        edits,
    )


def passing_more(
    found: WiringOutcome, path: int, wire: Wire, rub: Rub, within_s: float, unit: Unit
) -> tuple[Remedy, ...]:
    """Return a smaller fuse that opens in time, and wire that passes enough for the one there."""
    return (
        *(() if _charging_a(found.wiring, path) else _smaller_fuse(found, rub, within_s)),
        *_thicker_wire(found, path, wire, rub, within_s, unit),
    ) or (Remedy("Part what it feeds between two fuses, the second near its far end."),)


def _smaller_fuse(found: WiringOutcome, rub: Rub, within_s: float) -> tuple[Remedy, ...]:
    """Return the largest fuse that opens in time and bears what lasts and what starts."""
    number, fuse = next(
        (n, one) for n, one in enumerate(found.wiring.fuses) if one.name == rub.fuses[-1]
    )
    rated, ohm = fuse.rated.value, _way_ohm(found.wiring, rub)
    for rating in reversed(FUSES_SOLD[fuse.type]):
        flows = _volts(found.wiring) / (ohm + FUSE_V / rating - FUSE_V / rated)
        in_time = sure_a(fuse_of_class(fuse.type, rating), within_s) <= flows
        if rating < rated and in_time and outlives(found, fuse, rating):
            edit = Edit(("wiring", "fuses", number, "rated"), f"{rating:g} A")
            return (Remedy(f"Take {rating:g} A for {fuse.name}.", (edit,)),)
    return ()


def _thicker_wire(
    found: WiringOutcome, path: int, wire: Wire, rub: Rub, within_s: float, unit: Unit
) -> tuple[Remedy, ...]:
    """Return the size for a path that passes enough for its fuse as it is."""
    fuse = next(one for one in found.wiring.fuses if one.name == rub.fuses[-1])
    needed = sure_a(fuse_of_class(fuse.type, fuse.rated.value), within_s)
    sizings = () if found.electrics is None else found.electrics.sizings
    used = {one.wire: one.used for one in sizings}
    its = [one for one in found.loom.wires if one.path == path]
    at = its.index(wire)
    way = its[at:] if rub.from_end else its[: at + 1]
    now = sum(_ohm(own, one) for one in way if (own := used[one.name]) is not None)
    rest = _way_ohm(found.wiring, rub) - now
    for size in choice(unit):
        ohm = sum(_ohm(size, one) for one in way)
        if ohm < now and _volts(found.wiring) >= needed * (rest + ohm):
            return thicker(found, path, size)
    return ()


def thicker(found: WiringOutcome, path: int, size: StockWire | None) -> tuple[Remedy, ...]:
    """Return a thicker size for a path; by hand where no wire of the table will do."""
    name = found.wiring.paths[path].name
    if size is None:
        return (Remedy(f"Part what {name} feeds between two fuses: no wire of the table will do."),)
    edit = Edit(("wiring", "paths", path, "size"), size.name)
    return (Remedy(f"Use {shown_size(size.name)} wire for {name}.", (edit,)),)


def _charging_a(wiring: Wiring, path: int) -> float:
    """Return what an alternator at the end of a path may give through it [A]; 0 where none is."""
    source = wiring.alternator
    there = any(one.startswith("alternator B+") for one in wiring.paths[path].goes)
    return source.gives.value if source is not None and there else 0.0


def _volts(wiring: Wiring) -> float:
    """Return the battery's voltage, that drives the least [V]."""
    return 0.0 if wiring.battery is None else wiring.battery.volts.value


def _way_ohm(wiring: Wiring, rub: Rub) -> float:
    """Return what lies on the way of the least that flows, wires warm [ohm]."""
    return _volts(wiring) / rub.fuse_a


def _ohm(size: StockWire, wire: Wire) -> float:
    """Return what a wire of a size resists, as warm as it bears for good [ohm]."""
    warm = float(resistance_factor(size.class_c))
    return size.conductor.ohm_per_m * length_m(wire) * warm
