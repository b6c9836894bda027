"""One reading of the walk as a step: its words, what is written of it, what it tells, its drawing."""

from trimwright.app.walk.figures import of_section
from trimwright.app.walk.known import TUNNEL, Known, key_of, taken_apart
from trimwright.app.walk.message import OverMessage, WalkStep
from trimwright.app.walk.more import NEW, More, needs_of, section_steps
from trimwright.app.walk.need import Path, needs
from trimwright.app.walk.tape_picture import Figures
from trimwright.app.walk.words import Stop, stop_at
from trimwright.build import First, Reading, called, figures_of, first_readings
from trimwright.quantities import Unit, along

SIDES = {"place along": ("ahead", "behind"), "place across": ("left", "right")}
NO_FIGURE = ("angle", "weight", "torque")


def heading(now: Known, path: Path) -> str:
    """Return what a reading is called on the walk."""
    stop = words_at(now, path)
    return stop.heading if stop else ", ".join(str(one) for one in path[1:])


def words_at(now: Known, path: Path) -> Stop | More | None:
    """Return what the walk says at a path, None where it has no words for it."""
    stop = stop_at(path)
    if stop is not None or path[:2] != TUNNEL or len(path) <= 3:  # noqa: PLR2004  below one section
        return stop
    number = None if path[2] == NEW else int(path[2])
    return next((one for one in section_steps(now, number) if one.path == path), None)


def first_step(now: Known, one: First, figures: Figures) -> WalkStep:
    """Return one of the first readings as a step."""
    stop = stop_at(one.path)
    if stop is None:
        raise ValueError(f"one must be a reading the walk has words for, got {one.path}")
    along_car = one.path[-1] in ("at", "from", "to")
    sides = SIDES["place along"] if along_car else ()
    text = now.said.get(one.path, "")
    figure, side, tail = taken_apart(text, sides)
    if not side and sides:
        side = "ahead" if "ahead" in one.example(now.build.unit) else "behind"
    return WalkStep(
        asked="first",
        path=one.path,
        heading=stop.heading,
        says=_place_said(now, one.path) + stop.says,
        words=bool(stop.choices),
        choices=stop.choices,
        written=text,
        figure=text if stop.choices else figure,
        side=side,
        sides=sides,
        tail=tail,
        measured=one.path[0] == "car" and not stop.choices,
        needs=one.needs,
        gives=_gives(now, one),
        over=_over(now, one.path),
        at_mm=_at(now, one.path, figures),
        picture=stop.draw(figures).picture(stop.heading),
        called=called(now.document.root, one.path),
    )


def more_step(
    now: Known, one: More, gives: str, figures: Figures, near_mm: float | None = None
) -> WalkStep:
    """Return one reading beyond the first as a step.

    `gives` says what it decides, if anything; `near_mm` where it is best taken, if that is open.
    """
    text = now.said.get(one.path, "")
    figure, side, tail = taken_apart(text, one.sides)
    if not side and one.sides:
        side = "ahead" if "ahead" in one.example else "behind"
    number = one.path[2] if one.path[:2] == TUNNEL else None
    drawn = of_section(figures, now, number if isinstance(number, int) else None)
    return WalkStep(
        asked="more",
        path=one.path,
        heading=one.heading,
        says=_place_said(now, one.path) + one.says,
        words=False,
        choices=(),
        written=text,
        figure=figure,
        side=side,
        sides=one.sides,
        tail=tail or one.tail,
        measured=True,
        needs=one.needs,
        gives=one.gives if text or one.checks else gives or one.gives,
        over=_over(now, one.path),
        at_mm=_at(now, one.path, figures) if near_mm is None else near_mm,
        picture=one.draw(drawn).picture(one.heading),
        called=called(now.document.root, one.path),
    )


