"""The measuring walk: which reading comes next, what is written of it, and what it lets us check."""

import re
from dataclasses import dataclass

from trimwright.app.measuring_picture import Figures
from trimwright.app.walk_message import OverMessage, ReadBy, WalkMessage, WalkStep
from trimwright.app.walk_need import Path, needs
from trimwright.app.walk_words import stop_at
from trimwright.build import (
    Build,
    Document,
    First,
    Loaded,
    Reading,
    beginning,
    called,
    figures_of,
    filled_in,
    first_readings,
    measured,
    parse,
    written,
)
from trimwright.cabin import cabin
from trimwright.car import adjusted
from trimwright.quantities import Unit, along, shown_with_unit
from trimwright.stock import way

# a longer form of the same thing: where it is written, the short one is not asked for
LONG_FORMS: dict[Path, tuple[Path, ...]] = {
    ("car", "between seats"): (("car", "seats"),),
    ("car", "lever knob"): (("car", "lever"),),
    ("console", "deck height"): (("console", "deck"),),
    ("console", "width"): (("console", "widths"),),
    ("car", "dash above tunnel"): (("car", "dash"),),
    ("car", "carpet", "squeezed by hand"): (("car", "carpet", "pressed"),),
}
TOUCHED = (
    "points",
    "bites",
    "nails",
    "top",
    "by",
    "down ",
)  # keys of a section read point by point
SIDES = {"place along": ("ahead", "behind"), "place across": ("left", "right")}
_SIDED = re.compile(r"(?P<before>.*?)\s*\b(?P<side>ahead|behind|left|right)\b(?P<after>.*)")
_TAILED = re.compile(r"(?P<figure>.*?)(?P<tail>\s+(?:at\b.*|deg\w*|up|down)|\s*°)?")


@dataclass(frozen=True, slots=True)
class Known:
    """A build, what its file says by path, and its first readings."""

    build: Build
    said: dict[Path, str]
    first: tuple[First, ...]
    document: Document

    def left(self) -> set[Path]:
        """Return the first readings that are not written."""
        return {one.path for one in self.first} - set(self.said)


def known(loaded: Loaded) -> Known:
    """Return what is known of a build on the walk."""
    said = written(loaded.text)
    return Known(loaded.build, said, _first(said, loaded.build.unit), loaded.document)


def walk(loaded: Loaded, version: str) -> WalkMessage:
    """Return the walk of a build: the first quarter of an hour, then what decides most.

    Parameters
    ----------
    loaded : Loaded
        The build with its text.
    version : str
        Names that text.
    """
    now = known(loaded)
    figures = drawn_figures(now)
    steps = [_first_step(now, one, figures) for one in now.first]
    steps += _again_steps(now, figures)
    return WalkMessage(
        version=version,
        unit=now.build.unit,
        read_by=_read_by(),
        stations=_stations(now),
        steps=tuple(steps),
    )


def heading(path: Path) -> str:
    """Return what a reading is called on the walk."""
    stop = stop_at(path)
    return stop.heading if stop else ", ".join(str(one) for one in path[1:])


def _first(said: dict[Path, str], unit: Unit) -> tuple[First, ...]:
    """Return the first readings that this file asks for: none that a longer form replaces."""
    long = {short for short, forms in LONG_FORMS.items() if any(_holds(said, f) for f in forms)}
    touched = any(
        path[:3] == ("car", "tunnel", 0) and str(path[3]).startswith(TOUCHED)
        for path in said
        if len(path) > 3  # noqa: PLR2004  below one section
    )
    found: list[First] = []
    for one in first_readings(unit):
        section = one.path[:2] == ("car", "tunnel")
        if any(one.path[: len(short)] == short for short in long) or (section and touched):
            continue
        found += _as_written(said, one)
    return tuple(found)


