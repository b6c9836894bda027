"""What the entries of a build have to agree on."""

from collections.abc import Callable, Iterator, Sequence
from itertools import count, pairwise

from trimwright.build.console import AsBuilt, Bulkhead, Console, DeckPoint, Fixing, Opening, Width
from trimwright.build.document import Document
from trimwright.build.entry import Entry, keys_of, list_of, said
from trimwright.build.fault import Fault
from trimwright.build.known import MOST_GUESSES
from trimwright.build.node import Path
from trimwright.build.note import useless_notes
from trimwright.build.occupant import BODY_SHAPES, Body, Box, Outline
from trimwright.build.section_form import wrong_forms
from trimwright.build.size import wrong_sizes
from trimwright.build.stranger import Say, strangers
from trimwright.build.trial import useless_trials
from trimwright.build.tunnel import Bite, Layer, Mark, Section
from trimwright.build.walk import entries
from trimwright.build.whole import Build
from trimwright.build.wiring_names import wiring_faults
from trimwright.quantities import Quantity

_Placed = Section | DeckPoint | Width | Bulkhead


def disagreements(build: Build, where: Document) -> list[Fault]:
    """Return the faults between entries that are each right on their own.

    Parameters
    ----------
    build : Build
        A build as the schema took it, short forms not yet brought to the long form.
    where : Document
        Its text, for the lines.

    Returns
    -------
    list of Fault
        None of them means that the build fits together, only that it can be read.
    """
    guesses = count()

    def say(  # noqa: PLR0913  what a fault says, and what it was found by
        entry: Entry,
        name: str,
        found: str,
        expected: str,
        example: str | Callable[[], str] = "",
        *,
        item: int | None = None,
        on: tuple[str, ...] = (),
        among: tuple[str, ...] = (),
    ) -> Fault:
        key = entry.key if entry.WHOLE else said(entry, name).key
        if item is not None:  # of a list of words, which are counted as they are left
            key, on = f"{key}.{item}", (*on, key)
        if callable(example):
            example = example() if next(guesses) < MOST_GUESSES else ""
        return Fault(
            where.line(key), _path(key), found, expected, example, hangs_on=on, among=among
        )

    faults = [*_two_forms(build, say), *_ends(build, say)]
    faults += [*_order(build, say), *_bodies(build, say), *_marks(build, say)]
    faults += _one_name_each(build, say)
    if build.console:
        faults += [*_on_deck(build.console, say), *_whole(build.console, say)]
    faults += [*useless_trials(build, say), *wrong_forms(build, say), *_gears(build, say)]
    faults += [*useless_notes(build, say), *wiring_faults(build, say)]
    return [*faults, *wrong_sizes(build, say), *strangers(build, say)]


def _path(key: str) -> Path:
    """Return a dotted key as a path."""
    return tuple(int(step) if step.isdigit() else step for step in key.split("."))


def _words(figure: Quantity) -> str:
    return f'"{figure.text}"'


def _two_forms(build: Build, say: Say) -> Iterator[Fault]:
    """Refuse a thing said in its short form and in its long form, or in neither."""
    car, console = build.car, build.console
    pairs: list[tuple[Entry, str, str]] = [
        (car, "between_seats", "seats"),
        (car, "lever_knob", "lever"),
    ]
    if console:
        pairs += [(console, "deck_height", "deck"), (console, "width", "widths")]
        for short, long in (("deck_height", "deck"), ("width", "widths")):
            if not getattr(console, short) and not getattr(console, long):
                on = keys_of(console, short, long)
                keys = [key.rpartition(".")[2] for key in on]
                found = f"neither {keys[0]} nor {keys[1]}"
                yield say(console, short, found, "one of the two", on=on)
    for entry, short, long in pairs:
        if getattr(entry, short) and getattr(entry, long):
            on = keys_of(entry, short, long)
            keys = [key.rpartition(".")[2] for key in on]
            yield say(entry, long, f"both {keys[0]} and {keys[1]}", "one of the two", on=on)


def _ends(build: Build, say: Say) -> Iterator[Fault]:
    """Refuse a front end behind its rear end, a left face right of its right face."""
    for entry in entries(build):
        start, end = entry.__dict__.get("start"), entry.__dict__.get("end")
        if (
            isinstance(start, Quantity)
            and isinstance(end, Quantity)
            and not start.value < end.value
        ):
            yield say(entry, "end", _words(end), f"a place behind {_words(start)}")
        if isinstance(entry, Box):
            if not entry.left.value < entry.right.value:
                yield say(entry, "right", _words(entry.right), "a place right of the left face")
            if not entry.bottom.value < entry.top.value:
                yield say(entry, "top", _words(entry.top), "a height above the bottom")


def _order(build: Build, say: Say) -> Iterator[Fault]:
    """Refuse lists along the car that do not run from front to rear."""
    lists: list[tuple[Sequence[_Placed], str]] = [(build.car.tunnel, "section")]
    console = build.console
    if console:
        lists += [(console.deck, "deck point"), (console.widths, "width")]
        lists += [(console.bulkheads, "bulkhead")]
        for profile in (console.deck, console.widths):
            if len(profile) == 1:
                expected = "two at least, front and rear"
                yield say(profile[0], "at", "one place", expected, on=list_of(profile[0]))
    for items, name in lists:
        for before, after in pairwise(items):
            if not before.at.value < after.at.value:
                expected = f"a {name} behind the one at {_words(before.at)}"
                yield say(after, "at", _words(after.at), expected)


