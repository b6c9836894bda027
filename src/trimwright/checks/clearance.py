"""Rule 'clearance': every gap that matters keeps what is wanted, as surely as is wanted."""

from math import isfinite

from trimwright.cabin import Cabin
from trimwright.checks.zone import zone
from trimwright.findings import GRADES, Finding, Grade, Remedy
from trimwright.fit import Fate, Gap, GapOutcome, cut_edits
from trimwright.quantities import shown_sure, shown_with_unit

FELT_MM = 2.0  # contact nearer than this between moving bodies is felt; common practice, no source
KNOCKS = 0.05  # chance of contact at which a control that moves is a stop, not a change
HITS = 0.5  # chance of contact at which a part that stands still will not go in
SOURCE = "the gap you want, or the default listed as assumed"

HIT = {
    "nose": "The nose hits the dash.",
    "seat": "The wall rubs the seat.",
    "lever": "The lever knocks.",
    "handbrake": "The handbrake knocks against its opening.",
    "body": "It sits where something else is.",
    "daylight": "",
}
TIGHT = {
    "nose": "The nose comes too close to the dash.",
    "seat": "The wall comes too close to the seat.",
    "lever": "The lever comes too close.",
    "handbrake": "The handbrake comes too close to its opening.",
    "body": "It comes too close.",
    "daylight": "Daylight shows under the edge.",
}
CLEAR = {
    "nose": "The nose clears the dash.",
    "seat": "The wall clears the seat.",
    "lever": "The lever clears.",
    "handbrake": "The handbrake clears its opening.",
    "body": "It clears.",
    "daylight": "The edge follows the carpet.",
}
PHYSICS = {
    "nose": "Distance from the covered deck to the dash's underside, over the deck's whole width,"
    " with the console at rest on the carpet and bolted down.",
    "seat": "Least distance across the car from the covered wall to the seat's inner edge, over the"
    " whole travel of the seat.",
    "lever": "Least distance from shaft and knob (a capsule and a ball about the fitted pivot) to"
    " the edges of the opening's both faces, to deck, dash and bulkheads, over every gear.",
    "handbrake": "Least distance from the swinging bar to the edges of its opening.",
    "body": "Signed distance between the body and every panel, as convex pieces.",
    "daylight": "Widest gap between the covered wall's lower edge and the carpet at rest.",
}


KINDS = ("nose", "seat", "lever", "knob", "handbrake", "daylight")


