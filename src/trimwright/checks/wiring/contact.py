"""Rule 'contact': every contact is rated for what it switches, by the kind of its load."""

from collections.abc import Iterator

from trimwright.build import Relay, Switch
from trimwright.checks.wiring.relay_instead import relay_instead
from trimwright.checks.wiring.words import sentence
from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import Unit, shown_current
from trimwright.wiring import Use, WiringOutcome, cold_lamps, contact_rating, relay_rating

LOCK = "carpet"
SOURCE = "switch ratings by load [ac-43-13-1b-2001, table 11-4, of aircraft]"


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each switch and relay that switches something."""
    del unit
    devices: tuple[Switch | Relay, ...] = (*found.wiring.switches, *found.wiring.relays)
    return tuple(one for device in devices if (one := _finding(found, device)) is not None)


def _through(found: WiringOutcome, device: Switch | Relay) -> Iterator[Use]:
    """Yield each consumer whose current a device's contacts switch, once."""
    seen: set[str] = set()
    for use in found.uses:
        own = device.name
        parts = (*use.path.to, *use.path.back)
        switches = any(part == own or part.startswith(f"{own} ") for part in parts)
        contacts = {one.name for one in found.network.contacts}
        if switches and use.consumer.name not in seen and contacts & {*parts}:
            seen.add(use.consumer.name)
            yield use


def _finding(found: WiringOutcome, device: Switch | Relay) -> Finding | None:
    """Return what is to be said of one device."""
    uses = list(_through(found, device))
    if not uses:
        return None
    place = f"contacts of {device.name}"
    if device.carries is None:
        says = f"Not checked: nobody has said what {device.name} is rated for."
        return Finding(
            "contact", place, "look", says, LOCK, missing=(f"what {device.name} may carry",)
        )
    unknown = [use.consumer.name for use in uses if use.consumer.current_a is None]
    if unknown:
        says = f"Not checked: nobody has said what {unknown[0]} takes."
        return Finding("contact", place, "look", says, LOCK, missing=(f"what {unknown[0]} takes",))
    needed = sum(
        contact_rating(use.consumer.current_a or 0.0, use.consumer.contact) for use in uses
    )
    rated = device.carries.value
    told = ", ".join(
        f"{use.consumer.name} ({shown_current(use.consumer.current_a or 0)})" for use in uses
    )
    good = needed <= rated
    says = (
        f"{sentence(device.name)} is rated for what it switches: {told}."
        if good
        else f"{sentence(device.name)} will burn or weld: it switches {told}, which asks for a rating"
        f" of {shown_current(needed)}."
    )
    return Finding(
        rule="contact",
        place=place,
        grade="good" if good else "stop",
        says=says,
        lock=LOCK,
        figure=needed,
        limit=rated,
        margin=rated - needed,
        measure="A",
        remedies=() if good else _remedies(found, device, needed),
        source=SOURCE,
        why=(
            (
                "A contact is asked for its load's current times a factor: lamps draw many times their"
                " current while cold, coils and motors make it arc."
            ),
            *_at_first(found, uses),
        ),
    )


def _at_first(found: WiringOutcome, uses: list[Use]) -> Iterator[str]:
    """Yield what its loads take at first, as written or solved: the factor stands for that."""
    solved = () if found.electrics is None else cold_lamps(found.wiring, found.electrics.unit)
    cold = {
        name: amps for one in solved for name, amps in zip(one.names, one.firsts_a, strict=True)
    }
    for own in (use.consumer for use in uses):
        if own.first_a is not None:
            yield f"{sentence(own.name)} takes {shown_current(own.first_a)} at first, as written."
        elif own.name in cold:
            yield f"{sentence(own.name)} takes {shown_current(cold[own.name])} cold, solved."


def _remedies(found: WiringOutcome, device: Switch | Relay, needed: float) -> tuple[Remedy, ...]:
    """Return a relay in its place, and a contact that is rated for it."""
    remedies: list[Remedy] = []
    if isinstance(device, Switch) and device.contacts == "make":
        relayed = relay_instead(found.wiring, device, needed)
        if relayed is not None:
            remedies.append(relayed)
    if isinstance(device, Relay):
        number, rated = found.wiring.relays.index(device), relay_rating(needed)
        edit = Edit(("wiring", "relays", number, "carries"), f"{rated:g} A")
        remedies.append(Remedy(f"Take a relay rated for {shown_current(rated)}.", (edit,)))
    else:
        says = f"Or take a switch rated for {shown_current(needed)} in its place."
        remedies.append(Remedy(says))
    return tuple(remedies)
