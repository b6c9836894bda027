"""Rule 'rests': the console stands on all of its edges and does not tip, sink through or lift."""

from trimwright.cabin import Cabin
from trimwright.findings import Finding

MOST = 0.05  # share of draws in which it may tip or lift; common practice, no source
SOURCE = "common practice, no source"


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return what the rule says about tipping, lift-off and full squeeze."""
    found = cabin.outcome
    if found is None or found.joint is None:
        return ()
    cases = (
        (
            "tips",
            found.tips,
            "It tips: weight and bolts act outside its footing.",
            "It does not tip.",
        ),
        (
            "edges lift",
            found.lifts,
            "An edge lifts off the carpet; it will rock there.",
            "Its edges stay on the carpet.",
        ),
        (
            "carpet flat",
            found.full,
            "The carpet is squeezed flat somewhere; the console stands hard there.",
            "The carpet keeps some give.",
        ),
    )
    return tuple(_finding(cabin, *case) for case in cases)


def _finding(cabin: Cabin, name: str, share: float, bad: str, good: str) -> Finding:
    """Return one case."""
    kept = share <= MOST
    return Finding(
        rule="rests",
        place=name,
        grade="good" if kept else ("stop" if name == "tips" else "change"),
        says=good if kept else bad,
        lock="glue-up",
        figure=share,
        limit=MOST,
        margin=MOST - share,
        measure="share",
        source=SOURCE,
        why=_why(cabin),
    )


def _why(cabin: Cabin) -> tuple[str, ...]:
    """Return the resting pose in words, and what the bolts' places do."""
    facts, unit = cabin.pose, cabin.build.unit
    lines = [
        (
            "Height, pitch and roll are where weight and bolts are carried by the carpet's pressure"
            " along the real lower edges; sideways it is held by friction and the bolts."
        ),
    ]
    if facts is not None:
        lines.append(
            "A bolt's place moves the nose more than its force; a rear one raises it:"
            f" {facts.says(unit)}"
        )
    return tuple(lines)
