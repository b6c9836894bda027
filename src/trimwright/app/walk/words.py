"""What the walk says at each reading: its heading, how to hold the tape, and which drawing."""

from collections.abc import Callable
from functools import partial

from msgspec import Struct

from trimwright.app.walk import measuring_picture as picture
from trimwright.app.walk.tape_picture import Figures, Picture

Draw = Callable[[Figures], Picture]
DATUM_CHOICES = (
    "two scribed lines on the sills, string across",
    "masking tape on both sills, string across",
    "a centre pop on each sill, string across",
)


class Stop(Struct, frozen=True):
    """What is said at one reading, and its drawing; with choices, words are asked for."""

    heading: str
    says: str
    draw: Draw
    choices: tuple[str, ...] = ()


def _along(says: str, heading: str, end: int | None) -> Stop:
    def draw(f: Figures) -> Picture:
        at = f.station if end is None else f.ends[end]
        return picture.along(f, at, "read at the mark", console=end is not None)

    return Stop(heading, says, draw)


def _dash(*, ahead: bool) -> Draw:
    def draw(f: Figures) -> Picture:
        return picture.dash(f, ahead=ahead, at_mm=-60.0)

    return draw


def _knob(*, rear: bool, up: bool) -> Draw:
    return partial(picture.knob_place, rear=rear, up=up)


_LEVEL = "Tape upright, the lever as it stands by itself."
STOPS: dict[tuple[str, ...], Stop] = {
    ("datum", "marks"): Stop(
        "Mark the datum",
        "Two marks that stay visible after deadener and carpet, a string across. Everything ahead"
        " and behind is taped from it.",
        picture.datum,
        DATUM_CHOICES,
    ),
    ("datum", "top of tunnel here"): Stop(
        "What lies on the tunnel at the datum",
        "What the finger touches on top, under the string.",
        picture.top,
        ("bare metal", "deadener", "carpet"),
    ),
    ("carpet", "loose"): Stop(
        "How thick the carpet is, loose",
        "Rule stood through the pile on bare metal. Nothing presses on it.",
        partial(picture.carpet, squeezed=False),
    ),
    ("carpet", "squeezed by hand"): Stop(
        "How thick the carpet is, pressed",
        "Press a block beside the rule as hard as a hand can.",
        partial(picture.carpet, squeezed=True),
    ),
    ("dash above tunnel", "ahead"): Stop(
        "From the tunnel up to the dash",
        "Straight up from the bare tunnel, on the middle, to the lowest thing under the dash.",
        _dash(ahead=True),
    ),
    ("dash above tunnel", "datum"): Stop(
        "From the tunnel up to the dash, at the datum",
        "Straight up from the bare tunnel under the string.",
        _dash(ahead=False),
    ),
    ("tunnel", "at"): _along(
        "Pick a place between the seats, where the console will stand. Tape along the middle.",
        "From the datum back to the section",
        None,
    ),
    ("tunnel", "height above floor"): Stop(
        "From the floor up to the tunnel's top",
        "Lath level on the tunnel, tape upright on the floor. Carpet out.",
        picture.height,
    ),
    ("tunnel", "width at shoulder"): Stop(
        "Across the tunnel at its shoulders",
        "Squares against both sides where the top turns down.",
        picture.shoulder,
    ),
    ("tunnel", "width at floor"): Stop(
        "Across the tunnel at the floor",
        "Squares against both sides where they meet the floor.",
        picture.floor,
    ),
    ("between seats", "at hip"): Stop(
        "Between the seats, at the hip",
        "Seats where they are driven from. Tape level between the cushions.",
        picture.seats,
    ),
    ("lever knob", "across"): Stop(
        "How wide the knob is", "Two squares against it, tape between them.", picture.knob_wide
    ),
    ("lever knob", "neutral", "behind datum"): Stop(
        "Neutral: from the datum back to the knob",
        "Level from a plumb line under the string. " + _LEVEL,
        _knob(rear=False, up=False),
    ),
    ("lever knob", "neutral", "above tunnel"): Stop(
        "Neutral: from the tunnel up to the knob",
        "Height over the tunnel's top at the datum. " + _LEVEL,
        _knob(rear=False, up=True),
    ),
    ("lever knob", "furthest left"): Stop(
        "The knob furthest left",
        "Through all gears: the furthest left of the car's middle.",
        partial(picture.knob_aside, right=False),
    ),
    ("lever knob", "furthest right"): Stop(
        "The knob furthest right",
        "Through all gears: the furthest right of the car's middle.",
        partial(picture.knob_aside, right=True),
    ),
    ("lever knob", "furthest rear", "behind datum"): Stop(
        "Furthest back: from the datum to the knob",
        "The gear that brings the knob furthest back.",
        _knob(rear=True, up=False),
    ),
    ("lever knob", "furthest rear", "above tunnel"): Stop(
        "Furthest back: from the tunnel up to the knob",
        "In the same gear.",
        _knob(rear=True, up=True),
    ),
    ("console", "deck height"): Stop(
        "How high the console's deck is to be",
        "Your wish: bare deck over the tunnel's top at the datum.",
        partial(picture.console, wide=False),
    ),
    ("console", "width"): Stop(
        "How wide the console is to be",
        "Your wish: bare wood, outside to outside, at the deck.",
        partial(picture.console, wide=True),
    ),
    ("console", "from"): _along(
        "Your wish: where its front end is.", "From the datum to the console's front end", 0
    ),
    ("console", "to"): _along(
        "Your wish: where its rear end is.", "From the datum to the console's rear end", 1
    ),
}


def stop_at(path: tuple[str | int, ...]) -> Stop | None:
    """Return what the walk says at a path, None where it has no words for it."""
    steps = tuple(one for one in path if isinstance(one, str) and one != "car")
    if len(steps) > 1 and steps[0] == "dash above tunnel":
        steps = (steps[0], "datum" if "datum" in steps[1] else "ahead")
    return STOPS.get(steps)
