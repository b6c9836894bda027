"""The harness board, full size: the loom laid flat, to nail along and tie up on a bench."""

from collections.abc import Callable, Iterator

from msgspec.structs import replace

from trimwright.cabin import Cabin
from trimwright.drawing import LABEL_MM, LEAD_MM, Line, Point, Setting, Size, nail_cross
from trimwright.papers import one_to_one
from trimwright.papers.leaf import Leaf
from trimwright.papers.note import Note, note
from trimwright.papers.piece import Piece, Shape
from trimwright.papers.shared_page import Paper
from trimwright.papers.wiring.wording import colour_words, short_end
from trimwright.quantities import Unit, shown, shown_with_unit
from trimwright.wiring import (
    Board,
    Branch,
    Bundling,
    End,
    Spot,
    Wire,
    WiringOutcome,
    boards,
    bundlings,
    free_mm,
)

BAND_MM = 2.0
NAIL_EVERY_MM = 300.0
TICK_EVERY_MM: dict[Unit, float] = {"mm": 100.0, "in": 101.6}  # 4 in
TICK_MM = 4.0  # half a tick
MARGIN_MM = 30.0
FLAG_MM, ENDS_IN_A_FLAG = 62.0, 14
Ends = dict[str, list[tuple[End, Wire]]]
Flags = Callable[[Spot, Point, WiringOutcome], list[Note]]


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return the loom laid flat at full size, over as many pages as it takes; none without trunks."""
    found = cabin.wiring
    if found is None:
        return ()
    unit = cabin.build.unit
    laid = tuple(board for board in boards(found) if board.branches)
    if not laid:
        return ()
    try:
        return _pages(cabin, laid, size, _flags, _says(found, unit))
    except ValueError:  # more words than a page has room for round one of its places
        says = (
            f"{_says(found, unit)} What ends at each place is too much for here: see the wire list."
        )
        return _pages(cabin, laid, size, _names, says)


def _pages(
    cabin: Cabin, laid: tuple[Board, ...], size: Size, flags: Flags, says: str
) -> tuple[Leaf, ...]:
    """Return the pages of boards, with flags of a kind."""
    found, unit = cabin.wiring, cabin.build.unit
    if found is None:
        raise ValueError("cabin must have a wiring, got none")
    pieces = tuple(
        _piece(board, (found, unit), flags, f"harness board {number}".removesuffix(" 0"))
        for number, board in enumerate(laid, start=min(1, len(laid) - 1))
    )
    return one_to_one.leaves(pieces, Paper("harness board", size, cabin.build, says))


def _says(found: WiringOutcome, unit: Unit) -> str:
    """Return what to do with the pages."""
    tail = shown_with_unit(found.wiring.tail.value, unit)
    every = "100 mm" if unit == "mm" else "4 in"
    said = (
        "Cut along the joint, lay over, match the crosses, tape, on a board. A nail at each cross;"
        f" lay the wires along the bands, ticked every {every}, each {tail} past its end. Pages"
        " without lines are left out."
    )
    count = sum(one.route is None for one in found.loom.wires)
    if count:
        said += f" Not laid, as their way is not known: {count} wires, named in the wire list."
    return said


def _piece(board: Board, of: tuple[WiringOutcome, Unit], flags: Flags, name: str) -> Piece:
    """Return one board with its flags, of a wiring told in a unit."""
    found, unit = of
    xs, ys = [one.at[0] for one in board.spots], [one.at[1] for one in board.spots]
    left, top = min(xs), min(ys)

    def at(point: Point) -> Point:
        return point[0] - left + MARGIN_MM, point[1] - top + MARGIN_MM

    bundles = {one.number: one for one in bundlings(found)}
    lines: list[Shape] = [line for one in board.branches for line in band(one, at)]
    notes: list[Note] = []
    for spot in board.spots:
        lines += nail_cross(at(spot.at))
        notes += flags(spot, at(spot.at), found)
    for branch in board.branches:
        lines += _marks(branch, at, unit)
        notes.append(_name(branch, bundles[branch.trunk], at, unit))
    for branch in board.branches:
        notes += _figures(branch, at, unit)
    wide, high = max(xs) - left + 2 * MARGIN_MM, max(ys) - top + 2 * MARGIN_MM
    return Piece(name, "", wide, high, tuple(lines), tuple(notes))


def _along(branch: Branch, mm: float) -> Point:
    """Return the point of a branch so far from its start [mm], as the layout has it."""
    share = mm / branch.long_mm if branch.long_mm else 0.0
    (x0, y0), (x1, y1) = branch.start.at, branch.end.at
    return x0 + share * (x1 - x0), y0 + share * (y1 - y0)


def _across(branch: Branch) -> Point:
    """Return the step of 1 mm square to a branch."""
    if not branch.long_mm:
        return 0.0, 0.0
    (x0, y0), (x1, y1) = branch.start.at, branch.end.at
    return (y0 - y1) / branch.long_mm, (x1 - x0) / branch.long_mm


def band(branch: Branch, at: Callable[[Point], Point]) -> tuple[Line, ...]:
    """Return the band of a branch at its true length."""
    u, v = _across(branch)
    half = BAND_MM / 2
    (x0, y0), (x1, y1) = at(branch.start.at), at(branch.end.at)
    corners = (
        (x0 + half * u, y0 + half * v),
        (x1 + half * u, y1 + half * v),
        (x1 - half * u, y1 - half * v),
        (x0 - half * u, y0 - half * v),
    )
    return (Line(corners, "saw", closed=True, layer="band"),)


def _steps(long_mm: float, every_mm: float) -> Iterator[float]:
    """Yield distances between the ends of a length [mm], every so often."""
    count = 1
    while count * every_mm < long_mm - 1e-6:
        yield count * every_mm
        count += 1


def _marks(branch: Branch, at: Callable[[Point], Point], unit: Unit) -> list[Shape]:
    """Return the ticks and nails along a branch."""
    u, v = _across(branch)
    marks: list[Shape] = []
    for mm in _steps(branch.long_mm, TICK_EVERY_MM[unit]):
        x, y = at(_along(branch, mm))
        ends = ((x - TICK_MM * u, y - TICK_MM * v), (x + TICK_MM * u, y + TICK_MM * v))
        marks.append(Line(ends, "thin", layer="tick"))
    for mm in _steps(branch.long_mm, NAIL_EVERY_MM):
        marks += nail_cross(at(_along(branch, mm)))
    return marks


def _figures(branch: Branch, at: Callable[[Point], Point], unit: Unit) -> list[Note]:
    """Return the distance at each tick of a branch from its start."""
    u, v = _across(branch)
    said = []
    for mm in _steps(branch.long_mm, TICK_EVERY_MM[unit]):
        x, y = at(_along(branch, mm))
        place = (x + (TICK_MM + 2.0) * u - 3.0, y + (TICK_MM + 2.0) * v - 1.5)
        said.append(note(place, shown(mm, unit), 20.0, Setting(LABEL_MM)))
    return said


def _name(branch: Branch, own: Bundling, at: Callable[[Point], Point], unit: Unit) -> Note:
    """Return what a branch is: from where to where, how many wires, how thick, how long."""
    count = len(own.wires) + len(own.unknown)
    told = [f"{branch.start.place} to {branch.end.place}: {shown_with_unit(branch.long_mm, unit)}"]
    told.append(f"{count} wire{'s' if count > 1 else ''}")
    if own.bundle is not None:
        thick = shown_with_unit(own.bundle.diameter_mm, unit, "up")
        told.append(f"{thick} thick" + (" and more" if own.unknown else ""))
    if (hinge := own.trunk.hinge) is not None:
        free = shown_with_unit(free_mm(hinge), unit)
        wrap = "no wrap there" if hinge.wires == "loose" else "no clip there"
        told.append(f"{free} of it free over its hinge: {wrap}")
    middle = at(_along(branch, min(branch.long_mm / 2, 1.5 * TICK_EVERY_MM[unit])))
    return _centred(note(middle, ", ".join(told), FLAG_MM, Setting(LEAD_MM)), middle)


def _centred(one: Note, near: Point) -> Note:
    """Return a note about a place, laid over it: it settles on the nearest bare paper."""
    left, top, right, bottom = one.area
    return replace(one.moved(near[0] - (left + right) / 2, near[1] - (top + bottom) / 2), near=near)


def _names(spot: Spot, at: Point, found: WiringOutcome) -> list[Note]:
    """Return the name of a spot, and how many wires end there."""
    said = _upper(spot.place)
    if spot.free:
        said = f"Free end: in the car it meets {spot.place}. Bring it there on the bench."
    elif count := sum(len(ends) for ends in _ends_at(spot.place, found).values()):
        said += f": {count} end{'s' if count > 1 else ''}"
    return [_centred(note(at, said, FLAG_MM, Setting(LEAD_MM, "say")), at)]


def _flags(spot: Spot, at: Point, found: WiringOutcome) -> list[Note]:
    """Return the flags of a spot: its name, then each device with its terminals and colours."""
    plugs = {one.name for one in found.wiring.plugs}
    lines = [
        device_words(device, ends, halves=2 if device in plugs else 1)
        for device, ends in _ends_at(spot.place, found).items()
    ]
    if spot.free or not lines:
        return _names(spot, at, found)
    parts = [lines[k : k + ENDS_IN_A_FLAG] for k in range(0, len(lines), ENDS_IN_A_FLAG)]
    return [
        _flag(f"{_upper(spot.place)}, more" if k else _upper(spot.place), part, at)
        for k, part in enumerate(parts)
    ]


def _flag(head: str, lines: list[str], near: Point) -> Note:
    """Return one flag."""
    title = note(near, head, FLAG_MM, Setting(LEAD_MM, "say"))
    corner = (near[0], title.area[3] + 1.0)
    below = note(corner, "\n".join(lines), FLAG_MM, Setting(LABEL_MM))
    return _centred(Note((*title.texts, *below.texts)), near)


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _ends_at(place: str, found: WiringOutcome) -> Ends:
    """Return the ends of wires at a place by device, in the order of the loom."""
    there: Ends = {}
    for wire in found.loom.wires:
        for end in (wire.start, wire.end):
            if end.place == place and wire.route is not None:
                there.setdefault(end.device, []).append((end, wire))
    return there


def device_words(device: str, ends: list[tuple[End, Wire]], *, halves: int = 1) -> str:
    """Return a device with each of its terminals, the colours there, and how many wires share it.

    `halves` is how many wires belong at one terminal: two at the cavity of a plug.
    """
    by_terminal: dict[str, list[str]] = {}
    for end, wire in ends:
        said = short_end(end).removeprefix(device).strip()
        by_terminal.setdefault(said, []).append(colour_words(wire.colour))
    told = []
    for terminal, every in by_terminal.items():
        colours = "+".join(dict.fromkeys(every))
        more = f" ({len(every)} wires)" if len(every) > halves else ""
        told.append(f"{terminal} {colours}{more}".strip())
    return f"{device}: {', '.join(told)}"
