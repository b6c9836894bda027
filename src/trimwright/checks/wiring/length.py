"""Rule 'length': bought cables reach, and no trunk is written shorter than straight."""

from math import ceil

from trimwright.build import BoughtCable
from trimwright.checks.wiring.words import sentence
from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import Unit, shown_with_unit
from trimwright.wiring import WiringOutcome, routes_from, straight_mm, trunk_mm

LOCK = "carpet"
NOISE_MM = 0.5  # less is none on a tape
STRAIGHT = "the straight distance between its places, by Pythagoras"


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each bought cable, and what the trunks' written lengths have to say."""
    cables = found.wiring.bought_cables
    reach = tuple(_finding(found, n, one, unit) for n, one in enumerate(cables))
    return (*reach, *_trunks(found, unit))


def _trunks(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each trunk that is too short to be, or that none of those known is."""
    spare = {
        number: trunk_mm(one, found.wiring) - straight
        for number, one in enumerate(found.wiring.trunks)
        if one.long is not None and (straight := straight_mm(one, found.wiring)) is not None
    }
    short = tuple(_too_short(found, n, unit) for n, mm in spare.items() if mm < -NOISE_MM)
    if short or not spare:
        return short
    count = len(spare)
    which = f"All {count} trunks" if count > 1 else "The trunk"
    says = (
        f"{which} whose places are known {'are' if count > 1 else 'is'} at least as long as straight"
        " from place to place."
    )
    least = min(spare.values())
    return (Finding("length", "trunks", "good", says, LOCK, margin=least, source=STRAIGHT),)


def _too_short(found: WiringOutcome, number: int, unit: Unit) -> Finding:
    """Return that a trunk is written shorter than straight from place to place."""
    trunk = found.wiring.trunks[number]
    long_mm, straight = trunk_mm(trunk, found.wiring), straight_mm(trunk, found.wiring) or 0.0
    free_mm = long_mm - (trunk.long.value if trunk.long else 0.0)  # across its hinge
    way, least = f"{trunk.start} to {trunk.end}", _measured_up(straight - free_mm, unit)
    says = (
        f"The trunk from {way} is written {shown_with_unit(straight - long_mm, unit)} shorter than"
        " straight from place to place."
    )
    return Finding(
        rule="length",
        place=f"trunk from {way}",
        grade="change",
        says=says,
        lock=LOCK,
        figure=long_mm,
        limit=straight,
        margin=long_mm - straight,
        remedies=(
            Remedy(
                f"Write {least}, the least it can be.",
                (Edit(("wiring", "trunks", number, "long"), least),),
            ),
            Remedy(f"Or measure again where {trunk.start} and {trunk.end} are, and the trunk."),
        ),
        source=STRAIGHT,
        why=(
            f"Straight from {way} it is {shown_with_unit(straight, unit)}, along, across and up.",
            "Wires cut to a trunk that is written too short do not reach.",
        ),
    )


def _measured_up(mm: float, unit: Unit) -> str:
    """Return a length as a tape tells it, rounded up."""
    return f"{ceil(mm)} mm" if unit == "mm" else f"{ceil(mm / 25.4 * 16) / 16:g} in"


def _finding(found: WiringOutcome, number: int, cable: BoughtCable, unit: Unit) -> Finding:
    """Return whether a cable reaches."""
    place = f"length of {cable.name}"
    way = routes_from(cable.start, found.wiring).get(cable.end)
    if way is None:
        missing = f"a trunk from {cable.start} to {cable.end}"
        says = f"Not checked: no way is written from {cable.start} to {cable.end}."
        return Finding("length", place, "look", says, "carpet", missing=(missing,))
    needed = way.long_mm * (1 + found.wiring.slack.value / 1000.0)
    short = needed - cable.long.value
    good = short <= 0
    says = (
        f"{sentence(cable.name)} reaches, with {shown_with_unit(-short, unit)} to spare."
        if good
        else f"{sentence(cable.name)} is {shown_with_unit(short, unit)} too short for its way."
    )
    longer = Edit(("wiring", "bought cables", number, "long"), _written(needed, unit))
    remedies = (
        Remedy(f"Buy one of {shown_with_unit(needed, unit)} or more.", (longer,)),
        Remedy(
            f"Or bring {cable.start} and {cable.end} nearer by {shown_with_unit(short, unit)} along"
            " the way."
        ),
    )
    return Finding(
        rule="length",
        place=place,
        grade="good" if good else "change",
        says=says,
        lock="carpet",
        figure=cable.long.value,
        limit=needed,
        margin=-short,
        remedies=() if good else remedies,
        source="the way along the trunks, with the slack you want",
        why=(f"The way is {shown_with_unit(way.long_mm, unit)} along {len(way.trunks)} trunks.",),
    )


def _written(mm: float, unit: Unit) -> str:
    """Return a length to buy, rounded up."""
    if unit == "mm":
        return f"{-(-mm // 100) * 100:g} mm"
    return f"{-(-mm // 25.4):g} in"
