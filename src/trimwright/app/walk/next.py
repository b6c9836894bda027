"""What the walk asks for after the first readings: what does not fit, then what decides most."""

from trimwright.app.walk.known import Known, wide_section
from trimwright.app.walk.message import WalkStep
from trimwright.app.walk.more import carpet_steps, hand_read, section_steps
from trimwright.app.walk.step import again_step, more_step
from trimwright.app.walk.tape_picture import Figures
from trimwright.build import measured
from trimwright.cabin import Cabin, cabin
from trimwright.car import Tunnel, adjusted, worth_a_section
from trimwright.fit import Again
from trimwright.quantities import shown_with_unit

SHOULDER, CURVE = "assumed:shoulder car.tunnel.", "model:carpet curve"
SECTION = "a section more"
RUNS = ("assumed:tunnel taper", "assumed:tunnel level", "between sections:")


def next_steps(now: Known, figures: Figures) -> list[WalkStep]:
    """Return what follows the first readings.

    Sections that were read point by point on the walk keep their steps. Then come readings that do
    not fit the others; then what decides most, in its order; last the points of a section that is
    known by its widths alone, and a section more.
    """
    one = cabin(now.build)
    steps = [*_by_hand(now, figures), *_suspects(now, figures)]
    offered = set[str]()
    for again in one.again:
        group = settled_by(again.factor.key)
        if group not in offered:
            offered.add(group)
            steps += _group(now, one, group, again, figures)
    wide = wide_section(now.build.car.tunnel)
    rest = () if now.build.console is None else (f"{SHOULDER}{wide}", SECTION)
    for group in rest:
        if group not in offered:
            steps += _group(now, one, group, None, figures)
    return steps


def settled_by(key: str) -> str:
    """Return what settles a doubt: the readings that go by this name, or that one again."""
    return SECTION if key.startswith(RUNS) else key


def _group(
    now: Known, one: Cabin, group: str, again: Again | None, figures: Figures
) -> list[WalkStep]:
    """Return the readings of a group, told what they decide, if anything."""
    gives = "" if again is None else f"It decides: {again.gap}."
    if group == SECTION:
        return _new_section(now, one, gives, figures)
    if group == CURVE:
        return [more_step(now, more, gives, figures) for more in carpet_steps(now)]
    if group.startswith(SHOULDER):
        return _points(now, group.removeprefix(SHOULDER), gives, figures)
    return [] if again is None else _deciding(now, again, figures)


def _points(now: Known, number: str, gives: str, figures: Figures) -> list[WalkStep]:
    """Return the points of a section that is known by its widths alone."""
    sections = now.build.car.tunnel
    if not number.isdigit() or int(number) >= len(sections) or sections[int(number)].touched:
        return []
    return [more_step(now, one, gives, figures) for one in section_steps(now, int(number))]


def _by_hand(now: Known, figures: Figures) -> list[WalkStep]:
    """Return the readings of the sections that are in the file, read by hand point by point."""
    return [
        more_step(now, one, "", figures)
        for number, section in enumerate(now.build.car.tunnel)
        if section.touched and hand_read(section)
        for one in section_steps(now, number)
    ]


def _suspects(now: Known, figures: Figures) -> list[WalkStep]:
    """Return the readings that do not fit the others, to be taken once more."""
    told = {one.key: ("", one.says) for one in adjusted(now.build).suspects}
    return _read_again(now, told, figures)


def _deciding(now: Known, one: Again, figures: Figures) -> list[WalkStep]:
    """Return a reading that decides, to be taken once more."""
    within = shown_with_unit(one.factor.again, now.build.unit, "up", step="fine")
    told = {one.factor.key: (f", to within {within}", f"It decides: {one.gap}.")}
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