def _as_written(said: dict[Path, str], one: First) -> list[First]:
    """Return a reading, or those that the file has in its stead at places of its own."""
    name = str(one.path[-1])
    if one.path[1] != "dash above tunnel" or not name.endswith("ahead"):
        return [one]
    own = [p for p in said if p[:2] == one.path[:2] and str(p[-1]).endswith(("ahead", "behind"))]
    return [First(path, one.mm, one.inch) for path in own] or [one]


def _holds(said: dict[Path, str], path: Path) -> bool:
    """Return whether a file says anything at a path or below it."""
    return any(one[: len(path)] == path for one in said)


def _key(path: Path) -> str:
    """Return a path as a dotted key."""
    return ".".join(str(step) for step in path)


def _first_step(now: Known, one: First, figures: Figures) -> WalkStep:
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
        at_mm=_at(now, one.path),
        picture=stop.draw(figures).picture(stop.heading),
        called=called(now.document.root, one.path),
    )


def taken_apart(text: str, sides: tuple[str, ...]) -> tuple[str, str, str]:
    """Return the figure of a text with its doubt, its side, and what stands after it.

    Examples
    --------
    >>> taken_apart("12 behind ± 1/8", ("ahead", "behind")), taken_apart("131 ± 3 at 40 up", ())
    (('12 ± 1/8', 'behind', ''), ('131 ± 3', '', ' at 40 up'))
    """
    if sides:
        found = _SIDED.fullmatch(text)
        if found is None:
            return ("0" if text else "", "", "")
        return f"{found['before']}{found['after']}".strip(), found["side"], ""
    parts = _TAILED.fullmatch(text)
    return (text, "", "") if parts is None else (parts["figure"], "", parts["tail"] or "")


def _place_said(now: Known, path: Path) -> str:
    """Return where along the car a reading is, as the start of what is said."""
    if "dash above tunnel" in path and not str(path[-1]).endswith("datum"):
        number, _, way_said = str(path[-1]).rpartition(" ")
        return f"{number} {now.build.unit if number[-1].isdigit() else ''} {way_said} of the datum. ".replace(
            "  ", " "
        )
    if path[:2] == ("car", "tunnel") and path[-1] != "at":
        at = now.said.get((*path[:3], "at"))
        return f"At {at} the datum. " if at and "datum" not in at else ""
    return ""


def _gives(now: Known, one: First) -> str:
    """Return what a first reading lets us check."""
    unit = now.build.unit
    need = needs(unit).get(one.path) or needs(unit).get(_at_first(unit, one.path))
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
    return next((one.path for one in first_readings(unit) if one.path[:2] == path[:2]), path)


def _listed(names: tuple[str, ...]) -> str:
    """Return names as a list, cut short."""
    return "; ".join(names[:3]) + (f"; and {len(names) - 3} more" if len(names) > 3 else "")  # noqa: PLR2004  a line's worth


def _over(now: Known, path: Path) -> OverMessage | None:
    """Return what a reading may have been taken over, where that changes what it means."""
    car = now.build.car
    base: Path = path[:3] if path[:2] == ("car", "tunnel") else path[:2]
    if (
        base[1] not in ("tunnel", "dash above tunnel")
        or path[-1] == "at"
        or not _holds(now.said, base)
    ):
        return None
    choices = ["bare metal", *(layer.name for layer in car.layers)]
    if car.carpet is not None and car.carpet.loose is not None:
        choices.append("carpet")
    said = now.said.get((*base, "over"), "bare metal")
    if len(choices) == 1:
        return None
    return OverMessage(path=(*base, "over"), choices=tuple(choices), now=said)


def _at(now: Known, path: Path) -> float | None:
    """Return where along the car a reading is taken [mm], None where that does not matter."""
    figures = figures_of(now.build)
    if "dash above tunnel" in path:
        return along(str(path[-1]), now.build.unit).value
    if path[:2] == ("car", "tunnel"):
        at = figures.get(_key((*path[:3], "at")))
        return None if at is None else round(at.value, 1)
    if path[-1] in ("from", "to", "behind datum"):
        found = figures.get(_key(path))
        return None if found is None else round(found.value, 1)
    return None


