"""Figures that cannot be nothing, and figures that cannot be more than another."""

from collections.abc import Iterator

from trimwright.build.console import DeckPoint, Opening, Sheet, Width
from trimwright.build.cut_then import OpeningThen
from trimwright.build.entry import Entry, keys_of
from trimwright.build.fault import Fault
from trimwright.build.occupant import Cylinder, Handbrake, Lever, LeverKnob
from trimwright.build.stranger import Say
from trimwright.build.tunnel import Carpet, Layer, NailPoint, Nails, Pressing, Section
from trimwright.build.walk import entries
from trimwright.build.wanted import Hours
from trimwright.build.whole import Build
from trimwright.build.wiring_hinge import Hinge

ABOVE_NOTHING: dict[type[Entry], tuple[str, ...]] = {
    Layer: ("thick",),
    Carpet: ("loose", "by_hand"),
    Pressing: ("weight", "lath_width", "lath_length", "thick"),
    Section: ("girth", "width_at_shoulder", "width_at_floor", "height_above_floor"),
    Nails: ("apart",),
    NailPoint: ("left", "right"),
    Lever: ("knob", "shaft"),
    LeverKnob: ("across", "shaft"),
    Handbrake: ("long", "thick"),
    Cylinder: ("thick",),
    Sheet: ("thickness",),
    DeckPoint: ("height",),
    Width: ("left", "right"),
    Opening: ("long", "wide"),
    OpeningThen: ("was",),
    Hinge: ("body", "door", "closed", "opens", "free"),
    Hours: ("wood_is_cut", "glue_up", "covering", "refit", "test_fit"),
}
LEAST_SURE, MOST_SURE = 0.5, 0.999  # below a toss it is no wish; nothing measured is ever certain


def wrong_sizes(build: Build, say: Say) -> Iterator[Fault]:
    """Yield a fault for every figure that is nothing, or too much, where it cannot be.

    `say` makes a fault of an entry, its field, what was found, what was expected, an example.
    """
    for entry in entries(build):
        for name in ABOVE_NOTHING.get(type(entry), ()):
            figure = getattr(entry, name)
            if figure is not None and not figure.value > 0:
                yield say(entry, name, f'"{figure.text}"', "more than nothing")
    sure = build.wanted.certainty
    if not LEAST_SURE <= sure.value <= MOST_SURE:
        expected = "from 50 % to 99.9 %: what is measured is never certain"
        yield say(build.wanted, "certainty", f'"{sure.text}"', expected, "95 %")
    carpet = build.car.carpet
    if carpet and carpet.loose:
        squeezed = [(carpet, "by_hand"), *((one, "thick") for one in carpet.pressed)]
        for holder, name in squeezed:
            figure = getattr(holder, name)
            if figure is not None and figure.value > carpet.loose.value:
                expected = f'at most the loose carpet, "{carpet.loose.text}"'
                yield say(holder, name, f'"{figure.text}"', expected, on=keys_of(carpet, "loose"))
