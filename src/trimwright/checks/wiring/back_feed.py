"""Rule 'back-feed': a pulled fuse is dead behind, a feed that the key has off is off."""

from trimwright.checks.wiring.state_words import told
from trimwright.checks.wiring.words import sentence
from trimwright.findings import Finding, Remedy
from trimwright.quantities import Unit, shown_voltage
from trimwright.wiring import (
    BackFed,
    Lifted,
    PastFuse,
    WiringOutcome,
    back_fed,
    lifted,
    past_fuses,
    state_words,
)

RULE, LOCK = "back-feed", "carpet"
METHOD = (
    "Looked at over every position of key, switches and doors, with every relay at rest where its"
    " coil puts it; of a fuse with the engine still."
)
SOLVED = (
    "The network solved with the key in each position: all at rest, one switch worked, all worked. Up to"
    " 10 % of the battery's volts may stand on a feed that is off (common practice, no source)."
)


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each fuse and each feed that is live from behind."""
    del unit
    return (
        *(_past(one) for one in past_fuses(found)),
        *(_back_fed(found, one) for one in back_fed(found)),
        *(_lifted(one) for one in lifted(found)),
    )


def _past(one: PastFuse) -> Finding:
    """Return that something stays live with its fuse pulled."""
    loads = " and ".join(one.loads[:2]) or "what is behind it"
    way = f"over {one.over}" if one.over else "by a way past it"
    verb = "stay" if len(one.loads) > 1 else "stays"
    state = told(one.example)
    says = f"Pull {one.fuse}, and {loads} {verb} live {way} ({state})."
    part = f"Part them: feed what is behind {one.fuse} from one fuse only, and not by"
    remedy = Remedy(f"{part} {', '.join(one.wires)}.")
    place = f"{one.fuse} and {one.over}" if one.over else f"past {one.fuse}"
    both = "A wire behind both may carry what the two let through together."
    return Finding(RULE, place, "stop", says, LOCK, remedies=(remedy,), why=(METHOD, both))


def _back_fed(found: WiringOutcome, one: BackFed) -> Finding:
    """Return that a feed is live though the key has it off."""
    fuses = {fuse.name for fuse in found.wiring.fuses}
    past = [name for name in one.path.to if name in fuses]
    way = f" over {past[-1]}" if past else ""
    says = (
        f"{sentence(one.feed)} is live though the key has it off: current comes back into it from"
        f" {one.path.feed}{way} ({told(one.example)})."
    )
    feeds = [
        n for n, name in enumerate(one.path.to) if name in {f.name for f in found.wiring.feeds}
    ]
    wires = ", ".join(one.path.to[feeds[-1] + 1 if feeds else 0 :])
    remedy = Remedy(
        f"Part {one.feed} from what leads to it backwards: {wires}."
        if wires
        else f"Lead no fuse to two feeds: the box joins {one.feed} to another."
    )
    return Finding(RULE, one.feed, "stop", says, LOCK, remedies=(remedy,), why=(METHOD,))


def _lifted(one: Lifted) -> Finding:
    """Return how high a feed that is off stands, through which loads."""
    through = " and ".join(one.loads) or "what hangs on it"
    state = ", ".join(state_words(one.state)) or "all at rest"
    says = (
        f"{sentence(one.feed)} is off and stands at {shown_voltage(one.volts)}: current comes back into"
        f" it through {through} ({state})."
    )
    return Finding(
        rule=RULE,
        place=f"{one.feed} through {through}",
        grade="change",
        says=says,
        lock=LOCK,
        figure=one.volts,
        limit=one.limit_v,
        margin=one.limit_v - one.volts,
        measure="V",
        remedies=(
            Remedy(f"Feed both sides of {through} from one feed, or ground its other side."),
        ),
        source="the network solved; the share is common practice, no source",
        why=(SOLVED,),
    )
