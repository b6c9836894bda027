"""Where the tape goes on a section read point by point, and on a carpet under weights."""

import numpy as np

from trimwright.app.walk.measuring_picture import carpet_under
from trimwright.app.walk.tape_picture import Figures, Picture, across, outline

LATH_MM = 11.0  # thick, as drawn


def half_width(f: Figures, share: float, side: str) -> Picture:
    """Return a half width read along a lath, at a share of the height below the top."""
    sheet, sign = Picture((0.0, 0.0), 1.0), 1.0 if side == "right" else -1.0
    across(sheet, f)
    down = share * f.height
    right = outline(f)
    right = right[(right[:, 0] > 0) & (right[:, 1] > -f.height)]
    wide = float(np.interp(down, -right[:, 1], right[:, 0]))
    ends = sorted((-sign * f.shoulder / 4, sign * (wide + 50.0)))
    sheet.box((ends[0], 0.0), (ends[1], LATH_MM), "ply")
    sheet.label(-sign * (0.5 * f.shoulder + 22.0), 26.0, "lath, level")
    foot = sorted((sign * wide, sign * (wide + 10.0)))
    sheet.box((foot[0], -down), (foot[1], 132.0), "ply")
    sheet.line(np.array([[0.0, 0.0], [0.0, 132.0]]), "centre")
    sheet.read((0.0, 112.0), (sign * wide, 112.0), "read at the square", f"{side} is plus")
    return sheet


def girth(f: Figures) -> Picture:
    """Return the tape laid over the tunnel, from floor to floor."""
    sheet = Picture((0.0, 0.0), 1.0)
    across(sheet, f)
    line = outline(f)
    foot = f.floor / 2
    sheet.read_over(line[np.abs(line[:, 0]) <= foot], "read at the floor")
    return sheet


def below_string(f: Figures) -> Picture:
    """Return the tunnel's top below the string."""
    sheet = Picture((0.0, 0.0), 1.0)
    across(sheet, f)
    far = f.floor / 2 + 60.0
    sheet.line(np.array([[-far, 130.0], [far, 130.0]]), "centre")
    sheet.label(-far + 60.0, 144.0, "string, level")
    sheet.read((0.0, 0.0), (0.0, 130.0), "read at the string", "down is plus")
    return sheet


def pressed(f: Figures, weight: str) -> Picture:
    """Return the carpet under a lath with a weight on it."""
    return carpet_under(
        f, 0.5 * (f.carpet[0] + f.carpet[1]), f"lath with {weight} on it", "read here"
    )
