"""Every edge and face of a console that can be probed at a free place, with what is opposite."""

from collections.abc import Callable, Iterator

import numpy as np
from numpy.typing import NDArray

from trimwright.build import Build, ProbePlace
from trimwright.car import SeatSide, Tunnel, seats
from trimwright.fit.body import body_gaps
from trimwright.fit.daylight import Over, daylight_at
from trimwright.fit.face_place import (
    UnderDash,
    beside_seat,
    face_line,
    on_face,
    panel_at,
    sliced,
)
from trimwright.fit.free_place import ProbedEdge, Way, told
from trimwright.fit.gap import Gap
from trimwright.fit.handbrake import handbrake_gap
from trimwright.fit.pair import own_pieces, resting
from trimwright.fit.shell import Patch, decks, side_of, walls
from trimwright.fit.source import Scene, Source
from trimwright.parts import Carcass, LowerEdge, Panel

Floats = NDArray[np.float64]
ACROSS = 3  # points over the deck's width where no place across was said
WALL, DECK = frozenset({"wall"}), frozenset({"deck", "nose"})
OVER: tuple[tuple[Over, str, frozenset[str]], ...] = (
    ("carpet", "{} daylight", frozenset({"daylight", "carpet", "to", "over"})),
    ("tunnel", "{} to tunnel", frozenset({"tunnel", "metal", "bare", "to", "over"})),
)


def probed_edges(
    build: Build, carcass: Carcass, tunnel: Tunnel, scene: Scene
) -> tuple[ProbedEdge, ...]:
    """Return all edges and faces that can be probed.

    Parameters
    ----------
    build : Build
        As it stands at the test fit.
    carcass : Carcass
        The console.
    tunnel : Tunnel
        Under it.
    scene : Scene
        The nominal row, with the console at rest.
    """
    return (
        *_lower_edges(carcass, tunnel, scene),
        *_beside_seats(carcass, scene),
        *_under_dash(carcass, scene),
        *_to_anything_else(build, carcass, scene),
    )


def _gap(name: str, says: str, between: tuple[str, str]) -> Gap:
    """Return the gap of a place: nothing is wanted of it."""
    return Gap(name, says, between, 0.0, ())


def _lower_edges(carcass: Carcass, tunnel: Tunnel, scene: Scene) -> Iterator[ProbedEdge]:
    """Yield the lower edges of walls and bulkheads, over the carpet and over the metal."""
    groups: dict[str, list[LowerEdge]] = {}
    for edge in carcass.lower_edges:
        side = side_of(carcass.panel(edge.panel))
        on = f"{side} wall" if side else f"{edge.panel} bulkhead"
        groups.setdefault(on, []).append(edge)
    for on, edges in groups.items():
        way: Way = "along_mm" if on.endswith("wall") else "across_mm"
        axis = 0 if way == "along_mm" else 1
        ends = [edge.outer[[0, -1], axis] for edge in edges]
        span = (float(np.min(ends)), float(np.max(ends)))
        words = frozenset((*on.lower().split(), "lower", "edge"))
        for over, name, opposite in OVER:

            def at(
                place: ProbePlace,
                probe: str,
                edges: list[LowerEdge] = edges,
                over: Over = over,
                axis: int = axis,
            ) -> Source | str:
                where = place.along_mm if axis == 0 else place.across_mm
                edge, point = _on_line(edges, axis, float(where or 0.0))
                says = f"straight up from the {over} to the lower edge outside, at that place"
                gap = _gap(probe, says, (edge.panel, over))
                found = daylight_at(gap, point, edge.panel, tunnel, scene, over)
                return found or f"no tunnel was read under '{probe}'"

            yield ProbedEdge(on, over, name.format(on), words, opposite, way, span, at=at)


def _on_line(edges: list[LowerEdge], axis: int, where: float) -> tuple[LowerEdge, Floats]:
    """Return the edge that reaches a place, and its outer line's point there."""

    def beyond(edge: LowerEdge) -> float:
        run = edge.outer[:, axis]
        return max(float(run[0]) - where, where - float(run[-1]), 0.0)

    edge = min(edges, key=beyond)
    run = edge.outer[:, axis]
    return edge, np.array([np.interp(where, run, edge.outer[:, k]) for k in range(3)])


