"""How much room symbols and their words take."""

from msgspec import Struct

from trimwright.wiring.diagram.drawn import Symbol, Type, Words
from trimwright.wiring.diagram.part import Kind, Part

NAME_ROOM_MM = 19.0
NAME_STEP_MM, SAYS_STEP_MM = 3.6, 3.4
ASCENT_MM = 2.2  # of the first line of a name above its baseline

# height, what it reaches to the left and to the right of its line [mm]
BODY: dict[Kind, tuple[float, float, float]] = {
    "fuse": (10.0, 2.5, 2.5),
    "make": (10.0, 10.0, 1.5),
    "break": (10.0, 10.0, 4.0),
    "changeover": (17.0, 10.0, 4.5),
    "reversing": (21.0, 10.0, 4.5),
    "relay": (17.0, 7.0, 5.5),
    "lamp": (10.0, 5.0, 5.0),
    "LED": (10.0, 5.0, 6.5),
    "heater": (10.4, 3.0, 3.0),
    "motor": (15.0, 6.0, 6.0),
    "solenoid": (9.0, 6.5, 6.5),
    "electronics": (10.0, 7.0, 7.0),
    "plug": (5.4, 3.0, 2.5),
    "splice": (4.0, 2.0, 1.5),
    "feed": (10.0, 10.0, 1.5),
    "battery": (10.0, 5.0, 5.0),
    "alternator": (18.5, 7.0, 6.5),
    "unit": (14.0, 6.5, 2.5),
    "post": (4.0, 2.0, 2.0),
    "reference": (5.0, 2.5, 2.5),
}
FRAMED = ("relay", "reversing", "changeover", "alternator", "unit")
TERMINALS: tuple[Kind, ...] = ("relay", "changeover", "reversing", "alternator", "motor", "unit")
BESIDE_MM = 0.9  # from a line to the number of its terminal


class Extent(Struct, frozen=True):
    """The room a part takes: its height, left and right of each slot's line [mm]."""

    high: float
    left: tuple[float, ...]
    right: tuple[float, ...]


def name_lines(part: Part, kind: Type) -> tuple[str, ...]:
    """Return the lines of a part's name."""
    name = part.title or part.name
    if part.kind in ("plug", "reference"):
        head, _, last = name.rpartition(" ")
        name = f"{head}\u00a0{last}" if head else last  # a cavity's number stays with its plug
    return kind.wrapped(name, NAME_ROOM_MM, "word", "count-bold")


def said_lines(part: Part, kind: Type) -> tuple[str, ...]:
    """Return the lines below a part's name."""
    return tuple(line for one in part.says for line in kind.wrapped(one, NAME_ROOM_MM))


def extent(part: Part, kind: Type) -> Extent:
    """Return the room that a part takes."""
    high, left, right = BODY[part.kind]
    names, said = name_lines(part, kind), said_lines(part, kind)
    words_high = len(names) * NAME_STEP_MM + len(said) * SAYS_STEP_MM + 1.0
    wide = max(
        (
            *(kind.wide(one, "word", "count-bold") for one in names),
            *(kind.wide(one) for one in said),
        )
    )
    framed = 2.0 if part.kind in FRAMED else 0.0
    lefts = [max(left, _named_left(part, 0, kind)) + framed]
    lefts += [max(_inner_left(part, n), _named_left(part, n, kind)) for n in range(1, part.slots)]
    rights = [right + 1.5] * (part.slots - 1) + [right + 1.0 + wide + framed + 1.5]
    return Extent(max(high, words_high + framed), tuple(lefts), tuple(rights))


def _inner_left(part: Part, slot: int) -> float:
    """Return what a slot but the first reaches to the left: half a coil, or terminal numbers."""
    if part.kind == "reversing":
        return 9.5 if slot == part.slots - 1 else 7.0
    return 6.5


def _named_left(part: Part, slot: int, kind: Type) -> float:
    """Return what the names of a unit's terminals reach to the left of a slot's line."""
    own = (one.terminal for one in part.ports if part.kind == "unit" and one.slot == slot)
    return max((BESIDE_MM + kind.wide(one) + BESIDE_MM for one in own), default=0.0)


def words(part: Part, x: float, middle: float, kind: Type) -> tuple[Words, ...]:
    """Return a part's name and what is said below it, right of its last slot."""
    names, said = name_lines(part, kind), said_lines(part, kind)
    high = len(names) * NAME_STEP_MM + len(said) * SAYS_STEP_MM
    left, y = x + BODY[part.kind][2] + 1.0, middle - high / 2 + ASCENT_MM + 0.4
    found = []
    for line in names:
        found.append(Words((left, y), line, "word", "count-bold"))
        y += NAME_STEP_MM
    y -= NAME_STEP_MM - SAYS_STEP_MM
    for line in said:
        found.append(Words((left, y), line))
        y += SAYS_STEP_MM
    return tuple(found)


def numbers(symbol: Symbol) -> tuple[Words, ...]:
    """Return the terminal numbers of a part beside its ports, inside its frame."""
    if symbol.part.kind not in TERMINALS:
        return ()
    found = []
    for port in symbol.part.ports:
        up = port.side == "top"
        y = symbol.box_top + 3.2 if up else symbol.box_bottom - 1.3
        found.append(Words((symbol.xs[port.slot] - BESIDE_MM, y), port.terminal, anchor="end"))
    return tuple(found)
