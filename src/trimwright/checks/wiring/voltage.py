"""Rule 'voltage': what is lost on the way to a load stays within what its kind allows."""

from trimwright.build import Wiring
from trimwright.checks.wiring.size import shown_size
from trimwright.checks.wiring.words import sentence, waits_for
from trimwright.findings import Edit, Finding, Grade, Remedy
from trimwright.quantities import Unit, shown_voltage
from trimwright.stock import Wire
from trimwright.wiring import (
    NOMINAL_V,
    Electrics,
    Supply,
    WiringOutcome,
    combination,
    electrics,
    thicker,
)

LOCK = "carpet"
DIGITS = 9  # of a share: of modes that lose as much the first is told


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each load: the mode in which most is lost on the way to it."""
    del unit
    own = found.electrics
    if own is None:
        return ()
    by_load: dict[str, list[Supply]] = {}
    for supply in own.supplies:
        if not supply.use.consumer.is_coil:
            by_load.setdefault(supply.use.consumer.name, []).append(supply)
    return tuple(_finding(found, own, name, its) for name, its in by_load.items())


def _finding(found: WiringOutcome, own: Electrics, name: str, its: list[Supply]) -> Finding:
    """Return what is to be said of one load."""
    kind = its[0].use.consumer.kind
    worst = max(its, key=lambda one: round(one.lost, DIGITS))
    off = [one for one in its if one.drops_out and one.use.mode.engine != "cranking"]
    says, grade = _says(name, worst, off)
    path = worst.use.path
    way = {*path.to, *path.back}
    waits = waits_for(found, way, way) if grade == "good" else ()
    if waits:
        says = f"Not told what {name} loses on its way."
        return Finding("voltage", f"voltage at {name}", "look", says, LOCK, missing=waits)
    return Finding(
        rule="voltage",
        place=f"voltage at {name}",
        grade=grade,
        says=says,
        lock=LOCK,
        figure=NOMINAL_V * worst.lost,
        limit=NOMINAL_V * kind.drop,
        margin=NOMINAL_V * (kind.drop - worst.lost),
        measure="V",
        remedies=_remedies(own, worst) if grade != "good" else (),
        source=f"{kind.drop:.0%} of 12 V for a {kind.name} [{kind.source}]",
        why=_why(own, worst, its),
    )


def _says(name: str, worst: Supply, off: list[Supply]) -> tuple[str, Grade]:
    """Return the sentence and the grade."""
    lost = f"{shown_voltage(NOMINAL_V * worst.lost)} of 12 V is lost on the way to it ({worst.use.mode.name})."
    if off:
        alone = next((one for one in off if one.alone_v is None), None)
        if alone is not None:
            return (
                f"{sentence(name)} drops out with little else on ({alone.use.mode.name}).",
                "stop",
            )
        return f"{sentence(name)} drops out when much else is on ({off[0].use.mode.name}).", "stop"
    if worst.lost > worst.use.consumer.kind.drop:
        return f"{sentence(name)} gets too little: {lost}", "change"
    return f"{sentence(name)} gets enough: {lost}", "good"


def _remedies(own: Electrics, worst: Supply) -> tuple[Remedy, ...]:
    """Return thicker wire for the paths on its way, where that does; else a feed nearer its source."""
    sizes = thicker(own, worst)
    if sizes:
        edits, told = _thicker(own.wiring, sizes)
        return (Remedy(f"Use {told}.", edits),)
    if sizes is not None:
        return ()
    nearer = _from_always(own, worst)
    if nearer is not None:
        return (nearer,)
    return (Remedy("Feed it by a relay near it: no wire of the table loses little enough."),)


def _thicker(wiring: Wiring, sizes: dict[int, Wire]) -> tuple[tuple[Edit, ...], str]:
    """Return the edits and the words for wire of some sizes, by path."""
    edits = tuple(Edit(("wiring", "paths", n, "size"), sizes[n].name) for n in sorted(sizes))
    told = ", ".join(
        f"{shown_size(sizes[n].name)} for {wiring.paths[n].name}" for n in sorted(sizes)
    )
    return edits, told


def _from_always(own: Electrics, worst: Supply) -> Remedy | None:
    """Return a load that is switched by a relay fed from what is always live, if that does.

    The relay's coil still hangs on the key, so the load works when it did. It is solved anew.
    """
    wiring = own.wiring
    always = next((one.name for one in wiring.feeds if one.live == "always"), None)
    keyed = {one.name for one in wiring.feeds if one.live != "always"}
    for number, path in enumerate(wiring.paths):
        if always is None or path.goes[0] not in keyed or worst.use.consumer.name not in path.goes:
            continue
        paths = list(wiring.paths)
        paths[number] = path.model_copy(update={"goes": (always, *path.goes[1:])})
        tried = electrics(wiring.model_copy(update={"paths": tuple(paths)}), own.unit)
        edits: tuple[Edit, ...] = (Edit(("wiring", "paths", number, "goes", 0), always),)
        if tried is None:
            return None
        return _checked(own, tried, worst, (edits, f"Feed {path.name} from {always}"))
    return None


def _checked(
    own: Electrics,
    tried: Electrics,
    worst: Supply,
    told: tuple[tuple[Edit, ...], str],
) -> Remedy | None:
    """Return a changed feed as a remedy, if the load works in the same modes and gets enough."""
    edits, says = told
    name = worst.use.consumer.name
    before, its = ([s for s in one.supplies if s.use.consumer.name == name] for one in (own, tried))
    if {one.use.mode for one in before} != {one.use.mode for one in its}:
        return None
    sizes = thicker(tried, max(its, key=lambda one: one.lost))
    if sizes is None:
        return None
    more, sized = _thicker(tried.wiring, sizes)
    how = (
        f": its relay hangs on the key. Use {sized}." if sized else ": its relay hangs on the key."
    )
    return Remedy(f"{says}{how}", (*edits, *more))


def _why(own: Electrics, most: Supply, its: list[Supply]) -> tuple[str, ...]:
    """Return with what on most is lost, or it drops out, and the voltage in each mode."""
    off = (one for one in its if one.drops_out and one.use.mode.engine != "cranking")
    state = next((one.worst_in for one in off), most.lost_in)
    told = [combination(own, state, most.use.consumer.name)]
    for one in its:
        alone = "off" if one.alone_v is None else shown_voltage(one.alone_v)
        worst = "off" if one.worst_v is None else shown_voltage(one.worst_v)
        ground = shown_voltage(one.ground_v)
        told.append(
            f"{one.use.mode.name}: {alone} with little else on, {worst} with what brings it lowest;"
            f" its ground stands {ground} above the battery's post there."
        )
    return (
        (
            "Voltages solved over the whole network: battery and alternator behind their inner"
            " resistance, every wire, contact, fuse and the body."
        ),
        *told,
    )
