"""Rule 'measure again': the reading that decides, and what it would be worth."""

from trimwright.cabin import Cabin
from trimwright.car import Tunnel, worth_a_section
from trimwright.chance import Factor
from trimwright.findings import Finding
from trimwright.fit import Again
from trimwright.quantities import shown_sure, shown_with_unit


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return up to three readings worth taking again, the most worth first."""
    return tuple(_finding(cabin, one) for one in cabin.again)


def _says(cabin: Cabin, one: Again) -> str:
    """Return what to measure: a reading again, a section more with its place, or the carpet."""
    place = _new_section(cabin, one.factor)
    if place is not None:
        return f"Take one section more, {place}: it decides {one.gap}."
    if one.factor.key == "model:carpet curve":
        return f"Read the carpet under a 12 mm lath with 1, 5 and 20 kg: it decides {one.gap}."
    within = shown_with_unit(one.factor.again, cabin.build.unit, "up", step="fine")
    return f"Measure again, to within {within}: it decides {one.gap}."


def _new_section(cabin: Cabin, factor: Factor) -> str | None:
    """Return where a section more would settle this doubt, None for any other doubt."""
    tunnel, console = cabin.tunnel, cabin.build.console
    if not isinstance(tunnel, Tunnel) or console is None:
        return None
    if factor.kind == "between sections":
        stations = tunnel.loft.stations
        gap = int(factor.key.rpartition(":")[2])
        at = 0.5 * float(stations[gap] + stations[gap + 1])
    elif factor.key in ("assumed:tunnel taper", "assumed:tunnel level"):
        at = worth_a_section(tunnel, (console.start.value, console.end.value))[0].at_mm
    else:
        return None
    return f"{shown_with_unit(abs(at), cabin.build.unit)} {'ahead' if at < 0 else 'behind'}"


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
