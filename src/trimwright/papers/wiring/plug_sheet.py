"""Plug faces as seen from the wire side, and the tables of fuses and relays."""

from functools import partial

from trimwright.build import Build
from trimwright.cabin import Cabin
from trimwright.drawing import (
    LABEL_MM,
    LEAD_MM,
    Box,
    Column,
    Element,
    Line,
    Row,
    Setting,
    Size,
    Text,
    text_box,
    wrapped,
)
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import (
    BETWEEN_MM,
    GAP_MM,
    Filling,
    Table,
    flowed,
    heading,
    numbered,
    under,
)
from trimwright.papers.wiring.fitting_row import fitting_row
from trimwright.papers.wiring.wire_list import wire_number
from trimwright.papers.wiring.wording import colour_words, named, short_end, size_words
from trimwright.quantities import shown_current
from trimwright.wiring import (
    FuseDuty,
    Half,
    MadeOf,
    PlugFace,
    RelayDuty,
    WiringOutcome,
    fuse_duties,
    made_of,
    other_end,
    plug_faces,
    relay_duties,
)

NAMES = ("wiring", "plugs and fuses")
TITLE = "Plugs, seen from the wire side"
SAYS = (
    "Both halves as you hold them with the wires towards you, so one is the mirror of the other."
    " How a maker sets the rows is not known here: go by the numbers moulded into the plug."
)
MOST_IN_A_ROW, ONE_ROW = 8, 4  # cavities, on this paper
CELL_PAD_MM, NUMBER_MM, LEADING = 1.2, 4.2, 1.32
WORDS = Setting(LABEL_MM)
LEAST_A = 0.0005  # told: less is what the solver leaves
MOST_IN_A_CAVITY = 6  # wires told one by one
FUSE_COLUMNS = (
    (Column("fuse", 30.0), 30),
    (Column("rating", 20.0), 20),
    (Column("for good", 26.0), 26),
    (Column("feeds", 48.0), 48),
    (Column("looks after", 60.0), 60),
)
RELAY_COLUMNS = (
    (Column("relay", 32.0), 32),
    (Column("contact, coil guard", 38.0), 38),
    (Column("terminals", 114.0), 114),
)


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return the plugs' faces, the fuses and the relays; none without a wiring."""
    found = cabin.wiring
    if found is None:
        return ()
    build = cabin.build
    made = flowed(size, build, (_fuses(found), _relays(found)), _faces(found, build, size))
    return numbered(size, NAMES, made)


def _faces(found: WiringOutcome, build: Build, size: Size) -> tuple[Filling, ...]:
    """Return every plug, as many to a page as there is room for."""
    made = made_of(found)
    pages: list[Filling] = []
    for face in plug_faces(found):
        for number, half in enumerate(face.halves):
            _, high = _drawn(face, number, half, made, Box(0.0, 0.0, _wide(size, build), 0.0))
            if not pages or high > pages[-1].left.height:
                title = f"{TITLE}, continued" if pages else TITLE
                head, box = heading(size, build, title, "" if pages else SAYS)
                pages.append(Filling([*head], box))
            page = pages[-1]
            page.drawn += _drawn(face, number, half, made, page.left)[0]
            page.left = under(page.left, high + GAP_MM)
    for page in pages:
        page.left = under(page.left, BETWEEN_MM - GAP_MM)
    return tuple(pages)


def _wide(size: Size, build: Build) -> float:
    """Return the width that a page gives [mm]."""
    return heading(size, build, TITLE, "")[1].width


def _drawn(
    face: PlugFace, number: int, half: Half, made: dict[str, MadeOf], box: Box
) -> tuple[list[Element], float]:
    """Return one half of a plug from the top left corner of a box, and the height it takes [mm]."""
    name = face.plug.name[:1].upper() + face.plug.name[1:]
    way = " and ".join(half.towards) or "wires that stay there"
    drawn, y = _set(
        (box.x, box.y), f"{name}, half towards {way}", box.width, Setting(LEAD_MM, "say")
    )
    if number == 0 and (said := _said(face)):
        more, y = _set((box.x, y), said, box.width, Setting(LABEL_MM))
        drawn += more
    y += 1.0
    order = cavity_rows(len(half.cavities), mirrored=number == 1)
    wide = box.width / max(len(row) for row in order)
    wide = min(wide, box.width / ONE_ROW)
    for row in order:
        cells = [_cell(n, half, made, wide) for n in row]
        high = max(tall for _, tall in cells)
        for k, (words, _) in enumerate(cells):
            drawn += _boxed(Box(box.x + k * wide, y, wide, high), row[k], words)
        y += high
    return drawn, y - box.y


