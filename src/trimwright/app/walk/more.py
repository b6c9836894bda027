"""Readings beyond the first: points and girth of a section, a section more, carpet under weights."""

from collections.abc import Callable

from msgspec import Struct

from trimwright.app.walk import measuring_picture as picture
from trimwright.app.walk import section_picture
from trimwright.app.walk.known import TUNNEL, Known, wide_section
from trimwright.app.walk.need import Path
from trimwright.app.walk.tape_picture import Figures, Picture
from trimwright.build import Section, first_readings
from trimwright.findings import Edit
from trimwright.quantities import Unit, shown

NEW = "new"  # stands for a list's item that is not in the file yet
DEPTHS = (1 / 6, 1 / 2, 5 / 6)  # of the tunnel's height, where a section is read
DEPTH_STEP = {"mm": 10.0, "in": 12.7}  # mm: depths are set on a rule in round figures
WEIGHTS = (1, 5, 20)  # kg on the lath: from a light touch to an edge that carries the console
LATH = {"mm": "12 x 200", "in": "1/2 x 8"}
PRESSED: Path = ("car", "carpet", "pressed")
GIRTH = "girth floor to floor"
HEIGHT = "height above floor"


class More(Struct, frozen=True):
    """One reading beyond the first.

    `needs` are the paths without which the file cannot hold it, `also` what is written with it;
    `tail` stands after its figure; `gives` is what it tells where it decides no gap; `checks`
    that it is there to check others.
    """

    path: Path
    heading: str
    says: str
    draw: Callable[[Figures], Picture]
    example: str
    gives: str
    needs: tuple[Path, ...] = ()
    sides: tuple[str, ...] = ()
    tail: str = ""
    also: tuple[Edit, ...] = ()
    checks: bool = False


def section_base(number: int | None) -> Path:
    """Return the path of a section; of one that is not in the file yet where no number is given."""
    return (*TUNNEL, NEW if number is None else number)


def needs_of(now: Known, path: Path) -> tuple[Path, ...]:
    """Return the paths without which the file cannot hold a reading, whether it is asked for or not."""
    for one in now.first:
        if one.path == path:
            return one.needs
    if path[:2] == TUNNEL and len(path) > 3:  # noqa: PLR2004  below one section
        number = None if path[2] == NEW else int(path[2])
        if path[3] == "over":
            return (*path[:3], "at"), *(() if number is not None else _core(now, None))
        return next((one.needs for one in section_steps(now, number) if one.path == path), ())
    return ()


def example_of(now: Known, path: Path) -> str:
    """Return an example of a reading, as it is written."""
    for one in now.first:
        if one.path == path:
            return one.example(now.build.unit)
    number = None if path[2] == NEW else int(path[2])
    return next(one.example for one in section_steps(now, number) if one.path == path)


def section_steps(now: Known, number: int | None, near_mm: float | None = None) -> tuple[More, ...]:
    """Return the readings of one section, top to floor, as they are taken by hand.

    Parameters
    ----------
    now : Known
    number : int or None
        Which section; None for one that is not in the file yet.
    near_mm : float, optional
        Where along the car a new one tells most [mm].
    """
    base, unit = section_base(number), now.build.unit
    core = _core(now, number)
    steps = [] if _is_first(now, number) else [_place(base, unit, near_mm, core)]
    steps += [] if _is_first(now, number) else [_top(now, base, core)]
    high, example = _height(now, number), "90" if unit == "mm" else "3 1/2"
    for text, down in _depths(now, number).items():
        for side in ("left", "right"):
            steps.append(_row((*base, f"down {text}", side), core, down / high, example))
    girth = More(
        (*base, GIRTH),
        "Over the tunnel, from floor to floor",
        "Tape laid close over the tunnel, square across the car.",
        section_picture.girth,
        "560" if unit == "mm" else "22",
        "A second way to this section: with it a slip in its other readings can show.",
        core,
        checks=True,
    )
    return (*steps, girth)


def _section(now: Known, number: int | None) -> Section | None:
    """Return a section, None where the file has none of that number yet."""
    sections = now.build.car.tunnel
    return None if number is None or number >= len(sections) else sections[number]


def _core(now: Known, number: int | None) -> tuple[Path, ...]:
    """Return the readings that a section is written with together; none where it has points."""
    section = _section(now, number)
    if section is not None and section.touched:
        return ()
    base, depths = section_base(number), [*_depths(now, number)]
    rows = [(*base, f"down {d}", s) for d in (depths[0], depths[-1]) for s in ("left", "right")]
    if _is_first(now, number):
        return (*((*base, one) for one in ("at", HEIGHT)), *rows)
    return ((*base, "at"), (*base, _top_key(now, number)), *rows)


def _is_first(now: Known, number: int | None) -> bool:
    """Return whether a section is the one of the first readings."""
    return number is not None and number == wide_section(now.build.car.tunnel)


