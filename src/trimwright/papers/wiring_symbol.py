"""Symbols of a wiring diagram after IEC 60617, drawn round a line that current runs down."""

from collections.abc import Callable

from trimwright.drawing import (
    LABEL_MM,
    LEAD_MM,
    NAME_MM,
    WORD_MM,
    ArcTo,
    Circle,
    Element,
    Fill,
    Group,
    Path,
    Point,
    Text,
)
from trimwright.papers.wiring_contact import (
    Contact,
    box,
    changeover,
    contact,
    frame,
    line,
    link,
    relay,
    reversing,
    worked,
)
from trimwright.wiring import Bar, Kind, Symbol, Words

DOT_MM = 0.8
FOOT_IN_MM = 3.4  # from the end of a foot to its mark


def dot(at: Point) -> Circle:
    """Return the dot where wires are joined."""
    return Circle(at, DOT_MM, None, "ink")


def leads(symbol: Symbol, half: float) -> list[Element]:
    """Return the lines from the edges of its row to a body of half a height."""
    x, middle = symbol.xs[0], (symbol.top + symbol.bottom) / 2
    sides = {port.side for port in symbol.part.ports}
    up = "top" in sides or symbol.part.lead_up
    down = "bottom" in sides or symbol.part.lead_down
    found: list[Element] = []
    if up:
        found.append(line((x, symbol.top), (x, middle - half), pen="wire"))
    if down:
        found.append(line((x, middle + half), (x, symbol.bottom), pen="wire"))
    return found


def _fuse(symbol: Symbol, x: float, y: float) -> list[Element]:
    return [box(x, y, 3.4, 9.0), line((x, y - 4.5), (x, y + 4.5), pen="wire"), *leads(symbol, 4.5)]


def _lamp(symbol: Symbol, x: float, y: float) -> list[Element]:
    r, d = 4.2, 4.2 * 0.7071
    return [
        Circle((x, y), r, "visible"),
        line((x - d, y - d), (x + d, y + d), pen="wire"),
        line((x + d, y - d), (x - d, y + d), pen="wire"),
        *leads(symbol, r),
    ]


def _led(symbol: Symbol, x: float, y: float) -> list[Element]:
    # the head points away from the plus side, whichever is on top
    turned = any(p.terminal == "-" and p.side == "top" for p in symbol.part.ports)
    k = -1.0 if turned else 1.0
    found: list[Element] = [
        line((x - 2.6, y - 2.2 * k), (x + 2.6, y - 2.2 * k), (x, y + 2.2 * k), closed=True),
        line((x - 2.6, y + 2.2 * k), (x + 2.6, y + 2.2 * k)),
        line((x, y - 2.2), (x, y + 2.2), pen="wire"),
    ]
    for shift in (-0.8, 1.2):
        a, b = (x + 3.0, y + shift), (x + 5.4, y + shift - 2.0)
        found += [
            line(a, b, pen="thin"),
            line((b[0] - 1.3, b[1] + 0.2), b, (b[0] - 0.3, b[1] + 1.3), pen="thin"),
        ]
    return [*found, *leads(symbol, 2.2)]


def _heater(symbol: Symbol, x: float, y: float) -> list[Element]:
    bars = [line((x - 2.0, y + k), (x + 2.0, y + k), pen="wire") for k in (-2.5, 0.0, 2.5)]
    return [box(x, y, 4.0, 10.0), *bars, *leads(symbol, 5.0)]


def _motor(symbol: Symbol, x: float, y: float) -> list[Element]:
    letter = Text((x, y + 0.36 * LEAD_MM), "M", LEAD_MM, "count-bold", "middle")
    return [Circle((x, y), 4.4, "visible"), letter, *leads(symbol, 4.4)]


def _solenoid(symbol: Symbol, x: float, y: float) -> list[Element]:
    return [
        box(x, y, 11.0, 7.0),
        line((x - 5.5, y + 3.5), (x + 5.5, y - 3.5), pen="wire"),
        *leads(symbol, 3.5),
    ]


