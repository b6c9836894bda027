"""Rule 'fuse breaks': a fuse can break what a short close behind it drives."""

from collections.abc import Iterator

from trimwright.findings import Finding, Remedy
from trimwright.quantities import Unit, shown_current
from trimwright.stock import fuse_breaks
from trimwright.wiring import FUSE_CLASS, Rub, WiringOutcome, shorted

RULE, LOCK = "fuse breaks", "carpet"


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each fuse that breaks too little, one for those it is not known of."""
    return tuple(_said(found, shorted(found.wiring, unit)))


def _said(found: WiringOutcome, rubs: tuple[Rub, ...]) -> Iterator[Finding]:
    """Yield what is to be said of each fuse against the most that a short behind it drives."""
    most: dict[str, float] = {}
    for rub in rubs:
        for name in (*rub.fuses, *rub.also):
            most[name] = max(most.get(name, 0.0), rub.broken_a)
    unknown = []
    for fuse in found.wiring.fuses:
        if fuse.name not in most:
            continue
        broken = most[fuse.name]
        breaks = fuse_breaks(FUSE_CLASS[fuse.type]) if fuse.breaks is None else fuse.breaks.value
        if breaks is None:
            unknown.append((fuse.name, broken))
        elif broken > breaks:
            yield Finding(
                RULE,
                f"what {fuse.name} breaks",
                "stop",
                f"A short close behind {fuse.name} drives {shown_current(broken)}; it breaks"
                f" {shown_current(breaks)} and may burn on.",
                LOCK,
                figure=broken,
                limit=breaks,
                margin=breaks - broken,
                measure="A",
                remedies=(
                    Remedy(
                        f"Take a fuse whose sheet prints more than {shown_current(broken)}, such as"
                        " a bolted strip, and write it as breaks."
                    ),
                ),
                source="as written"
                if fuse.breaks
                else "interrupting rating [blade-breaking-sheet]",
                why=(
                    "Most flows close behind the fuse, engine running, wires cold, nothing else on.",
                ),
            )
    if unknown:
        names = ", ".join(name for name, _ in unknown)
        yield Finding(
            RULE,
            "what glass fuses break",
            "look",
            f"Not checked: no sheet says what {names} can break at 12 V; a short drives up to"
            f" {shown_current(max(broken for _, broken in unknown))}.",
            LOCK,
            missing=tuple(f"breaks of {name}" for name, _ in unknown),
        )
