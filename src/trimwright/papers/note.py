"""Words beside lines: notes that are moved until none is in another's way."""

import math
from collections.abc import Iterable
from itertools import pairwise

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.drawing import (
    Box,
    Circle,
    Element,
    Fill,
    Line,
    Path,
    Point,
    Setting,
    Text,
    points_of,
    text_box,
    text_corners,
)

Floats = NDArray[np.float64]
PAD_MM = 0.5
STEP_MM = 2.0
NEAR_RINGS, RINGS = 40, 90  # steps away from its place that room is looked for: off lines, at all
TURNS = 16
DOT_MM = 4.0

Area = tuple[float, float, float, float]  # left, top, right, bottom [mm]


class Note(Struct, frozen=True):
    """Lines of words that stay together; `near` is the place they speak of, if it is drawn.

    A `firm` note minds no lines, only other words: a figure of a dimension stays on its line.
    """

    texts: tuple[Text, ...]
    near: Point | None = None
    firm: bool = False

    @property
    def area(self) -> Area:
        """Rectangle that the words take [mm]."""
        return around(tuple(corner for text in self.texts for corner in text_corners(text)))

    def moved(self, dx: float, dy: float) -> "Note":
        """Return the note elsewhere; what it speaks of stays."""
        texts = tuple(replace(t, at=(t.at[0] + dx, t.at[1] + dy)) for t in self.texts)
        return Note(texts, self.near, self.firm)

    def shifted(self, dx: float, dy: float) -> "Note":
        """Return the note with what it speaks of elsewhere."""
        near = None if self.near is None else (self.near[0] + dx, self.near[1] + dy)
        return Note(self.moved(dx, dy).texts, near, self.firm)


def note(
    at: Point,
    words: str,
    width_mm: float,
    setting: Setting | None = None,
    near: Point | None = None,
) -> Note:
    """Return words wrapped to a width from their top left corner.

    Examples
    --------
    >>> [text.words for text in note((0.0, 0.0), "the nose hits", 15.0).texts]
    ['the nose', 'hits']
    """
    drawn, _ = text_box(at, words, width_mm, setting or Setting())
    return Note(tuple(one for one in drawn if isinstance(one, Text)), near)


def around(points: tuple[Point, ...]) -> Area:
    """Return the level rectangle around points."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def into(area: Area, box: Box) -> Point:
    """Return the least move that brings a rectangle inside a box, or against its left or top."""
    dx = min(0.0, box.right - area[2])
    dy = min(0.0, box.bottom - area[3])
    return (
        dx if area[0] + dx >= box.x else box.x - area[0],
        dy if area[1] + dy >= box.y else box.y - area[1],
    )


def settled(
    notes: tuple[Note, ...], taken: tuple[Area, ...], lines: Floats, box: Box
) -> tuple[Note, ...]:
    """Return notes inside a box, each as near to its place as leaves room for all before it.

    Parameters
    ----------
    notes : tuple of Note
        The most needful first.
    taken : tuple of Area
        Where no words may stand.
    lines : ndarray, shape (n, 4)
        Where words stand badly, and stand all the same where there is no other room nearby.
    box : Box
        Where the notes have to be [mm].

    Raises
    ------
    ValueError
        If a note finds no room: a page must not lose words in silence.
    """
    hard = np.array(taken, dtype=np.float64).reshape(-1, 4)
    placed = []
    for one in notes:
        both = hard if one.firm else np.concatenate([hard, lines])
        found = _free(one, both, box, NEAR_RINGS)
        found = found or _free(one, hard, box, RINGS)
        if found is None:
            words = " ".join(text.words for text in one.texts)
            raise ValueError(f"box must have room for the words {words!r}")
        hard = np.concatenate([hard, [found.area]])
        placed.append(found)
    return tuple(placed)


def _free(one: Note, areas: Floats, box: Box, rings: int) -> Note | None:
    """Return a note at the nearest place that is free, None if there is none in reach."""
    start = one.area
    for ring in range(rings):
        for turn in range(TURNS if ring else 1):
            angle = 2 * math.pi * turn / TURNS
            dx, dy = ring * STEP_MM * math.sin(angle), -ring * STEP_MM * math.cos(angle)
            area = (start[0] + dx, start[1] + dy, start[2] + dx, start[3] + dy)
            more = into(area, box)
            by = (dx + more[0], dy + more[1])
            area = (start[0] + by[0], start[1] + by[1], start[2] + by[0], start[3] + by[1])
            if _clear(area, areas):
                return one.moved(*by)
    return None


def _clear(area: Area, areas: Floats) -> bool:
    """Return whether a rectangle keeps its distance from all others."""
    left, top, right, bottom = area
    beside = (right + PAD_MM <= areas[:, 0]) | (areas[:, 2] + PAD_MM <= left)
    above = (bottom + PAD_MM <= areas[:, 1]) | (areas[:, 3] + PAD_MM <= top)
    return bool((beside | above).all())


def ground(notes: tuple[Note, ...], lines: Floats, kept: Floats) -> tuple[Fill, ...]:
    """Return a patch of bare paper under each note that lines run through.

    Parameters
    ----------
    notes : tuple of Note
        Where they have settled.
    lines, kept : ndarray, shape (n, 4)
        What may be broken for words, and what may not: there a note stays without.
    """
    struck = [one for one in notes if not _clear(one.area, lines) and _clear(one.area, kept)]
    return tuple(Fill(text_corners(text), tone="paper") for one in struck for text in one.texts)


def strokes(elements: Iterable[Element]) -> Floats:
    """Return small rectangles along lines, in which words would be struck through, (n, 4) [mm]."""
    ends: list[tuple[Point, Point]] = []
    for one in elements:
        if isinstance(one, Line):
            ends += pairwise((*one.points, one.points[0]) if one.closed else one.points)
        elif isinstance(one, Path):
            ends += pairwise(points_of(one, DOT_MM / 4))
        elif isinstance(one, Circle):
            (x, y), r = one.centre, one.radius
            angles = [2 * math.pi * k / TURNS for k in range(TURNS + 1)]
            ends += pairwise([(x + r * math.cos(t), y + r * math.sin(t)) for t in angles])
    if not ends:
        return np.empty((0, 4))
    p, q = np.array(ends).transpose(1, 0, 2)
    count = np.maximum(1, np.ceil(np.hypot(*(q - p).T) / DOT_MM)).astype(np.int64)
    whole = np.repeat(np.arange(len(count)), count)
    first = np.arange(len(whole)) - np.repeat(np.cumsum(count) - count, count)
    a, b = (p[whole] + (q - p)[whole] * ((first + k) / count[whole])[:, None] for k in (0, 1))
    return np.concatenate([np.minimum(a, b), np.maximum(a, b)], axis=1)


def areas_of(elements: tuple[Element, ...]) -> tuple[Area, ...]:
    """Return the rectangles that the words among elements take."""
    return tuple(around(text_corners(one)) for one in elements if isinstance(one, Text))