def _electronics(symbol: Symbol, x: float, y: float) -> list[Element]:
    wave = Path(
        (x - 2.4, y), (ArcTo((x, y), 1.2), ArcTo((x + 2.4, y), 1.2, "anticlockwise")), "wire"
    )
    return [box(x, y, 12.0, 9.0), wave, *leads(symbol, 4.5)]


def _unit(symbol: Symbol, x: float, y: float) -> list[Element]:
    wide, high = symbol.right - symbol.left, symbol.box_bottom - symbol.box_top
    found: list[Element] = [box((symbol.left + symbol.right) / 2, y, wide, high)]
    for port in symbol.part.ports:
        x, end = symbol.port_point(port.terminal)
        found.append(line((x, end), (x, y + (high if end > y else -high) / 2), pen="wire"))
    return found


def _plug(symbol: Symbol, x: float, y: float) -> list[Element]:
    cup = Path((x - 1.7, y + 0.5), (ArcTo((x + 1.7, y + 0.5), 1.7),), "visible")
    pin = Fill(
        ((x - 0.5, y - 0.8), (x + 0.5, y - 0.8), (x + 0.5, y + 2.6), (x - 0.5, y + 2.6)), tone="ink"
    )
    top, bottom = symbol.top, symbol.bottom
    return [
        cup,
        pin,
        line((x, top), (x, y - 1.2), pen="wire"),
        line((x, y + 2.6), (x, bottom), pen="wire"),
    ]


def _splice(symbol: Symbol, x: float, y: float) -> list[Element]:
    return [dot((x, y)), line((x, symbol.top), (x, symbol.bottom), pen="wire")]


def _feed(symbol: Symbol, x: float, y: float) -> list[Element]:
    if "live always" in symbol.part.says:
        ring: list[Element] = [Circle((x, y), 1.2, "visible")]
        return [*ring, *leads(symbol, 1.2)]
    key: list[Element] = [Circle((x - 8.6, y), 1.1, "visible"), line((x - 7.5, y), (x - 5.9, y))]
    return [*contact(x, y, "make"), *key, link((x - 5.9, y), (x - 2.0, y)), *leads(symbol, 5.0)]


def _battery(symbol: Symbol, x: float, y: float) -> list[Element]:
    found: list[Element] = [line((x, y - 0.9), (x, y + 0.9), pen="hidden")]
    for k in (-2.6, 0.9):
        found += [
            line((x - 4.0, y + k), (x + 4.0, y + k)),
            line((x - 1.8, y + k + 1.7), (x + 1.8, y + k + 1.7), pen="rail"),
        ]
    plus = [
        line((x - 4.0, y - 4.4), (x - 2.4, y - 4.4), pen="thin"),
        line((x - 3.2, y - 5.2), (x - 3.2, y - 3.6), pen="thin"),
    ]
    minus = line((x - 4.0, y + 4.2), (x - 2.4, y + 4.2), pen="thin")
    return [*found, *plus, minus, *leads(symbol, 2.6)]


def _alternator(symbol: Symbol, x: float, y: float) -> list[Element]:
    ports = {p.terminal: p for p in symbol.part.ports}
    found: list[Element] = [
        Circle((x, y), 4.6, "visible"),
        Text((x, y + 0.36 * LEAD_MM), "G", LEAD_MM, "count-bold", "middle"),
    ]
    if "B+" in ports:
        found.append(line((x, symbol.top), (x, y - 4.6), pen="wire"))
    if "B-" in ports:
        found.append(line((x, y + 4.6), (x, symbol.bottom), pen="wire"))
    if "D+" in ports:
        to = symbol.xs[1]
        found.append(line((to, symbol.top), (to, y), (x + 4.6, y), pen="wire"))
    return [*found, frame(symbol)]