def cavity_rows(count: int, *, mirrored: bool) -> tuple[tuple[int, ...], ...]:
    """Return numbers of cavities by row as they are drawn, from the left.

    Examples
    --------
    >>> cavity_rows(6, mirrored=False), cavity_rows(6, mirrored=True)
    (((1, 2, 3), (4, 5, 6)), ((3, 2, 1), (6, 5, 4)))
    """
    each = count if count <= ONE_ROW else min(MOST_IN_A_ROW, -(-count // 2))
    rows = [tuple(range(1 + k, 1 + min(k + each, count))) for k in range(0, count, each)]
    return tuple(row[::-1] if mirrored else row for row in rows)


def _said(face: PlugFace) -> str:
    """Return which cavities are empty, crowded, or wired on one half only."""
    told = []
    for numbers, words in (
        (face.empty, "empty: fit a blank"),
        (face.crowded, "taken by more than one wire: join them ahead of it"),
        (face.one_sided, "wired on one half only"),
    ):
        if numbers:
            named = ", ".join(str(n) for n in numbers)
            told.append(f"Cavit{'ies' if len(numbers) > 1 else 'y'} {named} {words}.")
    return " ".join(told)


def _set(
    at: tuple[float, float], words: str, width: float, setting: Setting
) -> tuple[list[Element], float]:
    """Return words set into a width, and where they end [mm]."""
    drawn, high = text_box(at, words, width, setting)
    return [*drawn], at[1] + high


def _cell(number: int, half: Half, made: dict[str, MadeOf], wide: float) -> tuple[list[str], float]:
    """Return the lines of words in one cavity, and how high it is [mm]."""
    lines: list[str] = []
    wires = half.cavities[number - 1]
    for wire in wires[:MOST_IN_A_CAVITY]:
        says = f"{wire_number(wire)} {wire.name}\n"
        says += f"{colour_words(wire.colour)} {size_words(made[wire.name])}"
        lines += wrapped(says, wide - 2 * CELL_PAD_MM, WORDS)
    if len(wires) > MOST_IN_A_CAVITY:
        more = f"and {len(wires) - MOST_IN_A_CAVITY} more: see the wire list"
        lines += wrapped(more, wide - 2 * CELL_PAD_MM, WORDS)
    lines = lines or ["empty"]
    return lines, NUMBER_MM + len(lines) * LABEL_MM * LEADING + 2 * CELL_PAD_MM


def _boxed(box: Box, number: int, words: list[str]) -> list[Element]:
    """Return one cavity: its number, and what is in it."""
    x, y = box.x + CELL_PAD_MM, box.y + CELL_PAD_MM
    drawn: list[Element] = [Line(box.corners, "thin", closed=True)]
    drawn.append(Text((x, y + 2.6), str(number), LEAD_MM, "count-bold"))
    for k, line in enumerate(words):
        at = (x, y + NUMBER_MM + LABEL_MM * (0.8 + k * LEADING))
        drawn.append(Text(at, line, LABEL_MM, box_mm=box.width - 2 * CELL_PAD_MM))
    return drawn


def _fuses(found: WiringOutcome) -> Table:
    """Return the table of fuses."""
    rows = tuple(fitting_row(FUSE_COLUMNS, partial(_fuse, one)) for one in fuse_duties(found))
    words = (
        "What goes through each for good, with everything on that can be on together, short pushes"
        " left out; and the wires that it is the last fuse ahead of."
    )
    return Table("Fuses", words, FUSE_COLUMNS, rows)


def _fuse(one: FuseDuty, most: int) -> Row:
    """Return one fuse, with so many names in one cell."""
    own = one.fuse
    place = own.at or "place not written"
    cells = (
        f"{own.name}\n{place}",
        f"{shown_current(own.rated.value)} {own.type}",
        _lasts(one),
        named(one.feeds, most) or "nothing that works",
        named(one.wires, most) or "no wire",
    )
    return Row(cells)


def _lasts(one: FuseDuty) -> str:
    """Return what goes through a fuse for good."""
    if one.lasting_a is None:
        return "not known"
    return shown_current(one.lasting_a) if one.lasting_a > LEAST_A else "nothing lasting"


def _relays(found: WiringOutcome) -> Table:
    """Return the table of relays."""
    rows = tuple(fitting_row(RELAY_COLUMNS, partial(_relay, one)) for one in relay_duties(found))
    words = "Terminals are numbered after DIN 72552: coil 85 and 86, contact 30 to 87, 87a at rest."
    return Table("Relays", words, RELAY_COLUMNS, rows)


def _relay(one: RelayDuty, most: int) -> Row:
    """Return one relay, with so many ends at one terminal."""
    own = one.relay
    guard = "no guard" if own.coil_guard == "none" else own.coil_guard
    lines = []
    for terminal, wires in one.wires:
        ends = (f"{short_end(other_end(w, own.name))} ({colour_words(w.colour)})" for w in wires)
        lines.append(f"{terminal}: {named(tuple(ends), most)}")
    return Row(
        (
            f"{own.name}\n{own.at or 'place not written'}",
            f"{shown_current(own.carries.value)}, coil {own.coil.value:g} ohm\n{guard}",
            "\n".join(lines) or "no wire",
        )
    )
