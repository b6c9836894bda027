"""Rule 'reading fits the others': a slip or swapped side among readings that check each other."""

from trimwright.cabin import Cabin
from trimwright.car import SectionAdjustment, Suspect, adjusted
from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import shown_with_unit

SOURCE = "standardised residual of a least-squares adjustment (Baarda 1968)"


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return one 'change' for each reading that does not fit, or that all of them do."""
    found = adjusted(cabin.build)
    if found.suspects:
        return tuple(_finding(cabin, one) for one in found.suspects)
    return _all_fit(found)


def _all_fit(found: SectionAdjustment) -> tuple[Finding, ...]:
    """Return that the readings fit each other, or that nothing checks them."""
    total = len(found.checked) + len(found.unchecked)
    if not total:
        return ()
    if not found.checked:
        return (
            Finding(
                rule="reading fits the others",
                place="tunnel readings",
                grade="look",
                says="Nothing checks the tunnel's readings against each other.",
                lock="wood is cut",
                missing=("a girth from floor to floor, or more sections",),
                source=SOURCE,
            ),
        )
    return (
        Finding(
            rule="reading fits the others",
            place="tunnel readings",
            grade="good",
            says=f"{len(found.checked)} of {total} tunnel readings are checked by others, and fit.",
            lock="wood is cut",
            source=SOURCE,
        ),
    )


def _finding(cabin: Cabin, one: Suspect) -> Finding:
    """Return one reading that does not fit."""
    unit = cabin.build.unit
    return Finding(
        rule="reading fits the others",
        place=one.key.removeprefix("car.").replace(".", " > "),
        grade="change",
        says=one.says,
        lock="wood is cut",
        figure=abs(one.w),
        limit=one.critical,
        margin=one.critical - abs(one.w),
        measure="count",
        remedies=_remedies(one),
        source=SOURCE,
        why=(
            (
                "Neighbouring readings of the same section, of the other side and of the next sections,"
                " and any girth, are adjusted together by least squares; this one stands out."
            ),
            (
                f"It reads {shown_with_unit(one.reads_mm, unit)}; the others make it"
                f" {shown_with_unit(one.likely_mm, unit)}. Read it again before you believe either."
            ),
        ),
    )


def _remedies(one: Suspect) -> tuple[Remedy, ...]:
    """Return the swap undone or the reading as the others have it; reading again comes first."""
    again = Remedy("Read it again at the car.")
    back = "Swap left and right back." if one.kind == "swapped" else ""
    return (
        again,
        *(
            Remedy(
                back or f"Take it as {edits[0][1]}.",
                tuple(Edit(_path(key), text) for key, text in edits),
            )
            for edits in one.rewrites
        ),
    )


def _path(key: str) -> tuple[str | int, ...]:
    """Return a dotted key as a path."""
    return tuple(int(part) if part.isdigit() else part for part in key.split("."))
