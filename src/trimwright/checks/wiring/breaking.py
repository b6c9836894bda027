"""Rule 'fuse breaks': a fuse can break what a short close behind it drives."""

from collections.abc import Iterator
from math import inf

from msgspec import Struct

from trimwright.build import Fuse
from trimwright.checks.wiring.fuse import starts_through
from trimwright.checks.wiring.shorted import WITHIN_S
from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import Unit, shown_current
from trimwright.stock import Breaking, fuse_breaks
from trimwright.wiring import (
    FUSE_CLASS,
    FUSE_V,
    FUSES_SOLD,
    Rub,
    WiringOutcome,
    fuse_bears,
    fuse_of_class,
    lasting_a,
    shorted,
    sure_a,
)

RULE, LOCK = "fuse breaks", "carpet"
OTHERS = ("blade", "bolted")  # kinds that are offered, those that break less first
CLOSE = "Most flows close behind the fuse, engine running, wires cold, nothing else on."


class Duty(Struct, frozen=True):
    """A fuse with the most that it is asked to break [A], and the least that has to open it [A]."""

    fuse: Fuse
    most_a: float
    least_a: float


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each fuse that breaks too little, one for those it is not known of."""
    return tuple(_said(found, shorted(found.wiring, unit)))


def _duties(found: WiringOutcome, rubs: tuple[Rub, ...]) -> Iterator[Duty]:
    """Yield the fuses that a short may open."""
    for fuse in found.wiring.fuses:
        most = [rub.broken_a for rub in rubs if fuse.name in (*rub.fuses, *rub.also)]
        least = [rub.fuse_a for rub in rubs if rub.fuses[-1:] == (fuse.name,)]
        if most:
            yield Duty(fuse, max(most), min(least, default=max(most)))


def _said(found: WiringOutcome, rubs: tuple[Rub, ...]) -> Iterator[Finding]:
    """Yield what is to be said of each fuse against the most that a short behind it drives."""
    unknown: list[Duty] = []
    for duty in _duties(found, rubs):
        fuse = duty.fuse
        printed = fuse_breaks(FUSE_CLASS[fuse.type], fuse.rated.value)
        if fuse.breaks is not None:
            printed = Breaking(fuse.breaks.value, 0.0, "DC", "as written")
        if printed is not None and duty.most_a > printed.amps:
            yield _too_little(found, duty, printed)
        elif printed is None or not printed.at_dc:
            unknown.append(duty)
    if unknown:
        yield _unknown(unknown)


def _too_little(found: WiringOutcome, duty: Duty, printed: Breaking) -> Finding:
    """Return that a short drives more than a fuse breaks: for sure, or as far as anyone tested it."""
    name = duty.fuse.name
    drives, breaks = shown_current(duty.most_a), shown_current(printed.amps)
    told = (
        f"it breaks {breaks} and may burn on."
        if printed.at_dc
        else f"glass ones are tested to {breaks} at {printed.at_v:g} V {printed.supply}, at 12 V DC"
        " no sheet tells."
    )
    return Finding(
        RULE,
        f"what {name} breaks",
        "stop" if printed.at_dc else "change",
        f"A short close behind {name} drives {drives}; {told}",
        LOCK,
        figure=duty.most_a,
        limit=printed.amps,
        margin=printed.amps - duty.most_a,
        measure="A",
        remedies=(
            *_another_kind(found, duty),
            Remedy(f"Or one whose sheet prints more than {drives}, written as breaks."),
        ),
        source="as written" if duty.fuse.breaks else f"interrupting rating [{printed.source}]",
        why=(CLOSE,),
    )


def _another_kind(found: WiringOutcome, duty: Duty) -> Iterator[Remedy]:
    """Yield the first kind of fuse that breaks it, bears its loads, and opens in time."""
    fuse, rated = duty.fuse, duty.fuse.rated.value
    for kind in OTHERS:
        rating = next((one for one in FUSES_SOLD[kind] if one >= rated), None)
        printed = None if rating is None else fuse_breaks(FUSE_CLASS[kind], rating)
        if kind == fuse.type or rating is None or printed is None or found.electrics is None:
            continue
        lasting, starts = lasting_a(found.electrics, fuse.name), starts_through(found, fuse.name)
        in_time = sure_a(fuse_of_class(kind, rating), WITHIN_S) <= duty.least_a
        breaks = printed.amps >= _driven_a(found, duty, rating)
        if breaks and in_time and fuse_bears(kind, rating, lasting, starts):
            at = ("wiring", "fuses", found.wiring.fuses.index(fuse))
            edits = [Edit((*at, "type"), kind)]
            edits += [Edit((*at, "rated"), f"{rating:g} A")] if rating > rated else []
            edits += [Edit((*at, "breaks"), None)] if fuse.breaks else []
            more = ", with wire that it looks after" if rating > rated else ""
            says = f"Take a {kind} fuse of {rating:g} A for {fuse.name}{more}: it breaks"
            yield Remedy(f"{says} {shown_current(printed.amps)}.", tuple(edits))
            return


def _driven_a(found: WiringOutcome, duty: Duty, rating_a: float) -> float:
    """Return what a short drives at most through a fuse of another rating, which resists less [A].

    All of it is taken to come from the battery at rest: less voltage, so less else on the way.
    """
    battery, rated = found.wiring.battery, duty.fuse.rated.value
    volts = 0.0 if battery is None else battery.volts.value
    rest = volts / duty.most_a - FUSE_V / rated + FUSE_V / rating_a
    return volts / rest if rest > 0 else inf


def _unknown(unknown: list[Duty]) -> Finding:
    """Return that nobody prints what some fuses break at a car's voltage."""
    names = ", ".join(one.fuse.name for one in unknown)
    most = shown_current(max(one.most_a for one in unknown))
    return Finding(
        RULE,
        "what glass fuses break",
        "look",
        f"Not checked: no sheet says what {names} can break at 12 V DC, only at AC; a short drives up"
        f" to {most}.",
        LOCK,
        missing=tuple(f"breaks of {one.fuse.name}" for one in unknown),
    )
