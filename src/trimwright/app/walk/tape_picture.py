"""A drawing with a tape in it: how a tape is laid, and the tunnel across the car under it."""

from typing import Final

import numpy as np
from msgspec import Struct, field
from numpy.typing import NDArray

from trimwright.app.message import Area, Place, Stroke
from trimwright.app.screen import Screen
from trimwright.app.walk.message import PictureMessage, Taped

Floats = NDArray[np.float64]
METAL_MM, BLADE_MM, BEYOND_MM = 9.0, 7.0, 26.0  # as drawn
ROUND: Final = 3  # times the corners of an outline are cut


class Figures(Struct, frozen=True):
    """The figures a drawing is made with [mm]: those written, else those of the example."""

    height: float
    shoulder: float
    floor: float
    seats: float
    dash: tuple[float, float]
    knob: float
    neutral: tuple[float, float]
    rear: tuple[float, float]
    aside: tuple[float, float]
    carpet: tuple[float, float]
    deck: float
    width: float
    ends: tuple[float, float]
    station: float


class Picture(Screen):
    """A drawing with a tape in it, drawn `big` times as large where the drawing is of much car."""

    big: float = 1.0
    tape: list[Area] = field(default_factory=list)
    over_tape: list[Stroke] = field(default_factory=list)
    taped: Taped | None = None

    def box(self, low: Place, high: Place, hatch: str = "") -> None:
        """Draw an upright rectangle, hatched if so."""
        ring = np.array([low, (high[0], low[1]), high, (low[0], high[1])])
        if hatch == "ply":
            self.fill(ring, "ply")
        self.line(ring, "visible", closed=True)

    def read(self, a: Place, b: Place, says: str, plus: str = "") -> None:
        """Lay a tape from `a` to `b`, where it is read, with its dimension beside it."""
        start, end = np.array(a), np.array(b)
        long = float(np.linalg.norm(end - start)) or 1.0
        way = (end - start) / long
        aside = np.array([-way[1], way[0]])
        across = abs(way[0]) > abs(way[1])
        if (aside[1] if across else aside[0]) < 0:
            aside = -aside
        beyond, blade = BEYOND_MM * self.big, BLADE_MM * self.big * aside
        stop = end + way * beyond
        ring = np.array([start, stop, stop + blade, start + blade])
        self.tape.append(Area(fill="tape", points=self.places(ring)))
        self.over_tape.append(Stroke(pen="visible", points=self.places(ring), closed=True))
        for k, place in enumerate(np.arange(0.0, long + beyond, 10.0 * self.big)):
            foot = start + way * place
            tick = np.array([foot, foot + blade * (0.75 if k % 5 == 0 else 0.4)])
            self.over_tape.append(Stroke(pen="thin", points=self.places(tick), closed=False))
        off = -16.0 * self.big * aside
        line = np.array([start + off, end + off])
        for foot, head in ((start, line[0]), (end, line[1])):
            mark = np.array([foot, head + off * 0.3])
            self.over_tape.append(Stroke(pen="red", points=self.places(mark), closed=False))
        ends = self.places(line)
        middle = self.places(np.array([line.mean(axis=0)]))[0]
        edge = self.places(np.array([end + blade]))[0]
        self.taped = Taped(
            line=ends,
            across=across,
            figure_at=middle,
            read_at=edge,
            read_says=says,
            plus=plus,
        )

    def read_over(self, line: Floats, says: str) -> None:
        """Lay a tape along a line, left to right and read at its right end, its dimension above."""
        way = np.gradient(line, axis=0)
        out = np.stack([-way[:, 1], way[:, 0]], -1) / np.linalg.norm(way, axis=-1, keepdims=True)
        blade = np.concatenate([line, (line + BLADE_MM * out)[::-1]])
        self.tape.append(Area(fill="tape", points=self.places(blade)))
        self.over_tape.append(Stroke(pen="visible", points=self.places(blade), closed=True))
        above = line + 3.0 * BLADE_MM * out
        middle, end = above[len(above) // 2] + (0.0, 62.0), line[-1] + (64.0, 4.0)
        self.taped = Taped(
            line=self.places(above),
            across=True,
            figure_at=self.places(middle[None])[0],
            read_at=self.places(end[None])[0],
            read_says=says,
            plus="",
        )

    def places(self, points: Floats) -> tuple[Place, ...]:
        """Return points as the page takes them."""
        return tuple((round(x, 2), round(y, 2)) for x, y in self.points(points))

    def picture(self, says: str) -> PictureMessage:
        """Return the drawing as a message; the tape lies over all else."""
        view = self.message("", (0, 1), (0.0, 1.0, 0.0, 1.0))
        met = [p for one in (*view.strokes, *self.over_tape) for p in one.points]
        met += [p for one in (*view.areas, *self.tape) for p in one.points]
        met += () if self.taped is None else self.taped.line
        low, high = np.array(met).min(axis=0), np.array(met).max(axis=0)
        return PictureMessage(
            says=says,
            extent=(float(low[0]), float(low[1]), float(high[0]), float(high[1])),
            strokes=(*view.strokes, *self.over_tape),
            tape_strokes=len(self.over_tape),
            areas=(*view.areas, *self.tape),
            rings=view.rings,
            labels=view.labels,
            taped=self.taped,
        )


def smooth(points: list[Place]) -> Floats:
    """Return a line with its corners cut, again and again [Chaikin 1974]."""
    line = np.array(points)
    for _ in range(ROUND):
        near, far = 0.75 * line[:-1] + 0.25 * line[1:], 0.25 * line[:-1] + 0.75 * line[1:]
        inner = np.stack([near, far], axis=1).reshape(-1, 2)
        line = np.concatenate([line[:1], inner, line[-1:]])
    return line


def metal(sheet: Picture, line: Floats) -> None:
    """Draw sheet metal with its hatch below."""
    way = np.gradient(line, axis=0)
    below = np.stack([way[:, 1], -way[:, 0]], -1)
    below /= np.linalg.norm(below, axis=-1, keepdims=True)
    sheet.fill(np.concatenate([line, (line + METAL_MM * sheet.big * below)[::-1]]), "metal")
    sheet.line(line, "cut")


def outline(f: Figures) -> Floats:
    """Return the tunnel's outline across the car, left to right, its top at 0 [mm]."""
    half, foot, far = f.shoulder / 2, f.floor / 2, max(f.floor / 2 + 105.0, f.seats / 2 + 75.0)
    side = [(half * 0.85, 0.0), (half, -0.2 * f.height), (foot, -f.height), (far, -f.height)]
    return smooth([*((-x, z) for x, z in side[::-1]), (0.0, 0.0), *side])


def across(sheet: Picture, f: Figures) -> None:
    """Draw the tunnel across the car."""
    metal(sheet, outline(f))
    sheet.line(np.array([[0.0, -f.height], [0.0, 40.0]]), "centre")
