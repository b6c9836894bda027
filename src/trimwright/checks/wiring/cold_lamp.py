"""Lamps that come on cold: what their first current brings to a fuse, against what opens it."""

from collections.abc import Iterator

from trimwright.build import Fuse
from trimwright.checks.wiring.words import sentence
from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import shown_current
from trimwright.wiring import (
    FUSES_SOLD,
    ColdLamps,
    WiringOutcome,
    cold_lamps,
    fuse_of_class,
    melting_a2s,
    melts_a2s,
)

LOCK = "carpet"
HALVINGS = 20  # of a rating that is looked for: to a millionth
MODEL = (
    "Solved with all lamps that come on together cold, each as a straight tungsten wire of its power;"
    " a coiled one takes up to half as long again to warm."
)


def behind(found: WiringOutcome, fuse: str) -> ColdLamps | None:
    """Return the lamps that come on cold through a fuse; None where none does."""
    if found.electrics is None:
        return None
    every = cold_lamps(found.wiring, found.electrics.unit)
    return next((one for one in every if one.fuse == fuse), None)


def stays_whole(kind: str, rating_a: float, lamps: ColdLamps | None) -> bool:
    """Return whether a fuse of a kind and rating [A] stays whole, as far as that is printed."""
    if lamps is None:
        return True
    melts = melts_a2s(fuse_of_class(kind, rating_a))
    return melts is None or melting_a2s(lamps.currents_a, rating_a) < melts


def told(fuse: Fuse, lamps: ColdLamps | None) -> Iterator[str]:
    """Yield what lamps take at first, and what of it reaches the fuse before they are hot."""
    if lamps is None:
        return
    rated = fuse.rated.value
    each = ", ".join(
        f"{name} {shown_current(amps)}"
        for name, amps in zip(lamps.names, lamps.firsts_a, strict=True)
    )
    brings, melts = melting_a2s(lamps.currents_a, rated), melts_a2s(fuse_of_class(fuse.type, rated))
    known = "what opens it so soon is not printed" if melts is None else f"{_heat(melts)} opens it"
    yield f"Cold, solved as nothing is written: {each}; that is {_heat(brings)}, and {known}."


def finding(found: WiringOutcome, fuse: Fuse, lamps: ColdLamps | None) -> Iterator[Finding]:
    """Yield that a fuse may open when lamps come on; nothing where it stays whole."""
    rated = fuse.rated.value
    if lamps is None or stays_whole(fuse.type, rated, lamps):
        return
    asks = _asked_a(fuse, lamps)
    names = ", ".join(lamps.names)
    yield Finding(
        rule="fuse",
        place=f"cold lamps behind {fuse.name}",
        grade="change",
        says=f"{sentence(fuse.name)} may open when {names} come on cold:"
        f" {shown_current(lamps.currents_a[0])} at first through {shown_current(rated)}.",
        lock=LOCK,
        figure=asks,
        limit=rated,
        margin=rated - asks,
        measure="A",
        remedies=tuple(_larger(found, fuse, lamps)),
        source="I²t of its class's earliest opening; tungsten [jones-langmuir-1927]",
        why=(*told(fuse, lamps), MODEL),
    )


def _asked_a(fuse: Fuse, lamps: ColdLamps) -> float:
    """Return the rating from which on a fuse of its kind stays whole [A]."""
    low, high = fuse.rated.value, lamps.currents_a[0]
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if stays_whole(fuse.type, middle, lamps) else (middle, high)
    return high


def _larger(found: WiringOutcome, fuse: Fuse, lamps: ColdLamps) -> Iterator[Remedy]:
    """Yield the next fuse as sold that stays whole."""
    for rating in FUSES_SOLD[fuse.type]:
        if rating > fuse.rated.value and stays_whole(fuse.type, rating, lamps):
            edit = Edit(
                ("wiring", "fuses", found.wiring.fuses.index(fuse), "rated"), f"{rating:g} A"
            )
            says = f"Take {rating:g} A for {fuse.name}, and wire that it looks after."
            yield Remedy(says, (edit,))
            return


def _heat(a2s: float) -> str:
    """Return heat of a short current in words."""
    return f"{a2s:.2g} A²s" if a2s < 100 else f"{a2s:.0f} A²s"  # noqa: PLR2004  three digits
