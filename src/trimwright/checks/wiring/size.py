"""Rule 'wire size': every wire bears its current and what its fuse lets through, and is stout enough."""

from trimwright.checks.wiring.fuse import outlives
from trimwright.checks.wiring.words import waits_for
from trimwright.findings import Edit, Finding, Grade, Remedy
from trimwright.quantities import Unit, shown_current
from trimwright.wiring import Sizing, WiringOutcome, combination, largest_fuse, most_a, sold

LOCK = "carpet"
LEAST_A = 1e-3  # below this nothing flows through a wire
KEPT_HERE = ("carries", "fuse", "strength")  # what a wire loses is told of what it feeds
SOURCE = {
    "carries": "heat balance of the wire in still air [churchill-chu-1975], in its company"
    " [vde-0298-4-2023], against the class of its insulation",
    "fuse": "opening band of the fuse's class against the warmth its insulation bears",
    "strength": "least size of a wire in a sheath [iso-10133-2012, of boats]",
}


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each current path that has wires of a written size."""
    del unit
    if found.electrics is None:
        return ()
    by_path: dict[int, list[Sizing]] = {}
    for wire, sizing in zip(found.loom.wires, found.electrics.sizings, strict=True):
        by_path.setdefault(wire.path, []).append(sizing)
    return tuple(one for path, its in by_path.items() if (one := _finding(found, path, its)))


def _finding(found: WiringOutcome, path: int, its: list[Sizing]) -> Finding | None:
    """Return what is to be said of the wires of one path."""
    entry = found.wiring.paths[path]
    if entry.size is None or sold(entry.size) is None:
        return None  # chosen as thin as will do, or in no table
    worst = min(its, key=_least)
    margin = min((m for m in worst.margins if m.criterion in KEPT_HERE), key=lambda m: m.margin)
    place = f"wires of {entry.name}"
    why = _why(found, worst)
    grade: Grade = "good"
    wires = {one.wire for one in its}
    waits = waits_for(found, wires, wires) if margin.passes else ()
    if waits:
        says = f"Not told whether {entry.size.text} will do for {entry.name}."
        return Finding("wire size", place, "look", says, LOCK, missing=waits)
    if margin.passes:
        says = f"{entry.size.text} will do: {_needs(worst)}"
    else:
        grade = "change" if margin.criterion == "strength" else "stop"
        says = _short(worst, margin.criterion, entry.size.text)
    return Finding(
        rule="wire size",
        place=place,
        grade=grade,
        says=says,
        lock=LOCK,
        figure=margin.found,
        limit=margin.limit,
        margin=margin.found - margin.limit,
        measure="mm2" if margin.criterion == "strength" else "A",
        remedies=() if margin.passes else _remedies(found, path, its),
        source=SOURCE[margin.criterion],
        why=why,
    )


def _least(one: Sizing) -> float:
    """Return how a wire stands to the criteria that are told here."""
    return min(margin.margin for margin in one.margins if margin.criterion in KEPT_HERE)


def _needs(one: Sizing) -> str:
    """Return in words what a wire carries and may."""
    return (
        f"{one.wire} carries {shown_current(one.met.lasting_a)} for good and may carry"
        f" {shown_current(one.carries_a)} there."
    )


def _short(one: Sizing, criterion: str, size: str) -> str:
    """Return in words what a wire lacks."""
    if criterion == "carries":
        return (
            f"{size} gets too warm: {one.wire} carries {shown_current(one.met.lasting_a)} and may"
            f" carry {shown_current(one.carries_a)} where it lies."
        )
    if criterion == "fuse":
        return (
            f"{one.met.fuse} does not look after {one.wire}: {size} may carry"
            f" {shown_current(one.carries_a)} there, and the fuse may never open below"
            f" {shown_current(next(m.limit for m in one.margins if m.criterion == 'fuse'))}."
        )
    return f"{size} breaks too easily in a loom: {one.wire}."


def _remedies(found: WiringOutcome, path: int, its: list[Sizing]) -> tuple[Remedy, ...]:
    """Return a fuse that looks after the wires of a path as they are, and wire that does."""
    return (*_smaller_fuse(found, its), *_thicker_wire(found, path, its))


def _smaller_fuse(found: WiringOutcome, its: list[Sizing]) -> tuple[Remedy, ...]:
    """Return the largest fuse that looks after all wires behind it and bears what lasts."""
    failed = {one.met.fuse for one in its if one.short and one.short.criterion == "fuse"}
    if len(failed) != 1 or None in failed or found.electrics is None:
        return ()
    name = next(iter(failed))
    number, fuse = next((n, one) for n, one in enumerate(found.wiring.fuses) if one.name == name)
    behind = [one for one in found.electrics.sizings if one.met.fuse == name]
    held = max(
        (m.limit for one in behind for m in one.margins if m.criterion == "fuse"), default=0.0
    )
    bears = min(one.carries_a for one in behind)
    rating = largest_fuse(fuse.type, bears / (held / fuse.rated.value) if held else 0.0)
    if rating is None or rating >= fuse.rated.value or not outlives(found, fuse, rating):
        return ()
    edit = Edit(("wiring", "fuses", number, "rated"), f"{rating:g} A")
    return (Remedy(f"Take {rating:g} A for {name}.", (edit,)),)


def _thicker_wire(found: WiringOutcome, path: int, its: list[Sizing]) -> tuple[Remedy, ...]:
    """Return the size that does for all wires of a path."""
    needed = [one.stout for one in its if _least(one) < 0]
    if any(one is None for one in needed):
        return (Remedy("No wire of the table will do: part its load between two fuses."),)
    thick = max((one for one in needed if one), key=lambda one: one.conductor.area_mm2)
    name = found.wiring.paths[path].name
    edits = (Edit(("wiring", "paths", path, "size"), thick.name),)
    return (Remedy(f"Use {shown_size(thick.name)} wire for {name}.", edits),)


def shown_size(name: str) -> str:
    """Return a wire size as it is read.

    Examples
    --------
    >>> shown_size("2.5 mm2"), shown_size("16 AWG")
    ('2.5 mm²', '16 AWG')
    """
    return name.replace("mm2", "mm²")


def _why(found: WiringOutcome, one: Sizing) -> tuple[str, ...]:
    """Return what the size is reckoned from."""
    beside = f"{one.met.beside} wires lie together at its fullest place"
    return (
        (
            f"{one.wire}: air of {one.met.ambient_c:g} °C, {beside}; what it may carry there is what"
            " brings its copper to its insulation's class, its neighbours' warmth counted."
        ),
        f"What decides its size is {one.decides}.",
        *_carried_with(found, one),
        (
            "A fuse must open before the insulation takes harm at every current from its rating up to"
            " what a short drives; a current at which it need never open must not warm the wire beyond"
            " its class."
        ),
    )


def _carried_with(found: WiringOutcome, one: Sizing) -> tuple[str, ...]:
    """Return with what on a wire carries most for good, if it carries anything."""
    if found.electrics is None or one.met.lasting_a <= LEAST_A:
        return ()
    _, state = most_a(found.electrics, one.wire, lasting=True)
    return (combination(found.electrics, state),)
