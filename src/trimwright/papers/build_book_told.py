"""What the build book says: every figure and word of a build, laid out for the typesetter."""

from typing import Any

from trimwright.build import Probe, Reading, Version, assumed, readings
from trimwright.cabin import Cabin
from trimwright.checks import amount, cuts_told
from trimwright.drawing import printed
from trimwright.findings import LOCKS, Finding, counts, lock_heading
from trimwright.papers.wording import place_along
from trimwright.quantities import Unit, shown, shown_mass, shown_sure, shown_with_unit

Told = dict[str, Any]
LENGTHS = ("length", "place along", "place across", "height")
MINUS = "\u2212"
AGAIN = "measure again"  # the rule whose findings say what to measure next


def told(cabin: Cabin, findings: tuple[Finding, ...], versions: tuple[Version, ...]) -> Told:
    """Return the book's words by part; letters that the fonts lack are replaced."""
    open_ones = [one for one in findings if one.grade != "good"]
    numbers = {id(one): number for number, one in enumerate(open_ones, start=1)}
    book = {
        "title": _title(cabin, findings, versions),
        "facts": _facts(cabin),
        "locks": [
            {
                "lock": lock_heading(lock, cabin.build.locks),
                "findings": [
                    _finding(cabin, one, numbers[id(one)]) for one in open_ones if one.lock == lock
                ],
            }
            for lock in LOCKS
            if any(one.lock == lock for one in open_ones)
        ],
        "good": [_finding(cabin, one, 0) for one in findings if one.grade == "good"],
        "cut": _cut(cabin),
        "next": [_finding(cabin, one, numbers[id(one)]) for one in open_ones if one.rule == AGAIN],
        "fit": [_probe(one) for one in cabin.build.test_fit],
        "places": _places(cabin),
        "readings": [_reading(one, cabin.build.unit) for one in readings(cabin.build)],
        "assumed": [[one.says, one.text] for one in assumed(cabin.build)],
        "history": [[str(one.number), one.says, one.stamp] for one in versions],
    }
    return {name: _printable(part) for name, part in book.items()}


def _printable(part: Any) -> Any:  # noqa: ANN401  any JSON
    """Return words as the fonts can print them, however deep they stand."""
    if isinstance(part, str):
        return printed(part, "count")
    if isinstance(part, dict):
        return {name: _printable(one) for name, one in part.items()}
    return [_printable(one) for one in part] if isinstance(part, list | tuple) else part


def _title(cabin: Cabin, findings: tuple[Finding, ...], versions: tuple[Version, ...]) -> Told:
    """Return what the first page says."""
    build, found = cabin.build, cabin.outcome
    together = "Not every figure is there yet to say how sure it is that all of it fits."
    if found is not None and found.joint is not None:
        together = (
            f"As written, it is {shown_sure(found.joint.value)} sure that every gap that could be"
            f" checked clears at once; wanted {shown_sure(found.wanted)}."
        )
    count = ", ".join(f"{n} {grade}" for grade, n in counts(findings).items())
    stamps = [one.stamp for one in versions if one.stamp]
    return {
        "name": build.name,
        "together": together,
        "count": count,
        "unit": "millimetres" if build.unit == "mm" else "inches",
        "stamp": stamps[-1] if stamps else "",
    }


