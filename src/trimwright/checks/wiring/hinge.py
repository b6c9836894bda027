"""Rule 'hinge': a loom over a hinge is nowhere stretched, nor bent too tight, and its strands are fine."""

from collections.abc import Iterator
from math import ceil

from msgspec.structs import replace

from trimwright.checks.wiring.bundle import drilled, loose
from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import Unit, shown_with_unit
from trimwright.stock import bend_moving
from trimwright.wiring import (
    Bend,
    Bundle,
    Crossing,
    Lead,
    WiringOutcome,
    crossings,
    lyings,
    tightest,
    tightest_moving,
)

LOCK = "refit"
STEPS_MM: dict[Unit, tuple[float, ...]] = {"mm": (5.0, 1.0, 0.5), "in": (6.35, 1.5875)}
TWIST = "ac-43-13-1b-2001, paragraph 11-115"
SHAPE = (
    "The loom is taken as springy and without weight, in the plane across the hinge axis (Euler's"
    " elastica), from closed to open in steps of 4 deg or less. A boot round it, and what it may"
    " lean against, are not looked at."
)


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return what is to be said of every trunk across a hinge that wires lie in."""
    return tuple(said for one in crossings(found) for said in _crossing(one, unit))


def _crossing(one: Crossing, unit: Unit) -> Iterator[Finding]:
    """Yield whether a loom reaches, whether it bears its bends, and whether its strands are fine."""
    if one.hinge.free is None:
        yield _unwritten(one, unit)
    else:
        yield _reach(one, unit)
        if one.free_mm > one.longest_mm:
            yield _bend(one, unit)
    yield _strands(one, unit)


def _unwritten(one: Crossing, unit: Unit) -> Finding:
    """Return that nobody has said how long the loom is between its holes."""
    longest = shown_with_unit(one.longest_mm, unit, "up")
    return Finding(
        "hinge",
        f"reach from {_way(one)}",
        "look",
        f"Not checked: nobody has said how long {_loom(one)} is between its holes; its wires are cut"
        f" for {longest}, the longest straight way.",
        LOCK,
        missing=("how long the loom is between the holes of its hinge",),
        remedies=_longer(one, unit),
    )


def _reach(one: Crossing, unit: Unit) -> Finding:
    """Return whether a loom is nowhere stretched."""
    spare = one.free_mm - one.longest_mm
    good = spare > 0
    at = _opening(one.swing.longest_deg, one)
    longest = shown_with_unit(one.longest_mm, unit, "up")
    free = shown_with_unit(one.free_mm, unit)
    said = (
        f"{_loom(one)} reaches over its hinge: {free} long, {longest} needed {at}."
        if good
        else f"{_loom(one)} is stretched over its hinge: {free} long, {longest} needed {at}."
    )
    closed, opened = (
        shown_with_unit(one.swing.straight_mm(at), unit) for at in (0.0, one.swing.opens_deg)
    )
    slack = shown_with_unit(max(one.free_mm - one.closest_mm, 0.0), unit)
    return Finding(
        rule="hinge",
        place=f"reach from {_way(one)}",
        grade="good" if good else "stop",
        says=said[0].upper() + said[1:],
        lock=LOCK,
        figure=one.free_mm,
        limit=one.longest_mm,
        margin=spare,
        remedies=() if good else _longer(one, unit),
        source="the straight way from hole to hole, by the law of cosines",
        why=(f"From hole to hole: {closed} closed, {opened} open; slack where closest: {slack}.",),
    )


def _bend(one: Crossing, unit: Unit) -> Finding:
    """Return whether a loom is nowhere bent too tight."""
    limit, bend, found = one.limit_mm, one.bend, one.tightest
    place = f"bend over the hinge from {_way(one)}"
    packed = one.own.bundle
    if limit is None or bend is None or packed is None or found is None or one.own.unknown:
        missing = tuple(f"the outside diameter of {wire.name}" for wire in one.own.unknown)
        says = (
            f"Not checked: nobody has said how thick {_named(one)} is."
            if missing
            else f"Not checked: no shape was found for {_loom(one)}."
        )
        return Finding(
            "hinge", place, "look", says, LOCK, missing=missing or ("a shape of the loom",)
        )
    inside = max(found.radius_mm - (limit - bend.radius_mm), 0.0)
    good = inside >= bend.radius_mm
    has, least = shown_with_unit(inside, unit, "down"), _up(bend.radius_mm, unit)
    at = _opening(found.open_deg, one)
    said = (
        f"{_loom(one)} bears its bend over the hinge: radius {has} {at}, the least is {least}."
        if good
        else f"{_loom(one)} is bent too tight over its hinge: radius {has} {at}, the least is {least}."
    )
    return Finding(
        rule="hinge",
        place=place,
        grade="good" if good else "change",
        says=said[0].upper() + said[1:],
        lock=LOCK,
        figure=inside,
        limit=bend.radius_mm,
        margin=inside - bend.radius_mm,
        remedies=()
        if good
        else (*_longer(one, unit), *_turning(one, unit), *_loose(one, packed, inside, unit)),
        source=f"{bend.times:g} times its thickness [{bend.source}]",
        why=(
            SHAPE,
            _moving(one, bend),
        ),
    )


def _moving(one: Crossing, bend: Bend) -> str:
    """Return which of two printed limits it is held to: of what lies still, and of what moves."""
    if one.stiffest is None:
        return ""
    moving = bend_moving(one.stiffest.diameter_mm)
    if bend.source == moving.source:
        return "The limit is that of flexible cables in free movement."
    return (
        f"The limit is that of bundles in aircraft; flexible cables in free movement bear"
        f" {moving.value:g} times their thickness [{moving.source}]. The wider is held to."
    )


def _strands(one: Crossing, unit: Unit) -> Finding:
    """Return whether the strands of all wires are those of flexible conductors."""
    place = f"strands from {_way(one)}"
    source = "IEC 60228, class 5 [iec-60228-2004]; that a loom which moves wants them: common practice, no source"
    worst = max(one.coarse, key=lambda it: it.strand_mm - it.finest.value, default=None)
    if worst is None:
        fine = one.hinge.strands == "fine"
        says = f"The strands of {_loom(one)} are fine, {'as you say' if fine else 'as sold'}."
        return Finding("hinge", place, "good", says, LOCK, source=source)
    names = ", ".join(it.wire.name for it in one.coarse)
    thick, least = _fine(worst.strand_mm, unit), _fine(worst.finest.value, unit)
    return Finding(
        rule="hinge",
        place=place,
        grade="change",
        says=f"The strands of {_loom(one)} are coarse for one that moves: {thick}, where {least} is fine.",
        lock=LOCK,
        figure=worst.strand_mm,
        limit=worst.finest.value,
        margin=worst.finest.value - worst.strand_mm,
        remedies=(
            Remedy(
                f"Take wire with fine strands, no thicker than {least}.",
                (Edit((*_at(one), "strands"), "fine"),),
            ),
        ),
        source=source,
        why=(f"Its wires with coarse strands, as commonly sold: {names}.",),
    )


def _longer(one: Crossing, unit: Unit) -> tuple[Remedy, ...]:
    """Return to make a loom as long between its holes as it needs, if any length will do.

    Where none will, but it is stretched, to make it so long that it is not.
    """
    needed = one.needed_mm
    steps = STEPS_MM[unit]
    if needed is not None:
        lengths = [ceil(needed / step - 1e-9) * step for step in steps]
        needed = next((it for it in lengths if one.bears(it)), None)
    if needed is not None:
        return (_as_long(one, needed, unit),)
    twist = Remedy(
        "Or set the holes apart along the hinge axis and clamp the loom there, so that it twists"
        f" rather than bends [{TWIST}]: no length alone will do."
    )
    if one.hinge.free is not None and one.free_mm > one.longest_mm:
        return (twist,)
    reaching = one.longest_mm * (1 + one.slack)
    return (_as_long(one, (reaching // steps[0] + 1) * steps[0], unit), twist)


def _as_long(one: Crossing, free_mm: float, unit: Unit) -> Remedy:
    """Return to make a loom so long between its holes."""
    written = _written(free_mm, unit)
    edits = (Edit((*_at(one), "free"), written),)
    return Remedy(f"Make it {written} long between the holes.", edits)


def _turning(one: Crossing, unit: Unit) -> tuple[Remedy, ...]:
    """Return to let a loom turn in its holes, where that is enough."""
    limit = one.limit_mm
    if limit is None or one.lead == Lead():
        return ()
    loose = tightest(lyings(one.swing, Lead(), one.free_mm)).radius_mm
    if loose < limit:
        return ()
    edits = tuple(
        Edit((*_at(one), name), None)
        for name, angle in (("leaves body", one.lead.body_deg), ("leaves door", one.lead.door_deg))
        if angle is not None
    )
    bears = shown_with_unit(loose - (limit - _inside(one)), unit, "down")
    return (Remedy(f"Or let it turn freely in its holes: it then bends to {bears}.", edits),)


def _loose(one: Crossing, packed: Bundle, inside_mm: float, unit: Unit) -> tuple[Remedy, ...]:
    """Return to leave the wrap off over the hinge, where each wire alone bears its bend."""
    if one.hinge.wires == "loose":
        return ()
    edit = Edit((*_at(one), "wires"), "loose")
    return tuple(
        replace(it, edits=(edit,)) for it in loose(packed, inside_mm, unit, tightest_moving)
    )


def _inside(one: Crossing) -> float:
    """Return the least radius inside [mm]."""
    return 0.0 if one.bend is None else one.bend.radius_mm


def _written(mm: float, unit: Unit) -> str:
    """Return a length as it is written in a build: in mm, or in sixteenths of an inch.

    Examples
    --------
    >>> _written(185.0, "mm"), _written(184.15, "in")
    ('185 mm', '7 1/4 in')
    """
    return f"{mm:g} mm" if unit == "mm" else drilled(mm, unit)


def _opening(open_deg: float, one: Crossing) -> str:
    """Return at which opening something is."""
    if open_deg <= 0:
        return "closed"
    return "fully open" if open_deg >= one.swing.opens_deg else f"opened {open_deg:.0f}°"


def _at(one: Crossing) -> tuple[str | int, ...]:
    return ("wiring", "trunks", one.own.number, "hinge")


def _way(one: Crossing) -> str:
    return f"{one.own.trunk.start} to {one.own.trunk.end}"


def _loom(one: Crossing) -> str:
    return f"the loom from {_way(one)}"


def _named(one: Crossing) -> str:
    return ", ".join(wire.name for wire in one.own.unknown)


def _up(mm: float, unit: Unit) -> str:
    return shown_with_unit(mm, unit, "up")


def _fine(mm: float, unit: Unit) -> str:
    """Return the thickness of a strand: finer than lengths are told elsewhere."""
    return f"{mm:.2f} mm" if unit == "mm" else f"{mm / 25.4:.3f} in"
