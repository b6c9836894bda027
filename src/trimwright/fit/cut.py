"""What may still be cut before covering: each cut, the field it changes, how far it may go."""

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from trimwright.build import (
    CARD,
    Build,
    Console,
    Opening,
    can_be_cut,
    cut_now,
    cut_then,
    probe_place,
)
from trimwright.findings import Edit
from trimwright.quantities import Quantity, Unit, length

LOWEST_WALL_MM = 60.0  # what must stay of a wall's height to hold it; common practice, no source
WIDEST_SHOW_MM = 25.0  # a wider gap than this is seen as a mistake; common practice, no source
RIM_MM = 18.0  # wood left beside an opening; common practice, no source
LEFT = "what can still be made of sheet"
INCH_STEP = Fraction(1, 32)
MM_STEP = Fraction(1, 2)


class Cut(Struct, frozen=True):
    """One way of taking wood off.

    Attributes
    ----------
    name : str
        What is done, as a heading: 'lower the nose'.
    verb : str
        The remedy's sentence with a hole for the amount: 'Cut {} off the nose.'
    field : tuple
        Python names and places from the build down to the quantity it changes.
    path : tuple
        The same as keys of the file.
    per_mm : float
        Change of that quantity for each mm cut.
    now_mm, most_mm : float
        The quantity today, and the most that may be cut [mm].
    wood_mm : float
        Length of edge that is cut [mm]: the wood removed for each mm.
    bound : str
        What the most is set by.
    """

    name: str
    verb: str
    field: tuple[str | int, ...]
    path: tuple[str | int, ...]
    per_mm: float
    now_mm: float
    most_mm: float
    wood_mm: float
    bound: str

    def applied(self, build: Build, amount_mm: float) -> Build:
        """Return the build with this much cut."""
        after: Build = replaced(build, self.field, Quantity(self.now_mm + self.per_mm * amount_mm))
        return after

    def edits(self, amount_mm: float, unit: Unit) -> tuple[Edit, ...]:
        """Return the edits of the file that cut this much."""
        return (Edit(self.path, written(self.now_mm + self.per_mm * amount_mm, unit)),)


def replaced(entry: Any, field: tuple[str | int, ...], value: Quantity) -> Any:  # noqa: ANN401  any entry
    """Return a frozen entry or tuple with one quantity deep inside replaced."""
    if not field:
        return value
    head, rest = field[0], field[1:]
    if isinstance(head, int):
        return (*entry[:head], replaced(entry[head], rest, value), *entry[head + 1 :])
    return entry.model_copy(update={head: replaced(getattr(entry, head), rest, value)})


def step_mm(unit: Unit) -> float:
    """Return the step to which cuts are given: 0.5 mm or 1/32 in.

    Examples
    --------
    >>> step_mm("mm")
    0.5
    """
    return 0.5 if unit == "mm" else float(INCH_STEP) * 25.4


