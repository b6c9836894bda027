"""What the walk asks for after the first readings: what does not fit, then what decides most."""

from trimwright.app.tape_picture import Figures
from trimwright.app.walk_known import Known, wide_section
from trimwright.app.walk_message import WalkStep
from trimwright.app.walk_more import carpet_steps, hand_read, section_steps
from trimwright.app.walk_step import again_step, more_step
from trimwright.build import measured
from trimwright.cabin import Cabin, cabin
from trimwright.car import Tunnel, adjusted, worth_a_section
from trimwright.fit import Again
from trimwright.quantities import shown_with_unit

SHOULDER, CURVE = "assumed:shoulder car.tunnel.", "model:carpet curve"
RUNS = ("assumed:tunnel taper", "assumed:tunnel level", "between sections:")


def next_steps(now: Known, figures: Figures) -> list[WalkStep]:
    """Return the readings that do not fit the others, those that decide most, and sections by hand.

    A section that was read on the walk keeps its steps. Where nothing decides on one, a section
    more comes last.
    """
    one = cabin(now.build)
    decided = {_settles(again): f"It decides: {again.gap}." for again in reversed(one.again)}
    steps = _written(now, decided, figures)
    steps += _suspects(now, figures)
    steps += _deciding(now, one.again, figures)
    if CURVE in decided:
        steps += [more_step(now, more, decided[CURVE], figures) for more in carpet_steps(now)]
    return [*steps, *_new_section(now, one, decided.get("section", ""), figures)]


def _settles(again: Again) -> str:
    """Return what settles the doubt that a gap rests on: a section's points, a section more."""
    key = again.factor.key
    return "section" if key.startswith(RUNS) else key


def _written(now: Known, decided: dict[str, str], figures: Figures) -> list[WalkStep]:
    """Return the readings of the sections that are in the file, read by hand."""
    wide = wide_section(now.build.car.tunnel)
    found: list[WalkStep] = []
    for number, section in enumerate(now.build.car.tunnel):
        gives = decided.get(f"{SHOULDER}{number}", "")
        if hand_read(section) and (number != wide or gives or section.touched):
            found += [more_step(now, one, gives, figures) for one in section_steps(now, number)]
    return found


def _suspects(now: Known, figures: Figures) -> list[WalkStep]:
    """Return the readings that do not fit the others, to be taken once more."""
    told = {one.key: ("", one.says) for one in adjusted(now.build).suspects}
    return _read_again(now, told, figures)


def _deciding(now: Known, again: tuple[Again, ...], figures: Figures) -> list[WalkStep]:
    """Return the readings that decide most, to be taken once more."""
    told = {}
    for one in again:
        within = shown_with_unit(one.factor.again, now.build.unit, "up", step="fine")
        told[one.factor.key] = (f", to within {within}", f"It decides: {one.gap}.")
    return _read_again(now, told, figures)


def _read_again(now: Known, told: dict[str, tuple[str, str]], figures: Figures) -> list[WalkStep]:
    """Return readings to take once more, by key, told how well and why."""
    by_key = {one.key: one for one in measured(now.build)}
    steps = (again_step(now, by_key[key], told[key], figures) for key in told if key in by_key)
    return [one for one in steps if one is not None]


def _new_section(now: Known, one: Cabin, gives: str, figures: Figures) -> list[WalkStep]:
    """Return the readings of a section more, at the place where it tells most."""
    console, tunnel = now.build.console, one.tunnel
    if console is None or not isinstance(tunnel, Tunnel):
        return []
    places = worth_a_section(tunnel, (console.start.value, console.end.value))
    return [
        more_step(now, more, gives, figures, place.at_mm)
        for place in places[:1]
        for more in section_steps(now, None, place.at_mm)
    ]