def kind(gap: Gap) -> str:
    """Return which of the families of gaps one belongs to.

    Examples
    --------
    >>> kind(Gap("deck to seat heater", "", ("deck", "seat heater"), 5.0, ("car.bodies.0",)))
    'body'
    """
    if any(key.startswith("car.bodies") for key in gap.keys):
        return "body"  # whatever its owner calls it
    if gap.name.startswith("lever to "):
        return "lever"  # whatever the bulkhead is called
    named = next((k for k in KINDS if k in gap.name), "body")
    return "lever" if named == "knob" else named


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return what the rule says about every gap that could be evaluated."""
    if cabin.outcome is None:
        return ()
    return tuple(finding(cabin, one) for one in cabin.outcome.gaps if not one.gap.part_of)


def finding(cabin: Cabin, one: GapOutcome) -> Finding:
    """Return what the rule says about one gap."""
    gap, graded = one.gap, _grade(cabin, one)
    if not isfinite(one.nominal):
        return _tipped(gap)
    return Finding(
        rule="clearance",
        place=gap.name,
        grade=graded,
        says=_says(one, graded),
        lock="covering",
        zone=zone(cabin, one.at),
        figure=one.nominal,
        limit=gap.wanted,
        margin=one.margin,
        sure=min(max(one.sure.value, 0.0), 1.0),
        low=one.low,
        high=one.high,
        worst=one.worst if isfinite(one.worst) else None,
        remedies=() if graded == "good" else remedies(cabin, one),
        source=SOURCE,
        at=one.at,
        on=one.on,
        why=_why(cabin, one),
    )


def _tipped(gap: Gap) -> Finding:
    """Return that a gap has no figure, because the console as written does not stand."""
    return Finding(
        rule="clearance",
        place=gap.name,
        grade="look",
        says="Not checked: with the figures as written the console tips.",
        lock="covering",
        missing=("a footing, and bolts, with which it does not tip",),
        why=(PHYSICS[kind(gap)],),
    )


def _grade(cabin: Cabin, one: GapOutcome) -> Grade:
    """Return the grade of a gap as it stands."""
    fate = Fate(one.gap, one.sure.value, one.clear.value)
    return grade(fate, cabin.build.wanted.certainty.value)


def grade(one: Fate, wanted: float) -> Grade:
    """Return the grade: contact likely is a stop, less sure than wanted is a change.

    Examples
    --------
    >>> gap = Gap("knob to deck", "", ("deck", "gear knob"), 6.0, (), moves=True)
    >>> [grade(Fate(gap, sure, clear), 0.95) for sure, clear in ((0.96, 1), (0.9, 1), (0.9, 0.95))]
    ['good', 'change', 'stop']
    """
    touch = 1.0 - one.clear
    if one.gap.sense == "at least" and touch >= (KNOCKS if one.gap.moves else HITS):
        return "stop"
    return "good" if one.sure >= wanted else "change"


def _says(one: GapOutcome, grade: Grade) -> str:
    """Return the sentence."""
    family = kind(one.gap)
    if grade == "good":
        return CLEAR[family]
    touches = one.gap.sense == "at least" and (one.nominal < 0 or grade == "stop")
    says = HIT[family] if touches else TIGHT[family]
    if one.gap.moves and one.nominal < FELT_MM:
        says += " It is felt and heard here."
    return says


def remedies(cabin: Cabin, one: GapOutcome) -> tuple[Remedy, ...]:
    """Return single cuts that would do for this gap and cost no other its grade."""
    unit = cabin.build.unit
    return tuple(
        Remedy(
            f"{single.cut.verb.format(shown_with_unit(single.amount, unit, 'up', step='fine'))}:"
            f" {shown_sure(single.reached)} sure here.",
            cut_edits(cabin.build, ((single.cut, single.amount),)),
        )
        for single in cabin.singles
        if single.gap == one.gap.name and not _costs(cabin, single.fates)
    )


def _costs(cabin: Cabin, fates: tuple[Fate, ...]) -> bool:
    """Return whether any gap has a worse grade with a cut made than it has today."""
    found, wanted = cabin.outcome, cabin.build.wanted.certainty.value
    if found is None:
        return False
    counted = (one for one in found.gaps if not one.gap.part_of)
    return any(
        GRADES.index(grade(fate, wanted)) < GRADES.index(_grade(cabin, one))
        for fate, one in zip(fates, counted, strict=True)  # a gap's name may follow its panel's
    )


def _why(cabin: Cabin, one: GapOutcome) -> tuple[str, ...]:
    """Return physics, spread and the doubts behind it."""
    unit = cabin.build.unit
    says = {factor.key: factor.says for factor in cabin.ledger.factors}
    lines = [
        PHYSICS[kind(one.gap)],
        (
            f"{shown_sure(one.sure.value)} sure of the wanted gap"
            f" (standard error {100 * one.sure.error:.1f} %), from the doubts of all readings at once."
        ),
        (
            f"9 times in 10 it lies between {shown_with_unit(one.low, unit, step='fine')} and"
            f" {shown_with_unit(one.high, unit, step='fine')}; with every doubt at its worst"
            f" {shown_with_unit(one.worst, unit, step='fine')}."
            if isfinite(one.worst)
            else f" {shown_with_unit(one.high, unit, step='fine')}; with every doubt at its worst"
            " it tips."
        ),
    ]
    lines += [
        f"{shown_sure(share)} of the spread: {says.get(key, key)}" for key, share in one.shares[:4]
    ]
    return tuple(lines)
