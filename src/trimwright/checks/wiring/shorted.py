"""Rule 'rubbed through': wherever a wire is rubbed through to the body, a fuse opens in time.

Whether a wire bears all that its fuse may hold is the rule 'wire size'; where that fails, nothing
is said of the same wire here.
"""

from collections.abc import Iterator

from trimwright.build import Fuse
from trimwright.checks.wiring.short_cure import fuse_put_in, passing_more, thicker
from trimwright.checks.wiring.words import sentence, waits_for
from trimwright.findings import Finding, Remedy
from trimwright.quantities import Unit, shown_current, shown_seconds
from trimwright.wiring import (
    Rub,
    Wire,
    WiringOutcome,
    bearing,
    borne_by,
    fuse_of_class,
    held_a,
    length_m,
    shorted,
    sure_a,
)

RULE, LOCK = "rubbed through", "carpet"
NEAR_M = 0.3  # wire that may lie between the battery and its fuse; common practice, no source
WITHIN_S = 5.0  # [bs-7671-2018, regulation 411.3.2.3, of buildings]
BAND = "opening band of the fuse's class"
IN_TIME = f"{BAND}, within {WITHIN_S:g} s [bs-7671-2018, of buildings]"
SLEEVE = Remedy("Lead it short, in a sleeve, clear of edges and hot parts.")
WHY = (
    "Reckoned with bare copper pressed on the body at either end of each wire, nothing else on; most"
    " flows with the engine running and cold wires, least with the engine off and wires as warm as"
    " their insulation bears for good. A short that only touches passes less, and"
    " may open no fuse."
)


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each path that fails, else one good."""
    rubs = shorted(found.wiring, unit)
    wrong = (
        *_unfused(found, rubs),
        *_late(found, rubs, unit),
        *_warm(found, rubs, unit),
        *_held(found, rubs, unit),
        *_unsolved(rubs),
    )
    failed = any(one.grade in ("stop", "change") for one in wrong)
    failed |= any(rub.fuses and rub.latest_s > WITHIN_S for rub in rubs)  # 'wire size' says of some
    return wrong if failed else (*wrong, *_good(found, rubs))


def _by_path(
    found: WiringOutcome, rubs: tuple[Rub, ...]
) -> Iterator[tuple[int, list[tuple[Wire, Rub]]]]:
    """Yield each path's number with its wires that the battery reaches."""
    paths: dict[int, list[tuple[Wire, Rub]]] = {}
    for wire, rub in zip(found.loom.wires, rubs, strict=False):  # nothing is told of unsolved ones
        if rub.fed:
            paths.setdefault(wire.path, []).append((wire, rub))
    yield from paths.items()


def _unfused(found: WiringOutcome, rubs: tuple[Rub, ...]) -> Iterator[Finding]:
    """Yield what is to be said of each path with wire ahead of all fuses, longer than it may be."""
    for path, its in _by_path(found, rubs):
        long = [(wire, rub) for wire, rub in its if rub.unfused and length_m(wire) > NEAR_M]
        if not long:
            continue
        wire, rub = max(long, key=lambda one: length_m(one[0]))
        name, most = found.wiring.paths[path].name, shown_current(rub.most_a)
        remedy = fuse_put_in(found, path, wire, rub)
        if remedy is None:
            yield Finding(
                RULE,
                f"no fuse ahead of {name}",
                "look",
                f"No fuse is ahead of {wire.name}, as is usual for a starter: no fuse as sold bears"
                f" what it takes. A short there drives {most} until something burns through.",
                LOCK,
                remedies=(SLEEVE,),
                source="common practice, no source",
                why=(WHY,),
            )
            continue
        yield Finding(
            RULE,
            f"no fuse ahead of {name}",
            "stop",
            f"No fuse looks after {wire.name}: a short there drives {most} until the wire melts.",
            LOCK,
            figure=1000 * length_m(wire),
            limit=1000 * NEAR_M,
            margin=1000 * (NEAR_M - length_m(wire)),
            remedies=(remedy,),
            source="common practice, no source",
            why=("Disconnect the battery before any work on this wire.", WHY),
        )


def _late(found: WiringOutcome, rubs: tuple[Rub, ...], unit: Unit) -> Iterator[Finding]:
    """Yield each path with a wire whose short passes too little for its fuse to open in time."""
    for path, its in _by_path(found, rubs):
        late = [
            (wire, rub)
            for wire, rub in its
            if rub.fuses and rub.latest_s > WITHIN_S and not _told_by_size(found, wire.name)
        ]
        if not late:
            continue
        wire, rub = min(late, key=lambda one: one[1].fuse_a)
        fuse, needed = _last(found, rub), _needed(_last(found, rub))
        flows, rated = shown_current(rub.fuse_a), shown_current(fuse.rated.value)
        end = "start" if rub.from_end else "far end"
        never = (
            f"may never open: {flows} goes through {rated}"
            if rub.latest_s == float("inf")
            else f"may take {shown_seconds(rub.latest_s)} to open: {flows} goes through {rated}"
        )
        yield Finding(
            RULE,
            f"{found.wiring.paths[path].name} rubbed through",
            "stop" if rub.latest_s == float("inf") else "change",
            f"With the {end} of {wire.name} on the body {fuse.name} {never}.",
            LOCK,
            figure=rub.fuse_a,
            limit=needed,
            margin=rub.fuse_a - needed,
            measure="A",
            remedies=passing_more(found, path, wire, rub, WITHIN_S, unit),
            source=IN_TIME,
            why=(
                f"{sentence(fuse.name)} is sure to open in time from {shown_current(needed)} on.",
                WHY,
            ),
        )


