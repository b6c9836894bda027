"""Free places along an edge or a face of the console, and what is read there at a test fit."""

from collections.abc import Callable
from difflib import get_close_matches
from typing import Literal

from msgspec import Struct

from trimwright.build import ProbePlace
from trimwright.fit.source import Source
from trimwright.quantities import Unit, shown_with_unit

Way = Literal["along_mm", "across_mm", "up_mm"]
WAYS: dict[Way, tuple[str, str, str, str]] = {
    "along_mm": ("along the car", "ahead", "behind", "the datum"),
    "across_mm": ("across the car", "left", "right", "on the middle"),
    "up_mm": ("up", "below", "up", "level with the datum"),
}
EXAMPLES: dict[Way, str] = {"along_mm": "420 behind", "across_mm": "40 left", "up_mm": "120 up"}
NOTHING_MM = 0.05  # below any figure shown
ROUNDING_MM = 0.05  # a place written in inches to 1/64 may lie so far past an end


class NotThere(Struct, frozen=True):
    """Why the words of a probe mean nothing of this build, and what could have been said."""

    probe: str
    says: str
    known: tuple[str, ...] = ()


class ProbedEdge(Struct, frozen=True, eq=False):
    """An edge or a face that can be probed anywhere along it.

    Attributes
    ----------
    on, to : str
        The edge, and what it is read to: 'left wall', 'seat'.
    name : str
        As a builder writes it: 'left wall to seat'.
    words : frozenset of str
        All words by which the edge may be called.
    opposite : frozenset of str
        All words by which what lies opposite may be called.
    way : str
        Along which way of the car it runs.
    span : tuple of float
        From where to where [mm].
    at : callable
        Gives the source of the reading at a place, or in words why there is none.
    more : tuple of str
        Ways that may be said as well.
    """

    on: str
    to: str
    name: str
    words: frozenset[str]
    opposite: frozenset[str]
    way: Way
    span: tuple[float, float]
    at: Callable[[ProbePlace, str], Source | str]
    more: tuple[Way, ...] = ()


def told(way: Way, place_mm: float, unit: Unit) -> str:
    """Return a place in words, as it can be written in a build file.

    Examples
    --------
    >>> told("along_mm", -60.0, "mm"), told("along_mm", 0.0, "mm"), told("up_mm", 40.0, "mm")
    ('60 mm ahead', 'the datum', '40 mm up')
    """
    _, before, after, none = WAYS[way]
    if abs(place_mm) < NOTHING_MM:
        return none
    figure = shown_with_unit(abs(place_mm), unit, step="fine").replace("\u2009", " ")
    return f"{figure} {before if place_mm < 0 else after}"


def source_at(
    probe: str, place: ProbePlace, touches: str, edges: tuple[ProbedEdge, ...], unit: Unit
) -> Source | NotThere:
    """Return what is read at a free place, or why nothing can be.

    Parameters
    ----------
    probe : str
        The words as they were written.
    place : ProbePlace
        The same, taken apart.
    touches : str
        What touches there, or empty; it settles what is meant where the edge alone does not.
    edges : tuple of ProbedEdge
        Of the build.
    unit : {'mm', 'in'}
        For what is said.
    """
    edge = _meant(probe, place.what, touches, edges)
    if isinstance(edge, NotThere):
        return edge
    wrong = _wrong_way(edge, place) or _outside(edge, place, unit)
    found = wrong or edge.at(place, probe)
    return NotThere(probe, found) if isinstance(found, str) else found


def _meant(
    probe: str, what: str, touches: str, edges: tuple[ProbedEdge, ...]
) -> ProbedEdge | NotThere:
    """Return the edge that some words mean."""
    words = _words(what)
    fits = [edge for edge in edges if words <= edge.words | edge.opposite]
    if not fits:
        names = [edge.name for edge in edges]
        near = get_close_matches(what.lower()[:60], names, n=1, cutoff=0.5)
        says = f"no edge of this build is called '{what}'"
        says += f"; the nearest is '{near[0]}'" if near else ""
        return NotThere(probe, says, tuple(names))
    told_what = _words(touches) & frozenset().union(*(edge.opposite for edge in edges))
    left = [edge for edge in fits if told_what <= edge.opposite]
    if len(left) == 1:
        return left[0]
    if not left:
        no = " or ".join(f"'{edge.name}'" for edge in fits)
        return NotThere(probe, f"{no} does not touch '{touches}'", tuple(e.name for e in edges))
    names = [edge.name for edge in left]
    return NotThere(probe, f"'{what}' could mean each of: {'; '.join(names)}", tuple(names))


def _words(text: str) -> frozenset[str]:
    """Return the words of a text that mean something."""
    return frozenset(text.lower().replace(",", " ").split()) - {"the", "a", "of"}


def _wrong_way(edge: ProbedEdge, place: ProbePlace) -> str:
    """Return what is wrong with the ways in which a place is told, if anything."""
    if getattr(place, edge.way) is None:
        return (
            f"'{edge.name}' is probed at a place {WAYS[edge.way][0]}, such as:"
            f" {edge.name} at {EXAMPLES[edge.way]}"
        )
    for way, words in WAYS.items():
        if way not in (edge.way, *edge.more) and getattr(place, way) is not None:
            return f"'{edge.name}' is not probed at a place {words[0]}"
    return ""


def _outside(edge: ProbedEdge, place: ProbePlace, unit: Unit) -> str:
    """Return that a place lies beyond the ends of an edge, if it does."""
    start, end = edge.span
    if start - ROUNDING_MM <= getattr(place, edge.way) <= end + ROUNDING_MM:
        return ""
    ends = f"{told(edge.way, start, unit)} to {told(edge.way, end, unit)}"
    return f"'{edge.name}' can be probed from {ends} only"