def _depths(now: Known, number: int | None) -> dict[str, float]:
    """Return the depths at which a section is read, as written [mm]: its own, and the usual."""
    unit = now.build.unit
    section = _section(now, number)
    written = () if section is None else section.rows
    step = DEPTH_STEP[unit]
    high = _height(now, number)
    usual = [max(1.0, round(share * high / step)) * step for share in DEPTHS]
    own = [row.down.value for row in written]
    free = [one for one in usual if all(abs(one - other) >= step for other in own)]
    texts = {row.down.value: row.key.rpartition("down ")[2] for row in written}
    texts |= {one: _plain(one, unit) for one in free[: max(0, len(DEPTHS) - len(own))]}
    return {texts[one]: one for one in sorted(texts)}


def _height(now: Known, number: int | None) -> float:
    """Return how high the tunnel stands at a section, or at one that is read [mm]."""
    sections = now.build.car.tunnel
    own = _section(now, number)
    for one in (own, *sections):
        if one is not None and one.height_above_floor is not None:
            return one.height_above_floor.value
    example = next(one for one in first_readings("mm") if one.path[-1] == HEIGHT)
    return float(example.mm)


def _top_key(now: Known, number: int | None) -> str:
    """Return under which key the top of a section is, or is to be, written."""
    section = _section(now, number)
    if section is not None and (section.top or section.height_above_floor):
        return "top" if section.top else HEIGHT
    datum = now.build.car.datum
    return "top" if datum is not None and datum.string is not None else HEIGHT


def _place(base: Path, unit: Unit, near_mm: float | None, core: tuple[Path, ...]) -> More:
    told = "" if near_mm is None else f"Best about {place_words(near_mm, unit)}. "
    at = near_mm or 0.0
    return More(
        (*base, "at"),
        "From the datum to one section more",
        f"{told}Mark it on the middle, and tape along it. Write where you did take it.",
        lambda f: picture.along(f, at if near_mm is not None else f.station, "read at the mark"),
        place_words(near_mm or 0.0, unit),
        "It tells how the tunnel runs along the car.",
        tuple(one for one in core if one[-1] != "at"),
        ("ahead", "behind"),
    )


def _top(now: Known, base: Path, core: tuple[Path, ...]) -> More:
    number = None if base[2] == NEW else int(base[2])
    key, example = _top_key(now, number), "180" if now.build.unit == "mm" else "7"
    if key == "top":
        section = _section(now, number)
        floor = section is not None and section.top_from == "floor"
        tail = " above floor" if floor else " below string"
        heading = "From the string down to the tunnel's top"
        says = "String level from front to rear at its height over the datum. Tape upright."
        draw = picture.height if floor else section_picture.below_string
        example += tail
    else:
        tail, heading = "", "From the floor up to the tunnel's top"
        says, draw = (
            "Lath level on the tunnel, tape upright on the floor. Carpet out.",
            picture.height,
        )
    needs = tuple(one for one in core if one[-1] != key)
    gives = "It tells how level the tunnel runs."
    return More((*base, key), heading, says, draw, example, gives, needs, tail=tail)


def _row(path: Path, core: tuple[Path, ...], share: float, example: str) -> More:
    text, side = str(path[-2]).removeprefix("down "), str(path[-1])
    return More(
        path,
        f"{side.capitalize()} of the middle, {text} down",
        f"Lath level on the tunnel's top, a square against the {side} side with its foot {text}"
        " below. Read along the lath.",
        lambda f: section_picture.half_width(f, share, side),
        example,
        "It tells the tunnel's shape here, where widths alone leave the shoulder to a guess.",
        tuple(one for one in core if one != path),
    )


def carpet_steps(now: Known) -> tuple[More, ...]:
    """Return the readings of the carpet under a lath with weights on it that are not taken."""
    carpet = now.build.car.carpet
    taken = {round(one.weight.value) for one in carpet.pressed} if carpet is not None else set()
    return tuple(_pressed(now.build.unit, kg) for kg in WEIGHTS if kg not in taken)


def _pressed(unit: Unit, kg: int) -> More:
    base: Path = (*PRESSED, f"{NEW} {kg} kg")
    return More(
        (*base, "thick"),
        f"The carpet under a lath with {kg} kg on it",
        f"A lath {LATH[unit]} {unit} flat on the carpet, {kg} kg on it in all. Rule from the bare"
        " metal to the lath.",
        lambda f: section_picture.pressed(f, f"{kg} kg"),
        "9" if unit == "mm" else "3/8",
        "It tells how the carpet gives under an edge.",
        also=(Edit((*base, "weight"), f"{kg} kg"), Edit((*base, "lath"), LATH[unit])),
    )


def place_words(at_mm: float, unit: Unit) -> str:
    """Return a place along the car as it is written.

    Examples
    --------
    >>> place_words(-70.0, "mm"), place_words(685.8, "in")
    ('70 ahead', '27 behind')
    """
    return f"{_plain(abs(at_mm), unit)} {'ahead' if at_mm < 0 else 'behind'}"


def _plain(mm: float, unit: Unit) -> str:
    """Return a length as it is typed in a file, with plain spaces."""
    return shown(mm, unit).replace("\N{THIN SPACE}", " ")


def hand_read(section: Section) -> bool:
    """Return whether a section's points were read by tape and square, a few of them."""
    return section.by is None and 0 < len(section.rows) <= len(DEPTHS)