def _stations(now: Known) -> tuple[float, ...]:
    """Return the places along the car that have readings [mm], front to rear."""
    car = now.build.car
    places = [one.at.value for one in car.tunnel] + [r.along.value for r in car.dash_above_tunnel]
    return tuple(sorted({round(one, 1) for one in places}))


def _read_by() -> tuple[ReadBy, ...]:
    """Return the ways of reading that are offered, with the doubt of each, rounded up."""
    found = []
    for name in ("tape", "steel rule"):
        doubt = way(name).doubt_mm
        inch = shown_with_unit(doubt, "in", "up", step="fine").removesuffix(" in")
        found.append(ReadBy(name=name, mm=f"{doubt:g}", inch=inch, written=name != "tape"))
    return tuple(found)


def _again_steps(now: Known, figures: Figures) -> list[WalkStep]:
    """Return the readings that do not fit the others, and those that decide most, in this order."""
    by_key = {one.key: one for one in measured(now.build)}
    asked = {one.key: ("", one.says) for one in adjusted(now.build).suspects}
    if not now.left():
        for one in cabin(now.build).again:
            within = shown_with_unit(one.factor.again, now.build.unit, "up", step="fine")
            asked.setdefault(one.factor.key, (f", to within {within}", f"It decides: {one.gap}."))
    first = {_key(one.path) for one in now.first}
    return [
        _again_step(now, by_key[key], told, figures)
        for key, told in asked.items()
        if key in by_key and _path(key) in now.said and key not in first
    ]


def _again_step(now: Known, reading: Reading, told: tuple[str, str], figures: Figures) -> WalkStep:
    """Return one reading to take again, told how well and why."""
    path = _path(reading.key)
    sides = SIDES.get(reading.sort, ())
    figure, side, tail = taken_apart(now.said[path], sides)
    stop = stop_at(path)
    return WalkStep(
        path=path,
        heading=f"Again: {reading.says}",
        says=f"Read it once more{told[0]}. {stop.says if stop else ''}".strip(),
        words=False,
        choices=(),
        written=now.said[path],
        figure=figure,
        side=side,
        sides=sides,
        tail=tail,
        measured=reading.sort not in ("angle", "weight", "torque"),
        needs=(),
        gives=told[1],
        over=None,
        at_mm=_at(now, path),
        picture=stop.draw(figures).picture(stop.heading) if stop else None,
        called=called(now.document.root, path),
    )


def _path(key: str) -> Path:
    """Return a dotted key as a path."""
    return tuple(int(step) if step.isdigit() else step for step in key.split("."))


def drawn_figures(now: Known) -> Figures:
    """Return the figures that drawings are made with: those of the build, else of the example."""
    unit = now.build.unit
    example = figures_of(parse(filled_in(beginning("example", unit, "right"), unit)).build)
    own = figures_of(now.build)

    def mm(name: str) -> float:
        return (own.get(name) or example[name]).value

    heights = [r.height.value for r in now.build.car.dash_above_tunnel]
    heights = heights or [example["car.dash above tunnel.at datum"].value]
    car, knob, section = "car.carpet", "car.lever knob", "car.tunnel.0"
    return Figures(
        height=mm(f"{section}.height above floor"),
        shoulder=mm(f"{section}.width at shoulder"),
        floor=mm(f"{section}.width at floor"),
        seats=mm("car.between seats.at hip"),
        dash=(heights[0], heights[-1]),
        knob=mm(f"{knob}.across"),
        neutral=(mm(f"{knob}.neutral.behind datum"), mm(f"{knob}.neutral.above tunnel")),
        rear=(mm(f"{knob}.furthest rear.behind datum"), mm(f"{knob}.furthest rear.above tunnel")),
        aside=(mm(f"{knob}.furthest left"), mm(f"{knob}.furthest right")),
        carpet=(mm(f"{car}.loose"), mm(f"{car}.squeezed by hand")),
        deck=mm("console.deck height"),
        width=mm("console.width"),
        ends=(mm("console.from"), mm("console.to")),
        station=mm(f"{section}.at"),
    )
