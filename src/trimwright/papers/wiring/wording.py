"""Wires, ends, sizes, colours and ways in the words of the wiring's papers."""

from collections.abc import Sequence

from trimwright.quantities import Unit, shown, shown_with_unit
from trimwright.stock import colours
from trimwright.wiring import Crimp, End, MadeOf, Wire, WiringOutcome, passed

NO_LENGTH = "length not known"
NO_SIZE = "size not known"
NO_COLOUR = "any colour"
CHOSEN = "*"
CUT_WITHIN_MM = 10.0  # either way that a wire is cut to with a tape; common practice, no source
CHOSEN_MEANS = f"{CHOSEN}\u00a0chosen here, not written in the build"
IN_WORDS: dict[Crimp, str] = {
    "ring": "ring",
    "blade": "push-on blade",
    "contact": "plug contact",
    "joint": "in the joint",
    "as the load asks": "as the load asks",
}


def named(names: Sequence[str], most: int, *, between: str = ", ") -> str:
    """Return names after one another, as many as a row has room for, and how many are left.

    Examples
    --------
    >>> named(("fuse 1", "fuse 2", "fuse 3", "fuse 4"), 2)
    'fuse 1, fuse 2, and 2 more: see the wire list'
    """
    if len(names) <= most:
        return between.join(names)
    return between.join([*names[:most], f"and {len(names) - most} more: see the wire list"])


def size_words(own: MadeOf) -> str:
    """Return a size as it is printed, marked where it was chosen."""
    if not own.size:
        return NO_SIZE
    return own.bought.replace("mm2", "mm²") + (CHOSEN if own.chosen else "")


def short_end(end: End) -> str:
    """Return a device with its terminal.

    A terminal that only says what the device's name says already is left out.

    Examples
    --------
    >>> short_end(End("fog relay", "87", "fuse box")), short_end(End("dash stud", "stud", None))
    ('fog relay 87', 'dash stud')
    """
    return end.device if end.terminal in ("stud", "joint") else f"{end.device} {end.terminal}"


def place_words(end: End) -> str:
    """Return the place of an end."""
    return end.place or "place not written"


def colour_words(colour: str | None) -> str:
    """Return a colour code, or that none is written."""
    return colour or NO_COLOUR


def colour_key(found: WiringOutcome) -> str:
    """Return the colours in use with their names, each once, in the order of the standard.

    References
    ----------
    IEC 60757:1983
    """
    used = {code for one in found.loom.wires for code in _codes(one.colour)}
    told = [f"{code} {name}" for code, name in colours().items() if code in used]
    return ", ".join(told)


def _codes(colour: str | None) -> tuple[str, ...]:
    """Return the one or two codes of a colour."""
    return () if not colour else tuple(one for one in (colour[:2], colour[2:]) if one)


def cut_words(wire: Wire, unit: Unit) -> str:
    """Return the length to cut, rounded up, or what it waits for."""
    if wire.cut_mm is None:
        return f"{NO_LENGTH}: waits for {wire.missing}"
    return shown_with_unit(wire.cut_mm, unit, "up", doubt_mm=CUT_WITHIN_MM)


def total_words(total_mm: float, unit: Unit) -> str:
    """Return a sum of lengths: metres to a tenth, or feet and inches.

    Examples
    --------
    >>> total_words(12345.0, "mm"), total_words(1000.0, "in")
    ('12.4 m', '3 ft 4 in')
    """
    if unit == "mm":
        return f"{_tenth_up(total_mm / 1000.0)} m"
    feet, inches = divmod(_whole_up(total_mm / 25.4), 12)
    return f"{feet} ft {inches} in" if feet else f"{shown(total_mm, unit, 'up')} in"


def _tenth_up(value: float) -> str:
    """Return a figure to the next tenth up."""
    return f"{_whole_up(10 * value) / 10:.1f}"


def _whole_up(value: float) -> int:
    """Return the next whole number up, a millionth being noise."""
    return int(-(-(value - 1e-6) // 1))


def way_words(wire: Wire, found: WiringOutcome) -> str:
    """Return the places a wire passes between its ends."""
    if wire.route is None:
        return "way not known"
    if not wire.route.trunks:
        return "stays there"
    between = passed(wire, found.wiring)[1:-1]
    return f"by {', '.join(between)}" if between else "straight there"