def stepped(amount_mm: float, unit: Unit) -> float:
    """Return a cut rounded up to the next step, so that it still clears [mm].

    Examples
    --------
    >>> stepped(7.2, "mm")
    7.5
    """
    step = step_mm(unit)
    return float(-(-(amount_mm - 1e-6) // step) * step)


def stepped_down(amount_mm: float, unit: Unit) -> float:
    """Return an amount rounded down to what a saw is set to [mm].

    Examples
    --------
    >>> stepped_down(7.2, "mm")
    7.0
    """
    step = step_mm(unit)
    return float((amount_mm + 1e-6) // step * step)


def written(value_mm: float, unit: Unit) -> str:
    """Return a length as it is written into the file, with its unit, to 1/64 in or 0.01 mm.

    Examples
    --------
    >>> written(7.5, "mm"), written(9.525, "in")
    ('7.5 mm', '3/8 in')
    """
    if unit == "mm":
        return f"{value_mm:.2f}".rstrip("0").rstrip(".") + " mm"
    sixty_fourths = round(value_mm / 25.4 * 64)
    whole, rest = divmod(Fraction(sixty_fourths, 64), 1)
    text = f"{whole} {rest}" if whole and rest else str(rest if rest else whole)
    return f"{text} in"


def cuts(build: Build, buildable: Callable[[Build], bool]) -> tuple[Cut, ...]:
    """Return every cut the design allows, in a fixed order, each as far as it can be made.

    Parameters
    ----------
    build : Build
        With a console.
    buildable : callable
        Whether a build's carcass can be made of sheet.

    Raises
    ------
    ValueError
        If the build has no console.
    """
    console = build.console
    if console is None:
        raise ValueError("build must have a console")
    if "covering" in build.locks:
        return ()  # of what is covered nothing is cut
    listed = (*_outline_cuts(console), *_opening_cuts(console))
    found = (_bounded(cut, build, buildable) for cut in listed if cut.most_mm > 0)
    return tuple(cut for cut in found if cut.most_mm > 0)


def _bounded(cut: Cut, build: Build, buildable: Callable[[Build], bool]) -> Cut:
    """Return a cut with its most lowered to a step of the saw that still leaves a console."""
    step = step_mm(build.unit)
    most = stepped_down(cut.most_mm, build.unit)
    if buildable(cut.applied(build, most)):
        return replace(cut, most_mm=most)
    low, high = 0, round(most / step)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (
            (middle, high) if buildable(cut.applied(build, middle * step)) else (low, middle)
        )
    return replace(cut, most_mm=low * step, bound=LEFT)


def _outline_cuts(console: Console) -> tuple[Cut, ...]:
    """Return the cuts of the carcass's own outline."""
    trims, ends = console.trims, (console.start.value, console.end.value)
    long = ends[1] - ends[0]
    first = console.deck[1].at.value - console.deck[0].at.value if len(console.deck) > 1 else long
    deepest = console.scribe.deeper_by.value
    lowest = min(point.height.value for point in console.deck)
    nose = trims.nose_lower_by.value
    return (
        Cut(
            "lower the nose",
            "Cut {} off the top of the nose",
            ("console", "trims", "nose_lower_by"),
            ("console", "trims", "nose lower by"),
            1.0,
            nose,
            min(40.0, console.deck[0].height.value - LOWEST_WALL_MM) - nose,
            first,
            "the height a wall needs",
        ),
        Cut(
            "scribe deeper",
            "Scribe both walls {} deeper",
            ("console", "scribe", "deeper_by"),
            ("console", "scribe", "deeper by"),
            1.0,
            deepest,
            min(WIDEST_SHOW_MM, lowest - LOWEST_WALL_MM) - deepest,
            2 * long,
            "the height a wall needs",
        ),
        Cut(
            "shorten the front",
            "Cut {} off the front end",
            ("console", "trims", "front_shorter_by"),
            ("console", "trims", "front shorter by"),
            1.0,
            trims.front_shorter_by.value,
            WIDEST_SHOW_MM - trims.front_shorter_by.value,
            2 * console.deck[0].height.value + 2 * console.widths[0].left.value,
            "how much of the front may show",
        ),
        *(
            Cut(
                f"set the {side} wall in",
                f"Set the {side} wall {{}} further in",
                ("console", "trims", f"{side}_in_by"),
                ("console", "trims", f"{side} wall in by"),
                1.0,
                getattr(trims, f"{side}_in_by").value,
                WIDEST_SHOW_MM - getattr(trims, f"{side}_in_by").value,
                long,
                "how narrow the deck may become",
            )
            for side in ("left", "right")
        ),
    )


def _opening_cuts(console: Console) -> tuple[Cut, ...]:
    """Return the two ways of opening up each opening."""
    width = min(w.left.value + w.right.value for w in console.widths)
    long = console.end.value - console.start.value
    found: list[Cut] = []
    for place, opening in enumerate(console.openings):
        found += [
            _opening_cut(opening, place, "wide", width),
            _opening_cut(opening, place, "long", long),
        ]
    return tuple(found)


def _opening_cut(opening: Opening, place: int, way: str, room: float) -> Cut:
    """Return one way of opening up: half the amount on either side."""
    now = getattr(opening, way).value
    return Cut(
        f"open up the {opening.name} opening, {way}",
        f"Cut {{}} off each {'side' if way == 'wide' else 'end'} of the {opening.name} opening",
        ("console", "openings", place, way),
        ("console", "openings", place, way),
        2.0,
        now,
        min(WIDEST_SHOW_MM, (room - 2 * RIM_MM - now) / 2),
        2 * (opening.long if way == "wide" else opening.wide).value,
        "the wood that must stay beside it",
    )


def read_back(text: str, unit: Unit) -> float:
    """Return what a written length reads as [mm]: what the file will say, to the last digit."""
    return length(text, unit).value


def cut_edits(build: Build, made: tuple[tuple[Cut, float], ...]) -> tuple[Edit, ...]:
    """Return the edits of the file that make cuts [mm], its test-fit readings left true.

    Every reading taken before keeps how much was cut of the same until now, unless it says so
    already; a card is held to the tunnel, of which nothing is cut.
    """
    kept = tuple(e for number in range(len(build.test_fit)) for e in _kept(build, number, made))
    return (*kept, *(e for cut, amount in made for e in cut.edits(amount, build.unit)))


def _kept(build: Build, number: int, made: tuple[tuple[Cut, float], ...]) -> tuple[Edit, ...]:
    """Return the edits by which one reading keeps what was cut until now."""
    probe, console = build.test_fit[number], build.console
    place = probe_place(probe.probe, build.unit)
    if console is None or (place is not None and place.what == CARD):
        return ()
    told = {then.key for then in cut_then(probe.cut_then)} if probe.cut_then else set()
    keys = {field: key for key, field in can_be_cut(console).items()}
    cut = (keys[cut.field[1:]] for cut, _ in made)
    return tuple(
        Edit(("test fit", number, "cut then", key), now.text or written(now.value, build.unit))
        for key, now in ((key, cut_now(console, key)) for key in cut)
        if key not in told
    )