def _facts(cabin: Cabin) -> list[list[str]]:
    """Return what the build is in a few rows."""
    build, carcass = cabin.build, cabin.carcass
    unit, console, wanted = build.unit, build.console, build.wanted
    rows = [["driver", f"sits on the {build.driver}" if build.driver else "side not written"]]
    if build.car.datum:
        rows.append(["datum", build.car.datum.marks])
    rows.append(["sections of the tunnel", str(len(build.car.tunnel))])
    if console is not None:
        ends = (place_along(one.value, unit) for one in (console.start, console.end))
        rows.append(["console", " to ".join(ends)])
        thick = shown_with_unit(console.sheet.thickness.value, unit, step="fine")
        rows.append(["sheet", f"{console.sheet.material}, {thick}"])
    if carcass is not None and carcass.panels:
        mass = shown_mass(carcass.mass_kg, unit)
        rows.append(["bare carcass", f"{len(carcass.panels)} panels, {mass}"])
    gaps = {
        "nose to dash": wanted.nose_to_dash,
        "walls to seats": wanted.walls_to_seats,
        "lever to opening": wanted.lever_to_opening,
        "handbrake": wanted.handbrake,
        "other bodies": wanted.other_bodies,
        "daylight at most": wanted.daylight,
    }
    said = "; ".join(f"{name} {shown_with_unit(one.value, unit)}" for name, one in gaps.items())
    return [*rows, ["wanted", said]]


def _finding(cabin: Cabin, one: Finding, number: int) -> Told:
    """Return one finding with its why."""
    unit = cabin.build.unit
    figure = [] if one.figure is None else [amount(one, one.figure, unit)]
    if one.limit is not None:
        figure.append(f"limit {amount(one, one.limit, unit)}")
    if one.sure is not None:
        figure.append(f"{shown_sure(one.sure)} sure")
    if one.low is not None and one.high is not None:
        low, high = (amount(one, value, unit) for value in (one.low, one.high))
        figure.append(f"9 in 10 from {low} to {high}")
    return {
        "number": number,
        "grade": one.grade,
        "place": one.place,
        "zone": one.zone,
        "says": one.says,
        "figure": "; ".join(figure),
        "remedies": [remedy.says for remedy in one.remedies],
        "missing": "; ".join(one.missing),
        "why": list(one.why),
        "source": one.source,
    }


def _cut(cabin: Cabin) -> list[str]:
    """Return the least cut before covering in sentences."""
    found, plan = cabin.outcome, cabin.plan
    if found is None or found.joint is None:
        return ["Not evaluated: no gap could be checked."]
    if plan is None:
        return ["None is needed: all gaps together are as sure as wanted."]
    if not plan.cuts:
        return [plan.short or "No cut that was tried would help."]
    cuts = cuts_told(plan, cabin.build.unit)
    says = [
        f"{cuts[:1].upper()}{cuts[1:]}.",
        (
            f"That takes all gaps together from {shown_sure(plan.before.value)} sure to"
            f" {shown_sure(plan.reached.value)}; wanted {shown_sure(plan.wanted)}."
        ),
    ]
    return [*says, *([plan.short] if plan.short else [])]


def _probe(one: Probe) -> list[str]:
    """Return one reading of a test fit."""
    if one.said is None:
        return [one.probe, f"touches {one.touches}" if one.touches else ""]
    sense = "at least " if one.at_least else "at most " if one.at_most else ""
    return [one.probe, f"{sense}{one.said.text}"]


def _places(cabin: Cabin) -> list[list[str]]:
    """Return the free places worth probing: where, what to expect on bare wood, what it settles."""
    unit = cabin.build.unit
    return [
        [one.words, f"{shown(one.low, unit)} to {shown_with_unit(one.high, unit)}", one.settles]
        for one in cabin.probes
    ]


def _reading(one: Reading, unit: Unit) -> list[str]:
    """Return one reading: its name, as written, its way, its doubt, what it was taken over."""
    doubt = one.quantity.doubt
    if doubt is None:
        within = "none"
    elif one.sort not in LENGTHS:
        within = "as written"
    elif doubt.minus == doubt.plus:
        within = f"± {shown_with_unit(doubt.plus, unit, step='fine')}"
    else:
        less, more = (shown(end, unit, step="fine") for end in (doubt.minus, doubt.plus))
        within = f"{MINUS} {less}, + {more} {unit}"
    text = f"{one.quantity.text} (assumed)" if one.assumed else one.quantity.text or ""
    return [one.says, text, one.way, within, one.over]
