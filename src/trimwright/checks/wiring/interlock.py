"""Rule 'interlock': what a load must or must never do holds in every state, and with which faults not."""

from trimwright.checks.wiring.engine_guard import engine_guard
from trimwright.checks.wiring.state_words import fault_told, told
from trimwright.checks.wiring.step import in_words
from trimwright.checks.wiring.unit_move import lets_go
from trimwright.checks.wiring.words import sentence
from trimwright.findings import Finding, Grade, Remedy
from trimwright.quantities import Unit
from trimwright.wiring import Contradiction, LoopFinding, Offence, Path, Proof, Short, WiringOutcome

LOCK = "carpet"
METHOD = (
    "Looked at over every position of key, engine, switches and doors, with every relay at rest"
    " where its coil puts it; relays as least fixed points, so no dead loop feeds itself."
)

WAYS = (
    "Looked at along every way from rest: the key, the engine, switches and doors changing one after"
    " another, relays and units following in any order."
)


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each rule, each short between a feed and ground, each loop of relays."""
    del unit
    return (
        *(_proof(found, one) for one in found.proofs),
        *(_contradiction(found, one) for one in found.contradictions),
        *(_short(found, one) for one in found.shorts),
        *(_loop(one) for one in found.loops),
    )


def _proof(found: WiringOutcome, one: Proof) -> Finding:
    """Return what became of one rule."""
    if one.offence is not None and one.offence.answer != "kept":
        return _offence(found, one, one.offence)
    place, answer = one.rule.name, one.answer
    if answer == "broken" and one.verdict.example is not None:
        unknown = _unknown(one)
        shown = told(one.verdict.example)
        says = f"{sentence(place)} does not hold: {shown}.{unknown}"
        why, guard = (METHOD, *_way(one.verdict.example.paths)), _guard(found, one)
        return Finding("interlock", place, "stop", says, LOCK, remedies=guard, why=why)
    if answer == "vacuous":
        says = f"{sentence(place)} asks nothing: no state is as it says."
        return Finding("interlock", place, "look", says, LOCK, why=(METHOD,))
    if answer == "unsettled":
        says = f"{sentence(place)} cannot be told: relays it hangs on find no rest."
        return Finding("interlock", place, "stop", says, LOCK, why=(METHOD,))
    if not one.faults:
        says = f"{sentence(place)}: holds in every state, and with any single fault."
        return Finding("interlock", place, "good", says, LOCK, why=(METHOD,))
    names = ", ".join(fault_told(fault) for fault in one.faults[:3])
    more = f" and {len(one.faults) - 3} more" if len(one.faults) > 3 else ""  # noqa: PLR2004  a line's worth
    says = f"{sentence(place)}: holds in every state; single faults break it: {names}{more}."
    why = (METHOD, *(f"{sentence(fault_told(f))}: {told(f.example)}." for f in one.faults))
    return Finding("interlock", place, "look", says, LOCK, why=why)


def _offence(found: WiringOutcome, one: Proof, offence: Offence) -> Finding:
    """Return the fewest steps after which a rule is broken, or that there were too many states."""
    place = one.rule.name
    if offence.answer == "unfinished":
        says = f"{sentence(place)} could not be told: its units go through too many states."
        missing = ("every state that its units come to",)
        return Finding("interlock", place, "look", says, LOCK, missing=missing)
    steps = in_words(offence.steps, found.wiring) or "it is so with all at rest"
    says = f"{sentence(place)} does not hold. From rest: {steps}.{_unknown(one)}"
    why = (WAYS, *_way(offence.paths))
    ways = (*_guard(found, one), *lets_go(found, _number(found, one), offence))
    return Finding("interlock", place, "stop", says, LOCK, remedies=ways, why=why)


def _guard(found: WiringOutcome, one: Proof) -> tuple[Remedy, ...]:
    """Return a relay that knows of the engine, where that is what is missing."""
    guard = engine_guard(found.wiring, found.wiring.rules[_number(found, one)])
    return () if guard is None else (guard,)


def _number(found: WiringOutcome, one: Proof) -> int:
    """Return which rule of the file was proven."""
    return next(n for n, proof in enumerate(found.proofs) if proof is one)


def _unknown(one: Proof) -> str:
    """Return that no wire carries what a rule is about, if so."""
    if not one.unknown:
        return ""
    return f" No wire tells it of the {' or the '.join(one.unknown)}."


def _way(paths: tuple[Path, ...]) -> tuple[str, ...]:
    """Return the current's way in words."""
    return tuple(
        f"Current goes from {path.feed} by {', '.join((*path.to, path.through, *path.back))} to"
        f" {path.ground.removesuffix(' stud')}."
        for path in paths
        if path.feed and path.ground
    )


def _contradiction(found: WiringOutcome, one: Contradiction) -> Finding:
    """Return that two rules cannot both be kept."""
    says = f"Two rules cannot both be kept: {told(one.example)} one forbids what the other asks."
    pairs = zip(found.wiring.rules, found.proofs, strict=True)
    load = next(rule.never for rule, proof in pairs if proof.rule == one.never)
    return Finding("interlock", f"rules of {load}", "stop", says, LOCK, why=(METHOD,))


def _short(found: WiringOutcome, one: Short) -> Finding:
    """Return that a feed is joined to ground."""
    del found
    says = f"{sentence(one.feed)} is joined straight to ground {told(one.example)}."
    way = tuple(f"Through {', '.join(path.back)}." for path in one.example.paths)
    return Finding("interlock", f"short of {one.feed}", "stop", says, LOCK, why=way)


def _loop(one: LoopFinding) -> Finding:
    """Return what relays that hang on each other do."""
    names = " and ".join(one.loop)
    grades: dict[str, Grade] = {
        "chatter": "stop",
        "race": "change",
        "latch": "look",
        "unfinished": "look",
    }
    says = {
        "chatter": f"{sentence(names)} chatters: it finds no rest.",
        "race": f"It depends on which is quicker how {names} come to rest.",
        "latch": f"{sentence(names)} keeps itself: it stays on after what pulled it in is gone.",
        "unfinished": f"It could not be told whether {names} finds rest.",
    }[one.kind]
    missing = ("whether it finds rest in every state",) if one.kind == "unfinished" else ()
    grade = grades[one.kind]
    return Finding("interlock", f"loop of {names}", grade, says, LOCK, missing=missing)