def _beside_seats(carcass: Carcass, scene: Scene) -> Iterator[ProbedEdge]:
    """Yield each wall beside its seat."""
    for seat in seats(scene.world):
        panels = walls(carcass, seat.side)
        start, end = float(seat.start[0]), float(seat.end[0])
        ends = np.concatenate([panel.outer_points()[:, 0] for panel in panels])
        span = (max(start, float(ends.min())), min(end, float(ends.max())))
        if span[0] >= span[1]:
            continue
        name = f"{seat.side} wall to seat"

        def at(
            place: ProbePlace,
            probe: str,
            seat: SeatSide = seat,
            panels: tuple[Panel, ...] = panels,
        ) -> Source | str:
            x = float(place.along_mm or 0.0)
            panel = panel_at(panels, x)
            if panel is None:
                return f"no wall stands at '{probe}'"
            low, high = face_line(panel, x, 2)
            if place.up_mm is not None and not low <= place.up_mm <= high:
                ends = " to ".join(told("up_mm", z, scene.world.build.unit) for z in (low, high))
                return f"the wall reaches from {ends} there"
            says = "sideways from the wall to the seat, at that place"
            gap = _gap(probe, says, (panel.name, f"{seat.side} seat"))
            found = beside_seat(gap, seat, panel, x, place.up_mm)
            return found or f"the seat's inner edge is not known at the height of '{probe}'"

        words = WALL | {seat.side, "face"}
        to = frozenset({"seat", "to"})
        yield ProbedEdge(
            f"{seat.side} wall", "seat", name, words, to, "along_mm", span, at, ("up_mm",)
        )


def _under_dash(carcass: Carcass, scene: Scene) -> Iterator[ProbedEdge]:
    """Yield the deck under the dash."""
    under = scene.under
    panels = decks(carcass)
    x = np.concatenate([panel.outer_points()[:, 0] for panel in panels])
    if under is None:
        return
    span = (max(under.span[0], float(x.min())), min(under.span[1], float(x.max())))
    if span[0] >= span[1]:
        return

    def at(place: ProbePlace, probe: str) -> Source | str:
        x = float(place.along_mm or 0.0)
        panel = panel_at(panels, x)
        if panel is None:
            return f"no deck lies at '{probe}'"
        left, right = face_line(panel, x, 1)
        if place.across_mm is not None and not left <= place.across_mm <= right:
            ends = (told("across_mm", y, scene.world.build.unit) for y in (left, right))
            return f"the deck reaches from {' to '.join(ends)} there"
        y = np.linspace(left, right, ACROSS) if place.across_mm is None else [place.across_mm]
        points = on_face(panel, x, np.array(y), 1)
        known = under.known(points[:, 0], points[:, 1])
        if not known.any():
            return f"the dash is not known over '{probe}'"
        says = "straight up from the deck to the dash's underside, at that place"
        return UnderDash(_gap(probe, says, (panel.name, "dash")), Patch(panel, points[known]))

    to = frozenset({"dash", "to"})
    yield ProbedEdge("deck", "dash", "deck to dash", DECK, to, "along_mm", span, at, ("across_mm",))


def _to_anything_else(build: Build, carcass: Carcass, scene: Scene) -> Iterator[ProbedEdge]:
    """Yield walls and deck against the handbrake and every other body of the car."""
    others: list[tuple[str, Callable[..., Source | None]]] = [
        (body.name, lambda own, number=k: body_gaps(build, own, scene)[number])
        for k, body in enumerate(build.car.bodies)
    ]
    if build.car.handbrake:
        others.append(("handbrake", lambda own: handbrake_gap(build, own, scene)))
    owns = own_pieces(carcass, scene.world) if others else ()
    faces = [("deck", DECK, decks(carcass))]
    faces += [(f"{side} wall", WALL | {side}, walls(carcass, side)) for side in ("left", "right")]
    for on, words, panels in faces:
        x = np.concatenate([panel.outer_points()[:, 0] for panel in panels])
        span = (float(x.min()), float(x.max()))
        for to, gap_of in others:

            def at(
                place: ProbePlace,
                probe: str,
                panels: tuple[Panel, ...] = panels,
                gap_of: Callable[..., Source | None] = gap_of,
            ) -> Source | str:
                x = float(place.along_mm or 0.0)
                panel = panel_at(panels, x)
                some = sliced(owns, panel, x) if panel is not None else ()
                return (
                    gap_of(resting(some, scene)) if some else None
                ) or f"no wood stands at '{probe}'"

            opposite = frozenset((*to.lower().split(), "to"))
            yield ProbedEdge(on, to, f"{on} to {to}", words, opposite, "along_mm", span, at=at)