def again_step(
    now: Known, reading: Reading, told: tuple[str, str], figures: Figures
) -> WalkStep | None:
    """Return one reading to take once more, told how well and why; None if the file has none."""
    path = now.path(reading.key)
    if path is None:
        return None
    sides = SIDES.get(reading.sort, ())
    _, side, tail = taken_apart(now.said[path], sides)
    stop = words_at(now, path)
    name = stop.heading if stop else reading.says
    within = told[0] if reading.sort not in NO_FIGURE else ""
    says = f"Read it once more{within}. It says {now.said[path]} now. "
    return WalkStep(
        asked="again",
        path=path,
        heading=f"Again: {name[:1].lower()}{name[1:]}",
        says=_place_said(now, path) + says + (stop.says if isinstance(stop, Stop) else ""),
        words=False,
        choices=(),
        written=now.said[path],
        figure="",
        side=side,
        sides=sides,
        tail=tail,
        measured=reading.sort not in NO_FIGURE,
        needs=(),
        gives=told[1].partition(", or else ")[0].rstrip(".") + ".",
        over=_over(now, path),
        at_mm=_at(now, path, figures),
        picture=stop.draw(figures).picture(stop.heading) if stop else None,
        called=called(now.document.root, path),
    )


def _place_said(now: Known, path: Path) -> str:
    """Return where along the car a reading is, as the start of what is said."""
    if "dash above tunnel" in path and not str(path[-1]).endswith("datum"):
        number, _, way_said = str(path[-1]).rpartition(" ")
        return f"{number} {way_said} of the datum. "
    if path[:2] == TUNNEL and path[-1] != "at":
        at = now.said.get((*path[:3], "at"))
        of = " of" if at and "ahead" in at else ""
        return f"{at}{of} the datum. " if at and "datum" not in at else ""
    return ""


def _gives(now: Known, one: First) -> str:
    """Return what a first reading lets us check."""
    unit = now.build.unit
    need = needs(unit).get(_at_first(unit, one.path))
    if need is None:
        return ""
    if one.path in now.said:
        return f"It bears on: {_listed(need.rests)}." if need.rests else ""
    if need.every:
        return "No gap can be checked without it."
    left = now.left() - {one.path}
    alone = [
        gap
        for gap in need.lost
        if not any(gap in found.lost for path, found in needs(unit).items() if path in left)
    ]
    if alone:
        return f"With this one can be checked: {_listed(tuple(alone))}."
    if need.lost:
        return f"Needed for: {_listed(need.lost)}."
    return f"It makes surer: {_listed(need.rests)}." if need.rests else ""


def _at_first(unit: Unit, path: Path) -> Path:
    """Return the first reading that one at a place of the file's own stands for."""
    if path[:2] == TUNNEL:
        return (*path[:2], 0, *path[3:])
    own = [one.path for one in first_readings(unit)]
    return path if path in own else next((one for one in own if one[:2] == path[:2]), path)


def _listed(names: tuple[str, ...]) -> str:
    """Return names as a list, cut short."""
    return "; ".join(names[:3]) + (f"; and {len(names) - 3} more" if len(names) > 3 else "")  # noqa: PLR2004  a line's worth


def _over(now: Known, path: Path) -> OverMessage | None:
    """Return what a reading may have been taken over, where that changes what it means."""
    car = now.build.car
    base = path[:3] if path[:2] == TUNNEL else path[:2]
    if base[1] not in ("tunnel", "dash above tunnel") or path[-1] == "at":
        return None
    choices = ["bare metal", *(layer.name for layer in car.layers)]
    if car.carpet is not None and car.carpet.loose is not None:
        choices.append("carpet")
    if len(choices) == 1:
        return None
    over = (*base, "over")
    said = now.said.get(over, "bare metal")
    alone = all(one in now.said for one in needs_of(now, over)) and now.holds(base)
    return OverMessage(path=over, alone=alone, choices=tuple(choices), now=said)


def _at(now: Known, path: Path, drawn: Figures) -> float | None:
    """Return where along the car a reading is taken [mm], None where that does not matter."""
    if "dash above tunnel" in path:
        return along(str(path[-1]), now.build.unit).value
    if path[:2] == TUNNEL:
        at = figures_of(now.build).get(key_of((*path[:3], "at")))
        return round(drawn.station if at is None else at.value, 1)
    if path[:2] == ("car", "lever knob"):
        return drawn.rear[0] if "furthest rear" in path else drawn.neutral[0]
    ends = {"from": drawn.ends[0], "to": drawn.ends[1]}
    return ends.get(str(path[-1])) if path[0] == "console" else None
