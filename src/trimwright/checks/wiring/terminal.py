"""Rule 'terminal': no stud, blade or cavity holds more wires, or more copper, than it takes."""

from trimwright.checks.wiring.words import sentence
from trimwright.findings import Finding, Remedy
from trimwright.quantities import Unit
from trimwright.wiring import Meeting, WiringOutcome, meetings, parted

RULE, LOCK = "terminal", "carpet"
STUD = "four ring terminals on a stud [AC 43.13-1B, chapter 11, from memory; of aircraft]"
CRIMP = "two wires in one crimp; common practice, no source"
TOLD = 3  # a line's worth
BLADE = "6 mm2 in the crimp of a 6.3 mm blade; common practice, no source"


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each terminal that holds too much, one for all others together."""
    told, areas = meetings(found), _areas(found)
    crowded = [one for one in told if len(one.wires) > one.most]
    copper = {one: sum(areas.get(wire.name, 0.0) for wire in one.wires) for one in told}
    thick = [one for one in told if one not in crowded and copper[one] > _most_mm2(one)]
    several = [one for one in thick if len(one.wires) > 1]
    return (
        *(_too_many(found, one, unit) for one in crowded),
        *(_too_thick(one, copper[one]) for one in several),
        *_alone([one for one in thick if one not in several]),
        *_good(len(told) - len(crowded) - len(thick)),
    )


def _most_mm2(one: Meeting) -> float:
    return float("inf") if one.most_mm2 is None else one.most_mm2


def _areas(found: WiringOutcome) -> dict[str, float]:
    """Return the copper of each wire whose size is written or chosen [mm2]."""
    told = {one.name: one.size.value for one in found.loom.wires if one.size is not None}
    if found.electrics is not None:
        for sizing in found.electrics.sizings:
            if sizing.used is not None:
                told.setdefault(sizing.wire, sizing.used.conductor.area_mm2)
    return told


def _too_many(found: WiringOutcome, one: Meeting, unit: Unit) -> Finding:
    """Return that a terminal holds too many wires, and where some of them may go."""
    count = len(one.wires)
    names = ", ".join(wire.name for wire in one.wires)
    kind = "ring terminals" if one.stud else "wires in one crimp"
    name = one.device if one.terminal.endswith(" stud stud") else one.terminal
    moved = parted(found.wiring, one, unit)
    if moved is None:
        remedies = (Remedy(f"Join some of them ahead of {name}."),)
    else:
        remedies = (Remedy(f"Bring what is too many there to {moved[0]}.", moved[1]),)
    return Finding(
        rule=RULE,
        place=f"wires at {name}",
        grade="change",
        says=f"{sentence(name)} holds {count} {kind}, and takes {one.most}: {names}.",
        lock=LOCK,
        figure=float(count),
        limit=float(one.most),
        margin=float(one.most - count),
        measure="count",
        remedies=remedies,
        source=STUD if one.stud else CRIMP,
    )


def _too_thick(one: Meeting, copper: float) -> Finding:
    """Return that the wires of one terminal do not go into its crimp together."""
    most = _most_mm2(one)
    names = " and ".join(wire.name for wire in one.wires)
    says = f"{sentence(names)} do not go into one crimp at {one.terminal}: {copper:.3g} mm2 of {most:g} mm2."
    return Finding(
        rule=RULE,
        place=f"copper at {one.terminal}",
        grade="change",
        says=says,
        lock=LOCK,
        figure=copper,
        limit=most,
        margin=most - copper,
        measure="mm2",
        remedies=(Remedy(f"Join them ahead of {one.terminal} to one wire that fits."),),
        source=BLADE,
    )


def _alone(thick: list[Meeting]) -> tuple[Finding, ...]:
    """Return which wires are by themselves thicker than the crimp that they come to."""
    if not thick:
        return ()
    names = ", ".join(f"{one.wires[0].name} at {one.terminal}" for one in thick[:TOLD])
    more = f" and {len(thick) - TOLD} more" if len(thick) > TOLD else ""
    says = f"Thicker than a blade's crimp takes ({thick[0].most_mm2:g} mm2): {names}{more}."
    remedy = Remedy("End them with a short thinner wire, or take parts with larger terminals.")
    why = tuple(f"{one.wires[0].name} at {one.terminal}." for one in thick[TOLD:])
    place = "wires thicker than their terminals"
    return (Finding(RULE, place, "look", says, LOCK, remedies=(remedy,), source=BLADE, why=why),)


def _good(count: int) -> tuple[Finding, ...]:
    """Return that the other terminals hold what they take."""
    if not count:
        return ()
    says = f"{count} terminals hold no more wires and copper than they take."
    source = f"{STUD}; {CRIMP}; {BLADE}"
    return (Finding(RULE, "wires at terminals", "good", says, LOCK, source=source),)
