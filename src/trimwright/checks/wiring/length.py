"""Rule 'length': cables that are bought with their plugs on reach."""

from trimwright.build import BoughtCable
from trimwright.checks.wiring.words import sentence
from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import Unit, shown_with_unit
from trimwright.wiring import WiringOutcome, routes_from


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each bought cable."""
    return tuple(_finding(found, n, one, unit) for n, one in enumerate(found.wiring.bought_cables))


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
