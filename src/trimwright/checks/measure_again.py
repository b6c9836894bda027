"""Rule 'measure again': the reading that decides, and what it would be worth."""

from trimwright.cabin import Cabin
from trimwright.car import Tunnel
from trimwright.findings import Finding
from trimwright.fit import Again
from trimwright.quantities import shown_sure, shown_with_unit


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return up to three readings worth taking again, the most worth first."""
    return tuple(_finding(cabin, one) for one in cabin.again)


def _says(cabin: Cabin, one: Again) -> str:
    """Return what to measure: a reading again, or a section more with its place."""
    unit, tunnel = cabin.build.unit, cabin.tunnel
    if one.factor.kind == "between sections" and isinstance(tunnel, Tunnel):
        stations = tunnel.loft.stations
        gap = int(one.factor.key.rpartition(":")[2])
        middle = 0.5 * float(stations[gap] + stations[gap + 1])
        place = f"{shown_with_unit(abs(middle), unit)} {'ahead' if middle < 0 else 'behind'}"
        return f"Take one section more at {place}: it decides {one.gap}."
    within = shown_with_unit(one.factor.again, unit, "up", step="fine")
    return f"Measure again, to within {within}: it decides {one.gap}."


def _finding(cabin: Cabin, one: Again) -> Finding:
    """Return one reading."""
    worth, unit = one.worth, cabin.build.unit
    return Finding(
        rule="measure again",
        place=one.factor.says,
        grade="look",
        says=_says(cabin, one),
        lock="wood is cut",
        source="shares of the spread by regression on the draws",
        why=(
            (
                f"{shown_sure(min(one.share, 1.0))} of the spread of that gap comes from it;"
                f" about {one.factor.minutes:.0f} minutes."
            ),
            (
                f"If it confirms today's figure, that gap is {shown_sure(worth.confirmed)} sure"
                f" (today {shown_sure(worth.today)})."
            ),
            (
                f"The cut to expect for that gap falls from"
                f" {shown_with_unit(worth.cut_before, unit, 'up', step='fine')} to"
                f" {shown_with_unit(worth.cut_after, unit, 'up', step='fine')};"
                f" {shown_sure(worth.no_cut)} chance that none is needed."
            ),
            "The certainty to expect after the reading is today's: it may go either way.",
        ),
    )
