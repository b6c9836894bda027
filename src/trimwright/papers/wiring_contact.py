"""Contacts of switches and relays after IEC 60617, all at rest, and what works them."""

from typing import Literal

from trimwright.drawing import Circle, Element, Group, Line, PenName, Point
from trimwright.wiring import Symbol

Contact = Literal["make", "break"]
HALF_MM = 5.0  # of a contact, from its middle to its ends
TIP_MM, SIDE_MM = 2.6, 3.2  # from the middle to the fixed tips; from the line to a tip beside it
HAND_MM = 7.0  # from the line to the hand that works it


def line(*points: Point, pen: PenName = "visible", closed: bool = False) -> Line:
    """Return a line through points."""
    return Line(points, pen, closed=closed)


def box(x: float, y: float, wide: float, high: float) -> Line:
    """Return a rectangle around a middle."""
    a, b = wide / 2, high / 2
    corners = ((x - a, y - b), (x + a, y - b), (x + a, y + b), (x - a, y + b))
    return Line(corners, "visible", closed=True)


def link(a: Point, b: Point) -> Line:
    """Return the dashed line of a mechanical link."""
    return line(a, b, pen="hidden")


def frame(symbol: Symbol) -> Line:
    """Return the chain line around a device of several parts."""
    a, b = (symbol.left, symbol.box_top), (symbol.right, symbol.box_bottom)
    return line(a, (b[0], a[1]), b, (a[0], b[1]), pen="centre", closed=True)


def contact(x: float, y: float, kind: Contact) -> tuple[Element, ...]:
    """Return a make or break contact around a middle: pivot below, fixed tip above."""
    found: list[Element] = [
        line((x, y - HALF_MM), (x, y - TIP_MM), pen="wire"),
        line((x, y + TIP_MM), (x, y + HALF_MM), pen="wire"),
    ]
    if kind == "make":
        return (*found, line((x, y + TIP_MM), (x - SIDE_MM, y - 2.2)))
    hook = line((x, y - TIP_MM), (x + SIDE_MM, y - TIP_MM))
    return (*found, hook, line((x, y + TIP_MM), (x + 2.4, y - 3.6)))


def worked(how: str, x: float, y: float, blade: float = -1.6) -> tuple[Element, ...]:
    """Return what works a contact: a button, a handle that stays, a round head for all else."""
    if not how:
        return ()
    end = x - HAND_MM
    found: list[Element] = [link((end, y), (x + blade, y))]
    if how == "push":
        corners = ((end + 1.1, y - 2.4), (end, y - 2.4), (end, y + 2.4), (end + 1.1, y + 2.4))
        return (*found, line(*corners))
    if how == "other":
        return (*found, Circle((end - 1.2, y), 1.2, "visible"))
    notch = ((end + 1.4, y), (end + 2.2, y + 1.4), (end + 3.0, y))
    return (*found, line((end, y - 2.4), (end, y + 2.4)), line(*notch, pen="thin"))


def _thrown(symbol: Symbol, y: float, names: tuple[str, str]) -> list[Element]:
    """Return a contact with two throws: at rest on the second, whose slot is beside the first.

    `names` are those of the contacts to the first throw and to the second.
    """
    x, beside = symbol.xs[0], symbol.xs[1]
    common = symbol.part.common
    k = 1.0 if common == "top" else -1.0
    near, far = (symbol.top, symbol.bottom) if k > 0 else (symbol.bottom, symbol.top)
    tip = (x + SIDE_MM, y + k * TIP_MM)
    rest: tuple[Element, ...] = (
        line((x, y - k * TIP_MM), (tip[0] + 0.3, tip[1] + k * 0.3)),
        line(tip, (tip[0], y + k * 4.2), (beside, y + k * 4.2), (beside, far), pen="wire"),
    )
    other = line((x, y + k * TIP_MM), (x, far), pen="wire")
    return [
        line((x, near), (x, y - k * TIP_MM), pen="wire"),
        Group((other,), name=names[0]),
        Group(rest, name=names[1]),
    ]


