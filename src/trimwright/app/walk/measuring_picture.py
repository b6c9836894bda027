"""Where the tape goes: a drawing for each first reading, to scale, in the build's own figures."""

import numpy as np

from trimwright.app.message import Area, Place
from trimwright.app.walk.tape_picture import Figures, Picture, across, metal, smooth
from trimwright.drawing import PenName

PILE = 90.0  # mm: the loose carpet as drawn


def _side(sheet: Picture, ends: Place) -> None:
    """Draw the tunnel's top along the car, front to the left, with the datum."""
    metal(sheet, np.array([[x, 0.0] for x in np.linspace(*ends, 9)]))
    _datum(sheet)


def _datum(sheet: Picture) -> None:
    """Mark the datum below the tunnel with a filled triangle."""
    corners = sheet.big * np.array([[0.0, -11.0], [-8.0, -25.0], [8.0, -25.0]])
    sheet.tape.append(Area(fill="datum", points=sheet.places(corners)))
    sheet.label(0.0, -40.0 * sheet.big, "datum")


def _dash(sheet: Picture, f: Figures) -> None:
    """Draw the dash's underside in double chain."""
    ahead, here = f.dash
    sheet.line(
        smooth([(-150.0, ahead - 30), (-60.0, ahead), (0.0, here), (40.0, here + 60)]), "other-body"
    )
    sheet.label(-120.0, ahead + 22.0, "dash")


def _lever(sheet: Picture, foot: Place, knob: Place, wide: float, *, ghost: bool = False) -> None:
    """Draw a lever with its knob."""
    pen: PenName = "other-body" if ghost else "visible"
    sheet.line(np.array([foot, knob]), pen)
    turn = np.linspace(0, 2 * np.pi, 73)
    sheet.line(
        np.array(knob) + wide / 2 * np.stack([np.cos(turn), np.sin(turn)], -1), pen, closed=True
    )


def _uprights(sheet: Picture, half: float, foot: float, says: str) -> None:
    """Stand a square on either side of the tunnel and tape between them above it."""
    for left in (-half - 10.0, half):
        sheet.box((left, foot), (left + 10.0, 84.0), "ply")
    sheet.read((-half, 72.0), (half, 72.0), says)


def height(f: Figures) -> Picture:
    """Return the tunnel's height above the floor, under a lath."""
    sheet = Picture((0.0, 0.0), 1.0)
    across(sheet, f)
    foot = f.floor / 2 + 88.0
    sheet.box((-f.shoulder / 4, 0.0), (foot + 17.0, 11.0), "ply")
    sheet.label(-f.shoulder / 2, 24.0, "lath, level")
    sheet.read((foot, -f.height), (foot, 0.0), "read under the lath", "up is plus")
    return sheet


def shoulder(f: Figures) -> Picture:
    """Return the tunnel's width where its top turns into the sides."""
    sheet = Picture((0.0, 0.0), 1.0)
    across(sheet, f)
    _uprights(sheet, f.shoulder / 2, -0.2 * f.height, "read at the square")
    return sheet


def floor(f: Figures) -> Picture:
    """Return the tunnel's width at the floor."""
    sheet = Picture((0.0, 0.0), 1.0)
    across(sheet, f)
    _uprights(sheet, f.floor / 2, -f.height, "read at the square")
    return sheet


def seats(f: Figures) -> Picture:
    """Return the free width between the seats."""
    sheet = Picture((0.0, 0.0), 1.0)
    across(sheet, f)
    half = f.seats / 2
    for side, name in ((-1.0, "left seat"), (1.0, "right seat")):
        a, b = sorted((side * half, side * (half + 58)))
        sheet.box((a, -0.5 * f.height), (b, 110.0))
        sheet.label(side * (half + 78.0), -0.5 * f.height - 22.0, name)
    sheet.read((-half, 78.0), (half, 78.0), "read here")
    return sheet


def carpet(f: Figures, *, squeezed: bool) -> Picture:
    """Return the carpet with a rule stood in it, loose or squeezed by hand."""
    if squeezed:
        return carpet_under(f, f.carpet[1], "pressed by hand", "read here")
    return carpet_under(f, f.carpet[0], "")


def carpet_under(
    f: Figures, thick_mm: float, says: str, read: str = "read at the pile's top"
) -> Picture:
    """Return the carpet under what presses on it, if anything, with a rule; thicker than it is."""
    sheet = Picture((0.0, 0.0), 1.0)
    thick = PILE * thick_mm / f.carpet[0]
    metal(sheet, np.array([[x, 0.0] for x in np.linspace(-170.0, 170.0, 9)]))
    top = smooth([(-170.0, PILE), (-110.0, PILE), (-60.0, thick), (150.0, thick), (170.0, thick)])
    sheet.fill(np.concatenate([[[-170.0, 0.0]], top, [[170.0, 0.0]]]), "carpet")
    sheet.line(top, "thin")
    if says:
        sheet.box((72.0, thick), (142.0, thick + 24.0), "ply")
        sheet.label(107.0, thick + 40.0, says)
    sheet.label(-140.0, -26.0, "bare metal")
    sheet.read((-40.0, 0.0), (-40.0, thick), read)
    return sheet


def dash(f: Figures, *, ahead: bool, at_mm: float) -> Picture:
    """Return the dash's underside above the tunnel at one place."""
    sheet = Picture((0.0, 0.0), 1.0)
    _side(sheet, (-190.0, 190.0))
    _dash(sheet, f)
    x, top = (at_mm, f.dash[0]) if ahead else (0.0, f.dash[1])
    sheet.read((x, 0.0), (x, top), "read under the dash", "up is plus")
    return sheet