def _warm(found: WiringOutcome, rubs: tuple[Rub, ...], unit: Unit) -> Iterator[Finding]:
    """Yield each path with a wire that is too warm when the fuse has opened."""
    worst: dict[str, tuple[float, Rub]] = {}
    for rub in rubs:
        hot = rub.warmest
        if hot is None or not rub.fuses or not rub.latest_s <= WITHIN_S:
            continue  # said above
        if hot.share > max(1.0, worst.get(hot.wire, (0.0, rub))[0]):
            worst[hot.wire] = (hot.share, rub)
    paths = {wire.name: wire.path for wire in found.loom.wires}
    for name, (_, rub) in worst.items():
        hot = rub.warmest
        if hot is None or _told_by_size(found, name):
            continue
        yield Finding(
            RULE,
            f"warmth of {name} rubbed through",
            "stop",
            f"With {rub.wire} on the body {name} gets {hot.celsius:.0f} °C warm before"
            f" {rub.fuses[-1]} opens, and bears {hot.bears_c:.0f} °C for a while.",
            LOCK,
            remedies=thicker(found, paths[name], borne_by(found.wiring, unit, hot)),
            source=f"{BAND} against the warmth its insulation bears",
            why=(WHY,),
        )


def _held(found: WiringOutcome, rubs: tuple[Rub, ...], unit: Unit) -> Iterator[Finding]:
    """Yield each path that bears less than its fuse holds, of wires that a load's way back takes.

    Of wires on the way to loads the rule 'wire size' says it.
    """
    sizings = () if found.electrics is None else found.electrics.sizings
    own = {one.wire: one for one in sizings}
    for path, its in _by_path(found, rubs):
        name, thin = found.wiring.paths[path].name, list[tuple[float, float, Wire, Fuse]]()
        for wire, rub in its:
            if rub.fuses and not own[wire.name].met.ahead:
                fuse, bears = _last(found, rub), own[wire.name].carries_a
                held = held_a(fuse_of_class(fuse.type, fuse.rated.value))
                thin += [(bears, held, wire, fuse)] if bears < held else []
        if not thin:
            continue
        bears, held, wire, fuse = min(thin, key=lambda one: one[0] / one[1])
        size = bearing(found.wiring, unit, wire.name, held)
        yield Finding(
            RULE,
            f"{name} half rubbed through",
            "change",
            f"{sentence(fuse.name)} does not look after {wire.name} if it is half rubbed through: it"
            f" may carry {shown_current(bears)} there, and the fuse may never open below"
            f" {shown_current(held)}.",
            LOCK,
            figure=bears,
            limit=held,
            margin=bears - held,
            measure="A",
            remedies=thicker(found, path, size) if size else (SLEEVE,),
            source=f"{BAND} against the warmth its insulation bears",
            why=(
                (
                    "Where loads are looked at, its current is on its way back or comes from the"
                    " alternator; a short is fed from the battery."
                ),
            ),
        )


def _unsolved(rubs: tuple[Rub, ...]) -> Iterator[Finding]:
    """Yield the wires whose shorts could not be solved."""
    names = tuple(rub.wire for rub in rubs if not rub.solved)
    if names:
        says = f"Not checked: what flows could not be solved for {names[0]}"
        says += f" and {len(names) - 1} more." if len(names) > 1 else "."
        missing = tuple(f"a short of {name}" for name in names)
        yield Finding(RULE, "shorts not solved", "look", says, LOCK, missing=missing)


def _good(found: WiringOutcome, rubs: tuple[Rub, ...]) -> Iterator[Finding]:
    """Yield that every wire is looked after, told of the one with the least to spare."""
    fused = [rub for rub in rubs if rub.fuses]
    if not fused:
        return
    grounding = {name for use in found.uses for name in use.path.back}  # no short's way
    waits = waits_for(found, {wire.name for wire in found.loom.wires} - grounding)
    if waits:
        says = (
            "Not told whether a fuse opens in time for any wire: nobody knows how all of them lie."
        )
        yield Finding(RULE, "any wire rubbed through", "look", says, LOCK, missing=waits)
        return
    worst = min(fused, key=lambda rub: rub.fuse_a / _needed(_last(found, rub)))
    needed = _needed(_last(found, worst))
    slowest = shown_seconds(max(rub.latest_s for rub in fused))
    yield Finding(
        RULE,
        "any wire rubbed through",
        "good",
        f"Whichever of {len(fused)} wires behind fuses is on the body, a fuse opens within {slowest};"
        f" the least to spare has {worst.wire}.",
        LOCK,
        figure=worst.fuse_a,
        limit=needed,
        margin=worst.fuse_a - needed,
        measure="A",
        source=IN_TIME,
        why=(WHY,),
    )


def _last(found: WiringOutcome, rub: Rub) -> Fuse:
    """Return the fuse that ends a short."""
    return next(one for one in found.wiring.fuses if one.name == rub.fuses[-1])


def _needed(fuse: Fuse) -> float:
    """Return from which current on a fuse is sure to open in time [A]."""
    return sure_a(fuse_of_class(fuse.type, fuse.rated.value), WITHIN_S)


def _told_by_size(found: WiringOutcome, wire: str) -> bool:
    """Return whether the rule 'wire size' says already that a wire's fuse does not look after it."""
    sizings = () if found.electrics is None else found.electrics.sizings
    own = next((one for one in sizings if one.wire == wire), None)
    return own is not None and any(
        margin.criterion == "fuse" and not margin.passes for margin in own.margins
    )
