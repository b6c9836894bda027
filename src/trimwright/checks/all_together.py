"""Rule 'all together': every gap clears at once, as surely as wanted; else the least cut."""

from trimwright.cabin import Cabin
from trimwright.findings import Finding, Remedy
from trimwright.fit import Plan
from trimwright.quantities import Unit, shown_sure, shown_with_unit

SOURCE = "the certainty you want, or the default listed as assumed"
CAUTION = (
    "Cut outside or with a mask: dust of plywood and glue harms the lungs. Eye and ear protection."
)


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return what the rule says, with the least cut as its remedy."""
    found = cabin.outcome
    if found is None or found.joint is None:
        return ()
    sure, wanted = found.joint.value, found.wanted
    good = sure >= wanted
    count = sum(not one.gap.part_of for one in found.gaps)
    says = f"All {count} gaps clear at once: {shown_sure(sure)} sure, wanted {shown_sure(wanted)}."
    if not good:
        says = (
            f"It is {shown_sure(sure)} sure that all {count} gaps clear at once;"
            f" wanted {shown_sure(wanted)}."
        )
    if cabin.unknown:
        says += f" {len(cabin.unknown)} more could not be checked and are not counted."
    return (
        Finding(
            rule="all together",
            place="the whole console",
            grade="good" if good else "change",
            says=says,
            lock="covering",
            figure=sure,
            limit=wanted,
            margin=sure - wanted,
            measure="share",
            remedies=() if good else _remedies(cabin),
            source=SOURCE,
            why=_why(cabin),
        ),
    )


def _remedies(cabin: Cabin) -> tuple[Remedy, ...]:
    """Return the least cut as one remedy."""
    plan, unit = cabin.plan, cabin.build.unit
    if plan is None or not plan.cuts:
        return ()
    sure = f"{shown_sure(plan.reached.value)} sure of all together"
    return (Remedy(f"{cuts_told(plan, unit)}: {sure}.", plan.edits(cabin.build)),)


def cuts_told(plan: Plan, unit: Unit) -> str:
    """Return the cuts of a plan in words, each with its amount."""
    return "; ".join(
        cut.verb.format(shown_with_unit(amount, unit, "up", step="fine"))
        for cut, amount in plan.cuts
    )


def _why(cabin: Cabin) -> tuple[str, ...]:
    """Return how it is reckoned and what the cut reaches."""
    lines = [
        (
            "Joint certainty: the share of draws from all doubts in which every gap is kept at once."
            " It is lower than that of any one gap."
        ),
    ]
    plan = cabin.plan
    if plan is not None:
        lines.append(
            "The least cut removes the least length of edge times depth that makes the joint"
            " certainty what is wanted; it was evaluated again with the cuts made."
        )
        lines.append(CAUTION)
        if plan.short:
            lines.append(
                f"With these cuts {shown_sure(plan.reached.value)} is reached, not what is wanted:"
                f" {plan.short}. Measure what decides, or want a smaller gap."
            )
    return tuple(lines)
