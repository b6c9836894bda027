"""Rule 'rests': the console stands on all of its edges and does not tip, sink through or lift."""

from trimwright.cabin import Cabin
from trimwright.findings import Finding
from trimwright.quantities import shown_sure

MOST = 0.05  # share of draws in which it may tip or lift; common practice, no source
SOURCE = "common practice, no source"


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return what the rule says about tipping, lift-off and full squeeze."""
    found = cabin.outcome
    if found is None or found.joint is None:
        return ()
    tipping = _finding(
        cabin,
        "tipping",
        found.tips,
        (
            "It tips: weight and bolts act outside its footing, or lever it out of its place.",
            "It does not tip.",
        ),
    )
    if found.tips > MOST:
        return (tipping, *(_waits(name) for name in ("edges on the carpet", "give of the carpet")))
    return (
        tipping,
        _finding(
            cabin,
            "edges on the carpet",
            found.lifts,
            ("An edge may lift off the carpet and rock there.", "Its edges stay on the carpet."),
        ),
        _squeezed(cabin, found.full),
    )


def _waits(name: str) -> Finding:
    """Return that a case was not checked: on what tips, no edge says anything."""
    return Finding(
        rule="rests",
        place=name,
        grade="look",
        says="Not checked: it tips.",
        lock="glue-up",
        missing=("a footing, and bolts, with which it does not tip",),
    )


def _squeezed(cabin: Cabin, share: float) -> Finding:
    """Return what is to be said of carpet squeezed flat: no fault, but hard and perhaps heard."""
    says = "The carpet keeps some give under every edge."
    if share > MOST:
        says = (
            f"Somewhere an edge stands on carpet squeezed flat ({shown_sure(share)} sure):"
            " hard there, and perhaps heard."
        )
    return Finding(
        rule="rests",
        place="give of the carpet",
        grade="good" if share <= MOST else "look",
        says=says,
        lock="glue-up",
        why=_why(cabin),
    )


def _finding(cabin: Cabin, name: str, share: float, says: tuple[str, str]) -> Finding:
    """Return one case."""
    kept = share <= MOST
    return Finding(
        rule="rests",
        place=name,
        grade="good" if kept else ("stop" if name == "tipping" else "change"),
        says=says[kept],
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