def along(f: Figures, at_mm: float, says: str, *, console: bool = False) -> Picture:
    """Return a place along the car, taped from the datum."""
    reach = max(abs(at_mm), 200.0)
    sheet = Picture((0.0, 0.0), 1.0, big=reach / 220.0)
    low, high = 1.2 * min(at_mm, -0.3 * reach), 1.2 * max(at_mm, 0.3 * reach)
    _side(sheet, (low, high))
    tape = 90.0 * sheet.big
    sheet.line(np.array([[0.0, 0.0], [0.0, 1.3 * tape]]), "centre")
    if console:
        a, b = max(f.ends[0], low), min(f.ends[1], high)
        deck = min(f.deck, 0.4 * tape)
        sheet.line(np.array([[a, 5.0], [a, deck], [b, deck], [b, 5.0]]), "other-body")
        sheet.label((a + b) / 2, 0.4 * deck, "console")
    else:
        sheet.line(np.array([[at_mm, -30.0], [at_mm, 1.3 * tape]]), "centre")
    sheet.read((0.0, tape), (at_mm, tape), says)
    return sheet


def datum(f: Figures) -> Picture:
    """Return the car from above with a string across, front to the left."""
    sheet, half, sill = Picture((0.0, 0.0), 1.0, big=2.0), f.floor / 2, 560.0
    for side in (-1.0, 1.0):
        sheet.line(np.array([[-420.0, side * half], [620.0, side * half]]), "thin")
        low, high = sorted((side * sill, side * (sill + 70.0)))
        sheet.box((-420.0, low), (620.0, high), "ply")
        sheet.line(np.array([[0.0, low - 20.0], [0.0, high + 20.0]]), "cut")
        sheet.label(40.0, side * (sill - 60.0), "mark on the sill")
    sheet.line(np.array([[0.0, -sill], [0.0, sill]]), "centre")
    sheet.label(180.0, half + 120.0, "string across")
    sheet.label(430.0, 0.0, "tunnel")
    sheet.label(-330.0, 0.0, "front")
    return sheet


def top(f: Figures) -> Picture:
    """Return the tunnel under the string, seen from behind."""
    sheet = Picture((0.0, 0.0), 1.0)
    across(sheet, f)
    far = f.floor / 2 + 60.0
    sheet.line(np.array([[-far, 60.0], [far, 60.0]]), "centre")
    sheet.label(-far + 60.0, 74.0, "string")
    sheet.label(0.0, 20.0, "what does the finger touch here")
    return sheet


def knob_wide(f: Figures) -> Picture:
    """Return the knob's width, taken between two squares; drawn four times as large."""
    sheet, half = Picture((0.0, 0.0), 1.0), 2.0 * f.knob
    _lever(sheet, (0.0, -half - 40.0), (0.0, 0.0), 2.0 * half)
    for left in (-half - 10.0, half):
        sheet.box((left, -30.0), (left + 10.0, half + 24.0), "ply")
    sheet.label(0.0, -half - 20.0, "knob")
    sheet.read((-half, half + 12.0), (half, half + 12.0), "read at the square")
    return sheet


def knob_place(f: Figures, *, rear: bool, up: bool) -> Picture:
    """Return where the knob's middle is, along or above, in neutral or furthest back."""
    sheet = Picture((0.0, 0.0), 1.0)
    _side(sheet, (-70.0, max(300.0, f.rear[0] + 60.0)))
    foot = (f.neutral[0] + 30.0, 0.0)
    if rear:
        _lever(sheet, foot, f.neutral, f.knob, ghost=True)
    at = f.rear if rear else f.neutral
    _lever(sheet, foot, at, f.knob)
    sheet.line(np.array([[0.0, 0.0], [0.0, at[1] + 40.0]]), "centre")
    sheet.label(0.0, 40.0, "plumb over the datum")
    if up:
        sheet.read((at[0], 0.0), at, "read at the knob's middle", "up is plus")
    else:
        sheet.read((0.0, at[1]), at, "read at the knob's middle", "behind is plus")
    return sheet


def knob_aside(f: Figures, *, right: bool) -> Picture:
    """Return how far the knob goes to one side, seen from behind."""
    sheet = Picture((0.0, 0.0), 1.0)
    across(sheet, f)
    high, side = f.neutral[1], f.aside[1] if right else -f.aside[0]
    way = "right" if right else "left"
    _lever(sheet, (0.0, 0.0), (-side, high), f.knob, ghost=True)
    _lever(sheet, (0.0, 0.0), (side, high), f.knob)
    sheet.line(np.array([[0.0, 0.0], [0.0, high + 60.0]]), "centre")
    sheet.label(-1.6 * side, 0.45 * high, "middle of the car")
    sheet.read((0.0, high), (side, high), "read at the knob's middle", f"{way} is plus")
    return sheet


def console(f: Figures, *, wide: bool) -> Picture:
    """Return the console across the car: its deck's height, or its width."""
    sheet = Picture((0.0, 0.0), 1.0)
    across(sheet, f)
    half = f.width / 2
    outline = [[-half, -0.6 * f.height], [-half, f.deck], [half, f.deck], [half, -0.6 * f.height]]
    sheet.line(np.array(outline), "other-body")
    sheet.label(half, f.deck * 0.5, "bare wood")
    if wide:
        sheet.read((-half, f.deck + 6.0), (half, f.deck + 6.0), "outside to outside")
    else:
        sheet.read((0.0, 0.0), (0.0, f.deck), "top of the bare deck", "up is plus")
    return sheet