def _post(symbol: Symbol, x: float, y: float) -> list[Element]:
    side = symbol.part.ports[0].side
    ends = (
        ((x, y + 1.2), (x, symbol.bottom)) if side == "bottom" else ((x, symbol.top), (x, y - 1.2))
    )
    return [Circle((x, y), 1.2, "visible"), line(*ends, pen="wire")]


def _reference(symbol: Symbol, x: float, y: float) -> list[Element]:
    if symbol.part.ports[0].side == "top":
        tip = y + 1.6
        head = line((x - 1.4, tip - 2.6), (x, tip), (x + 1.4, tip - 2.6))
        return [head, line((x, symbol.top), (x, tip), pen="wire")]
    tip = y - 1.6
    head = line((x - 1.4, tip - 1.2), (x, tip + 1.4), (x + 1.4, tip - 1.2))
    return [head, line((x, tip + 1.4), (x, symbol.bottom), pen="wire")]


def _make(symbol: Symbol, x: float, y: float) -> list[Element]:
    return _switch(symbol, x, y, "make")


def _break(symbol: Symbol, x: float, y: float) -> list[Element]:
    return _switch(symbol, x, y, "break")


def _switch(symbol: Symbol, x: float, y: float, kind: Contact) -> list[Element]:
    moved = Group(contact(x, y, kind), name=f"contact {symbol.part.name}")
    return [moved, *worked(symbol.part.worked, x, y), *leads(symbol, 5.0)]


DRAWN: dict[Kind, Callable[[Symbol, float, float], list[Element]]] = {
    "fuse": _fuse,
    "make": _make,
    "break": _break,
    "changeover": changeover,
    "reversing": reversing,
    "relay": relay,
    "lamp": _lamp,
    "LED": _led,
    "heater": _heater,
    "motor": _motor,
    "solenoid": _solenoid,
    "electronics": _electronics,
    "unit": _unit,
    "plug": _plug,
    "splice": _splice,
    "feed": _feed,
    "battery": _battery,
    "alternator": _alternator,
    "post": _post,
    "reference": _reference,
}
TYPE_MM = {"label": LABEL_MM, "word": WORD_MM, "name": NAME_MM}


def text(words: Words) -> Text:
    """Return words of a diagram as drawn words."""
    turn = -90.0 if words.upright else 0.0
    return Text(words.at, words.text, TYPE_MM[words.size], words.face, words.anchor, turn)


def bar(one: Bar, number: str) -> Group:
    """Return a rail with its number, or a foot with the mark of a ground or of a live rail."""
    found: list[Element] = [line((one.left, one.y), (one.right, one.y), pen="rail")]
    x, y = one.left + FOOT_IN_MM, one.y
    if one.kind == "rail":
        at = (one.left - 1.4, y + 0.36 * NAME_MM)
        found.append(Text(at, number, NAME_MM, "say", "end"))
    elif one.kind == "ground":
        found.append(line((x, y), (x, y + 2.6), pen="wire"))
        for n, half in enumerate((3.2, 2.0, 0.9)):
            found.append(line((x - half, y + 2.6 + n * 1.2), (x + half, y + 2.6 + n * 1.2)))
    elif one.kind == "feed":
        found.append(line((x, y), (x, y + 4.6), pen="wire"))
        found.append(line((x - 1.4, y + 2.6), (x, y + 5.0), (x + 1.4, y + 2.6)))
    kind = "rail" if one.kind == "rail" else one.kind
    return Group((*found, *map(text, one.words)), name=f"{kind} {one.name}")


def drawn(symbol: Symbol) -> Group:
    """Return a part's symbol and its words, in a group of its name."""
    x, y = symbol.xs[0], (symbol.top + symbol.bottom) / 2
    body = DRAWN[symbol.part.kind](symbol, x, y)
    return Group((*body, *map(text, symbol.words)), name=f"part {symbol.part.name}")