def changeover(symbol: Symbol, x: float, y: float) -> list[Element]:
    """Return a changeover switch in its frame."""
    name = symbol.part.name
    names = (f"contact {name} in-worked", f"contact {name} in-rest")
    hand = worked(symbol.part.worked, x, y, 1.6)
    return [*_thrown(symbol, y, names), *hand, frame(symbol)]


def relay(symbol: Symbol, x: float, y: float) -> list[Element]:
    """Return a relay: contact and coil in one frame, linked."""
    part, found = symbol.part, list[Element]()
    throws = [p.terminal for p in part.ports if p.terminal in ("87", "87a")]
    coil = next((p.slot for p in part.ports if p.terminal in ("85", "86")), None)
    contacts = any(p.terminal in ("30", "87", "87a") for p in part.ports)
    if len(throws) > 1:
        names = (f"contact {part.name} 30-87", f"contact {part.name} 30-87a")
        found += _thrown(symbol, y, names)
    elif contacts:
        kind: Contact = "break" if throws == ["87a"] else "make"
        own = f"contact {part.name} 30-{throws[0] if throws else '87'}"
        found.append(Group(contact(x, y, kind), name=own))
        found += _ends(symbol, 0, x, y, HALF_MM)
    if coil is not None:
        at = symbol.xs[coil]
        drawn = (box(at, y, 10.0, 6.0), *_ends(symbol, coil, at, y, 3.0))
        found.append(Group(drawn, name=f"coil {part.name}"))
        if contacts:
            blade = x + (1.6 if len(throws) > 1 or throws == ["87a"] else -1.6)
            found.append(link((blade, y), (at + (-5.0 if at > x else 5.0), y)))
    return [*found, frame(symbol)]


def _ends(symbol: Symbol, slot: int, x: float, y: float, half: float) -> list[Element]:
    """Return the lines from what is in a slot to its ports."""
    found: list[Element] = []
    for port in symbol.part.ports:
        if port.slot == slot:
            ends = (symbol.top, y - half) if port.side == "top" else (y + half, symbol.bottom)
            found.append(line((x, ends[0]), (x, ends[1]), pen="wire"))
    return found


def reversing(symbol: Symbol, x: float, y: float) -> list[Element]:  # noqa: ARG001  all symbols are asked alike
    """Return a switch that turns a motor either way: both its sides rest at ground."""
    name, (a, b, ground) = symbol.part.name, symbol.xs
    feed_y, ground_y, tip_y, pivot_y = y - 8.0, y - 5.4, y - 2.6, y + 2.6
    found: list[Element] = [
        line((a, symbol.top), (a, feed_y), pen="wire"),
        line((a, feed_y), (b, feed_y), pen="wire"),
        line((a + SIDE_MM, ground_y), (ground, ground_y), (ground, symbol.bottom), pen="wire"),
        Circle((a, feed_y), 0.8, None, "ink"),
        Circle((b + SIDE_MM, ground_y), 0.8, None, "ink"),
    ]
    for at, which in ((a, "a"), (b, "b")):
        fed = (line((at, feed_y), (at, tip_y), pen="wire"),)
        rest = (
            line((at + SIDE_MM, ground_y), (at + SIDE_MM, tip_y), pen="wire"),
            line((at, pivot_y), (at + SIDE_MM + 0.3, tip_y - 0.3)),
        )
        found += [
            Group(fed, name=f"contact {name} feed-{which}"),
            Group(rest, name=f"contact {name} {which}-ground"),
            line((at, pivot_y), (at, symbol.bottom), pen="wire"),
        ]
    hand = worked(symbol.part.worked, a, y, 1.6)
    return [*found, *hand, link((a + 1.6, y), (b + 1.6, y)), frame(symbol)]
