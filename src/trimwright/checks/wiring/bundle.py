"""Rule 'bundle': the wires of a trunk go through its hole, under the carpet, and round its bend."""

from collections.abc import Callable, Iterator
from math import ceil

from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import Unit, shown_with_unit
from trimwright.wiring import (
    Bend,
    Bundle,
    Bundling,
    Wire,
    WiringOutcome,
    bundlings,
    tightest_bend,
    wrapped,
)

LOCK = "carpet"
FILLED = 0.8  # of a hole's width that leaves room to pull the wires in; common practice, no source
INCH_MM, DRILL_IN = 25.4, 16  # drills go by sixteenths of an inch
PACKED = (
    "Thickness of the wires packed as closely as was found, in their outside diameters, with a wrap"
    " round two or more. Terminals and plugs are not looked at: put them on after."
)


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return what every hole, room and bend of a trunk has to say that wires lie in."""
    return tuple(one for own in bundlings(found) for one in _trunk(own, unit))


def _trunk(own: Bundling, unit: Unit) -> Iterator[Finding]:
    """Yield one finding for each limit that is written of a trunk.

    Where the outside of a wire is not known the known ones may be too thick already; that they
    pass says nothing.
    """
    made = list(_known(own, unit))
    if not own.unknown:
        yield from made
        return
    yield from (one for one in made if one.grade != "good")
    if _limits(own) and (not made or any(one.grade == "good" for one in made)):
        yield _unknown(own)


def _known(own: Bundling, unit: Unit) -> Iterator[Finding]:
    """Yield one finding for each limit, for the wires whose outside is known."""
    if own.bundle is None:
        return
    if own.trunk.hole is not None:
        yield _hole(own, own.bundle, own.trunk.hole.value, unit)
    if own.trunk.room is not None:
        yield _room(own, own.bundle, own.trunk.room.value, unit)
    if own.trunk.bends is not None:
        yield _bend(own, own.bundle, own.trunk.bends.value, unit)


def _limits(own: Bundling) -> bool:
    """Return whether anything is written that a bundle has to pass."""
    return any(one is not None for one in (own.trunk.hole, own.trunk.room, own.trunk.bends))


def _unknown(own: Bundling) -> Finding:
    """Return that a bundle could not be looked at."""
    names = _named(own.unknown)
    return Finding(
        "bundle",
        f"bundle from {_way(own)}",
        "look",
        f"Not checked: nobody has said how thick {names} {'is' if len(own.unknown) == 1 else 'are'}.",
        LOCK,
        missing=tuple(f"the outside diameter of {one.name}" for one in own.unknown),
    )


def _hole(own: Bundling, packed: Bundle, hole_mm: float, unit: Unit) -> Finding:
    """Return whether a bundle goes through its hole, with room to pull it in."""
    thick_mm = packed.diameter_mm
    goes, tight = thick_mm <= hole_mm, thick_mm > FILLED * hole_mm
    thick, hole = _up(thick_mm, unit), shown_with_unit(hole_mm, unit, "down", step="fine")
    wires, one = _wires(own), len(own.wires) == 1
    if not goes:
        says = (
            f"{wires} {'does' if one else 'do'} not go through the hole of {hole}: {thick} thick."
        )
    elif tight:
        says = f"{wires} {'is' if one else 'are'} hard to pull through the hole of {hole}: {thick} thick."
    else:
        says = f"{wires} {'goes' if one else 'go'} through the hole of {hole}: {thick} thick."
    limit = hole_mm if not goes else FILLED * hole_mm
    wider = drilled(thick_mm / FILLED, unit)
    remedies = (
        Remedy(
            f"Drill the hole to {wider}, with a grommet that leaves as much.",
            (Edit(("wiring", "trunks", own.number, "hole"), wider),),
        ),
        *_fewer(own, packed, limit),
    )
    good = goes and not tight
    return Finding(
        rule="bundle",
        place=f"hole from {_way(own)}",
        grade="good" if good else "change" if goes else "stop",
        says=says,
        lock=LOCK,
        figure=thick_mm,
        limit=limit,
        margin=limit - thick_mm,
        remedies=() if good else remedies,
        source="the hole as written"
        if not goes
        else f"{FILLED:.0%} of the hole's width; common practice, no source",
        why=(PACKED, f"Its wires: {_named(own.wires)}."),
    )


def _room(own: Bundling, packed: Bundle, room_mm: float, unit: Unit) -> Finding:
    """Return whether a bundle is no thicker than the room there is for it."""
    thick_mm = packed.diameter_mm if own.trunk.laid == "bundle" else max(packed.diameters_mm)
    good = thick_mm <= room_mm
    thick, room = _up(thick_mm, unit), shown_with_unit(room_mm, unit, "down", step="fine")
    wires, one = _wires(own), len(own.wires) == 1
    says = (
        f"{wires} {'has' if one else 'have'} room: {thick} thick, where there is {room}."
        if good
        else f"{wires} {'is' if one else 'are'} thicker than the room: {thick}, where there is {room}."
    )
    return Finding(
        rule="bundle",
        place=f"room from {_way(own)}",
        grade="good" if good else "change",
        says=says,
        lock=LOCK,
        figure=thick_mm,
        limit=room_mm,
        margin=room_mm - thick_mm,
        remedies=()
        if good
        else (*_flat(own, packed, room_mm, unit), *_fewer(own, packed, room_mm)),
        source="the room as written",
        why=(PACKED, f"Its wires: {_named(own.wires)}."),
    )


def _bend(own: Bundling, packed: Bundle, bends_mm: float, unit: Unit) -> Finding:
    """Return whether a bundle bears the tightest bend of its trunk."""
    bend = tightest_bend(packed)
    least = bend.radius_mm
    good = least <= bends_mm
    bears = shown_with_unit(least, unit, "up")
    has = shown_with_unit(bends_mm, unit, "down", step="fine")
    wires, one = _wires(own), len(own.wires) == 1
    says = (
        f"{wires} {'bears' if one else 'bear'} the bend of {has}: the least is {bears}."
        if good
        else f"{wires} {'is' if one else 'are'} bent too tight: {has}, where the least is {bears}."
    )
    gentler = Remedy(
        f"Lead them round a radius of {bears} or more.",
        (Edit(("wiring", "trunks", own.number, "bends"), bears.replace("\u2009", " ")),),
    )
    return Finding(
        rule="bundle",
        place=f"bend from {_way(own)}",
        grade="good" if good else "change",
        says=says,
        lock=LOCK,
        figure=bends_mm,
        limit=least,
        margin=bends_mm - least,
        remedies=() if good else (gentler, *loose(packed, bends_mm, unit)),
        source=f"{bend.times:g} times its thickness [{bend.source}]",
        why=(PACKED, f"Its wires: {_named(own.wires)}."),
    )


def loose(
    packed: Bundle,
    bends_mm: float,
    unit: Unit,
    bears: Callable[[Bundle], Bend] = tightest_bend,
) -> tuple[Remedy, ...]:
    """Return to leave the wires free of each other round a bend, where each alone bears it."""
    if len(packed.diameters_mm) < 2:  # noqa: PLR2004  one wire is free
        return ()
    least = max(bears(wrapped((one,))).radius_mm for one in packed.diameters_mm)
    if least > bends_mm:
        return ()
    alone = shown_with_unit(least, unit, "up")
    return (Remedy(f"Or leave the wrap off round the bend: each wire alone bears {alone}."),)


def _flat(own: Bundling, packed: Bundle, room_mm: float, unit: Unit) -> tuple[Remedy, ...]:
    """Return to lay wires side by side, where each alone has the room."""
    if own.trunk.laid == "flat":
        return ()
    if len(packed.diameters_mm) < 2 or max(packed.diameters_mm) > room_mm:  # noqa: PLR2004  one lies flat
        return ()
    wide = shown_with_unit(sum(packed.diameters_mm), unit, "up")
    edits = (Edit(("wiring", "trunks", own.number, "laid"), "flat"),)
    return (Remedy(f"Lay its wires flat, side by side: {wide} wide in one layer.", edits),)


def _fewer(own: Bundling, packed: Bundle, limit_mm: float) -> tuple[Remedy, ...]:
    """Return how many wires, the thickest first, to lay elsewhere so that the rest passes."""
    widths = packed.diameters_mm
    order = sorted(range(len(widths)), key=lambda n: (-widths[n], n))
    for count in range(1, len(order)):
        left = tuple(widths[n] for n in sorted(order[count:]))
        if wrapped(left).diameter_mm <= limit_mm:
            away = tuple(own.wires[n] for n in order[:count])
            wires = "wire" if count == 1 else "wires"
            return (Remedy(f"Or lay {count} {wires} of it along another way: {_named(away)}."),)
    return ()


def drilled(least_mm: float, unit: Unit) -> str:
    """Return the next drill up, as it is written in a build.

    Examples
    --------
    >>> drilled(17.1, "mm"), drilled(17.1, "in")
    ('18 mm', '11/16 in')
    """
    if unit == "mm":
        return f"{ceil(least_mm - 1e-9)} mm"
    whole, rest = divmod(ceil(least_mm / INCH_MM * DRILL_IN - 1e-9), DRILL_IN)
    if not rest:
        return f"{whole} in"
    size = DRILL_IN
    while rest % 2 == 0:
        rest, size = rest // 2, size // 2
    return f"{whole} {rest}/{size} in" if whole else f"{rest}/{size} in"


def _up(mm: float, unit: Unit) -> str:
    return shown_with_unit(mm, unit, "up", step="fine")


def _way(own: Bundling) -> str:
    return f"{own.trunk.start} to {own.trunk.end}"


def _wires(own: Bundling) -> str:
    """Return how many wires there are, as the beginning of a sentence."""
    count = len(own.wires)
    return f"The {count} wires from {_way(own)}" if count > 1 else f"The wire from {_way(own)}"


def _named(some: tuple[Wire, ...]) -> str:
    return ", ".join(one.name for one in some)
