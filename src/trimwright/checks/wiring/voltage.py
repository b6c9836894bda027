"""Rule 'voltage': what is lost on the way to a load stays within what its kind allows."""

from trimwright.checks.wiring.size import shown_size
from trimwright.findings import Edit, Finding, Grade, Remedy
from trimwright.quantities import Unit, shown_voltage
from trimwright.wiring import Supply, WiringOutcome, thicker

LOCK = "carpet"


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each load: the mode in which most is lost on the way to it."""
    if found.electrics is None:
        return ()
    by_load: dict[str, list[Supply]] = {}
    for supply in found.electrics.supplies:
        if not supply.use.consumer.is_coil:
            by_load.setdefault(supply.use.consumer.name, []).append(supply)
    return tuple(_finding(found, name, its, unit) for name, its in by_load.items())


def _finding(found: WiringOutcome, name: str, its: list[Supply], unit: Unit) -> Finding:
    """Return what is to be said of one load."""
    kind = its[0].use.consumer.kind
    worst = max(its, key=lambda one: one.lost)
    off = [one for one in its if one.drops_out and one.use.mode.engine != "cranking"]
    says, grade = _says(name, worst, off)
    return Finding(
        rule="voltage",
        place=f"voltage at {name}",
        grade=grade,
        says=says,
        lock=LOCK,
        figure=worst.lost,
        limit=kind.drop,
        margin=kind.drop - worst.lost,
        measure="share",
        remedies=_remedies(found, worst, unit) if grade != "good" else (),
        source=f"loss allowed for a {kind.name} [{kind.source}]",
        why=_why(its),
    )


def _says(name: str, worst: Supply, off: list[Supply]) -> tuple[str, Grade]:
    """Return the sentence and the grade."""
    volts = 12.0 * worst.lost
    lost = f"{shown_voltage(volts)} of 12 V is lost on the way to it ({worst.use.mode.name})."
    if off:
        return f"{_upper(name)} drops out when much else is on ({off[0].use.mode.name}).", "stop"
    if worst.lost > worst.use.consumer.kind.drop:
        return f"{_upper(name)} gets too little: {lost}", "change"
    return f"{_upper(name)} gets enough: {lost}", "good"


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _remedies(found: WiringOutcome, worst: Supply, unit: Unit) -> tuple[Remedy, ...]:
    """Return thicker wire for the paths on its way, where that does."""
    sizes = thicker(found, worst, unit)
    if not sizes:
        return (Remedy("Feed it by a relay near it: no wire of the table loses little enough."),)
    edits = tuple(Edit(("wiring", "paths", n, "size"), sizes[n].name) for n in sorted(sizes))
    told = ", ".join(
        f"{shown_size(sizes[n].name)} for {found.wiring.paths[n].name}" for n in sorted(sizes)
    )
    return (Remedy(f"Use {told}.", edits),)


def _why(its: list[Supply]) -> tuple[str, ...]:
    """Return the voltage in each mode."""
    told = []
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