def _one_name_each(build: Build, say: Say) -> Iterator[Fault]:
    """Refuse two things of one kind with one name: findings and papers tell them by it."""
    lists: list[Sequence[Bulkhead | Opening | Body | Layer]] = [build.car.bodies, build.car.layers]
    if build.console:
        lists += [build.console.bulkheads, build.console.openings]
    for items in lists:
        taken: set[str] = set()
        for one in items:
            if one.name in taken:
                yield say(one, "name", f'"{one.name}" a second time', "a name of its own")
            taken.add(one.name)


def _on_deck(console: Console, say: Say) -> Iterator[Fault]:
    """Refuse openings, bulkheads and bolts that lie off the console."""
    front, rear = console.start.value, console.end.value
    for opening in console.openings:
        half = opening.long.value / 2
        if opening.at.value - half < front or opening.at.value + half > rear:
            yield say(opening, "at", _words(opening.at), "an opening wholly between from and to")
        if 2 * opening.corner.value > min(opening.long.value, opening.wide.value):
            yield say(opening, "corner", _words(opening.corner), "at most half the opening's width")
    placed: tuple[Bulkhead | Fixing | AsBuilt, ...] = (
        *console.bulkheads,
        *console.held_by,
        *console.as_built,
    )
    for one in placed:
        if one.at is not None and not front <= one.at.value <= rear:
            yield say(one, "at", _words(one.at), "a place between from and to")


def _whole(console: Console, say: Say) -> Iterator[Fault]:
    """Refuse profiles that stop short of the console's ends, and names given twice."""
    profiles: tuple[tuple[DeckPoint | Width, ...], ...] = (console.deck, console.widths)
    for profile in profiles:
        if profile and profile[0].at.value > console.start.value:
            expected, on = "the front end or ahead of it", list_of(profile[0])
            yield say(profile[0], "at", _words(profile[0].at), expected, on=on)
        if profile and profile[-1].at.value < console.end.value:
            expected, on = "the rear end or behind it", list_of(profile[-1])
            yield say(profile[-1], "at", _words(profile[-1].at), expected, on=on)
    names: set[str] = set()
    named: tuple[Bulkhead | Opening, ...] = (*console.bulkheads, *console.openings)
    for part in named:
        if part.name in names:
            yield say(part, "name", f'"{part.name}" a second time', "a name of its own")
        names.add(part.name)


def _gears(build: Build, say: Say) -> Iterator[Fault]:
    """Refuse a place of the shaft in a gear that no knob was read in."""
    stick = build.car.lever
    gears = [one.gear for one in stick.moves] if stick else []
    for place in stick.shaft_passes if stick else ():
        if place.gear not in gears:
            on = ("car.lever.moves",)
            yield say(place, "gear", f'"{place.gear}"', " | ".join(gears), "neutral", on=on)


def _bodies(build: Build, say: Say) -> Iterator[Fault]:
    """Refuse a body of no shape or two, and shapes of too few points."""
    for body in build.car.bodies:
        shapes = [name for name in BODY_SHAPES if getattr(body, name)]
        if len(shapes) != 1:
            found = f"both {' and '.join(shapes)}" if shapes else "no shape"
            on = keys_of(body, *BODY_SHAPES)
            yield say(body, "name", found, "one of box, cylinder, outline", on=on)
    for entry in entries(build):
        if isinstance(entry, Outline) and len(entry.points) < 3:  # noqa: PLR2004  a triangle
            yield say(entry, "points", f"{len(entry.points)} corners", "three corners at least")
        if isinstance(entry, Bite) and len(entry.points) < 2:  # noqa: PLR2004  a line
            yield say(entry, "points", f"{len(entry.points)} points", "two points at least")


def _marks(build: Build, say: Say) -> Iterator[Fault]:
    """Refuse corners and diagonals that name a reading nobody wrote."""
    sections = build.car.tunnel
    for section in sections:
        for corner in section.corners:
            if not _has(section, corner.down.value, corner.side):
                name = f'"down {corner.down.text} {corner.side}"'
                yield say(corner, "side", name, "a reading of this section", on=(section.key,))
    for diagonal in build.car.diagonals:
        for name, end in (("start", diagonal.start), ("end", diagonal.end)):
            if not any(_marked(section, end) for section in sections):
                found = f'"down {end.down.text} {end.side} at {end.at.text}"'
                expected = "a reading of a section that is written down"
                yield say(diagonal, name, found, expected, on=("car.tunnel",))


def _marked(section: Section, end: Mark) -> bool:
    """Return whether a section holds the reading that a diagonal names."""
    return section.at.value == end.at.value and _has(section, end.down.value, end.side)


def _has(section: Section, down_mm: float, side: str) -> bool:
    """Return whether a section holds a reading at that depth on that side."""
    rows = any(row.down.value == down_mm and getattr(row, side) for row in section.rows)
    sign = -1 if side == "left" else 1
    points = any(
        point.down.value == down_mm and point.off_middle.value * sign > 0
        for point in section.points
    )
    return rows or points
