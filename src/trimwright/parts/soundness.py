"""Designs that cannot be made, found before and after the scribe."""

from functools import lru_cache

import numpy as np

from trimwright.parts.bulkhead import BulkheadPlace
from trimwright.parts.frame import Array
from trimwright.parts.plan import OpeningPlan, Plan
from trimwright.parts.scribe import Line
from trimwright.parts.shape import Shape, shape
from trimwright.parts.side import SideName
from trimwright.parts.skin import Skin
from trimwright.parts.unbuildable import Unbuildable, place, shown
from trimwright.parts.wall import WallPlace

SIDES: tuple[SideName, SideName] = ("left", "right")
LEAST_PIECE = 1.0  # mm
MOST_LEAN_DEG = 45.0  # steeper walls are no walls


def design_faults(plan: Plan) -> tuple[Unbuildable, ...]:
    """Return why a plan cannot be made, before the tunnel is looked at.

    Parameters
    ----------
    plan : Plan
        Plain figures.

    Returns
    -------
    tuple of Unbuildable
        Empty if nothing was found.
    """
    faults = _figure_faults(plan)
    if faults:
        return tuple(faults)
    planes = shape(plan)
    crossed = _plane_faults(plan.planes())
    if crossed:
        return crossed
    return (*_bulkhead_faults(planes), *_opening_faults(planes))


def _figure_faults(plan: Plan) -> list[Unbuildable]:
    """Figures that make no sense alone."""
    found = list[Unbuildable]()

    def refuse(key: str, says: str) -> None:
        found.append(Unbuildable(f"console.{key}", says))

    if plan.end - plan.start < plan.thickness:
        refuse("to", f"the console ends at {place(plan.end)}, before it begins")
    for key, points in (("deck", plan.deck), ("widths", plan.left), ("widths", plan.right)):
        x = [point[0] for point in points]
        if len(x) < 2 or min(np.diff(x)) < LEAST_PIECE:  # noqa: PLR2004  two ends
            refuse(key, "needs two places or more, from front to rear and 1 mm apart or more")
    if abs(plan.lean_deg) > MOST_LEAN_DEG:
        refuse("walls.lean", f"a lean of {shown(plan.lean_deg)} degrees is past 45")
    sheets = {plan.thickness, *(t for _, t in plan.built_thickness)}
    if min(sheets) <= 0:
        refuse("sheet", "the sheet has no thickness")
    return [*found, *_joint_faults(plan, min(sheets))]


def _joint_faults(plan: Plan, thinnest: float) -> list[Unbuildable]:
    """Find joints without a depth, or deeper than the sheet."""
    housed = any(b.joint == "housing" for b in plan.bulkheads)
    key = "console.walls.joint depth"
    if plan.deck_joint == "butt" and not housed:
        return []
    if plan.joint_depth <= 0:
        return [Unbuildable(key, "a rebate or housing needs a depth above 0")]
    if plan.joint_depth >= thinnest:
        says = f"{shown(plan.joint_depth)} mm goes through the {shown(thinnest)} mm sheet"
        return [Unbuildable(key, says)]
    return []


@lru_cache(maxsize=64)
def _plane_faults(bare: Plan) -> tuple[Unbuildable, ...]:
    """Pieces that vanish, and sides that cross, inside the sheet; bare: a plan of planes alone."""
    planes, found = shape(bare), list[Unbuildable]()
    lines = (planes.deck.line(h)[:, 0] for h in (planes.wall_top, 0.0, planes.deck_thickness))
    if any(np.any(np.diff(x) <= 0) for x in lines):
        says = "two kinks lie closer than the sheet's thickness asks"
        found.append(Unbuildable("console.deck", says))
    for name in SIDES:
        t = planes.wall_thickness(name)
        if any(np.any(np.diff(planes.side(name).bounds(w)) <= 0) for w in (-planes.lip, 0.0, t)):
            found.append(
                Unbuildable(
                    "console.widths", f"two changes of the {name} wall lie closer than its sheet"
                )
            )
    if not found:
        x = np.unique(
            np.concatenate([planes.deck.line(0.0)[:, 0], *(_ends(planes, n) for n in SIDES)])
        )
        z = planes.deck.height(x) + planes.lip
        inner = sum((planes.side(n).reach(x, z, planes.wall_thickness(n)) for n in SIDES), 0.0 * x)
        if inner.min() <= 0:
            worst = float(x[int(inner.argmin())])
            found.append(
                Unbuildable("console.widths", f"the walls cross each other at {place(worst)}")
            )
    return tuple(dict.fromkeys(found))


def _ends(planes: Shape, name: SideName) -> Array:
    """Where the walls of a side begin and end inside."""
    return planes.side(name).bounds(planes.wall_thickness(name))


def _bulkhead_faults(planes: Shape) -> list[Unbuildable]:
    """Bulkheads outside the console, in one another, or on a mitre of the walls."""
    plan, found = planes.plan, list[Unbuildable]()
    crosses = [BulkheadPlace(planes, b) for b in plan.bulkheads]
    for i, cross in enumerate(crosses):
        key = f"console.bulkheads.{i}.at"
        if cross.front < plan.start or cross.rear > plan.end:
            half = cross.thickness / 2
            says = f"stands outside the console; from {place(plan.start + half)} to "
            found.append(Unbuildable(key, f"{says}{place(plan.end - half)} it is inside"))
        elif cross.plan.joint == "housing" and _on_mitre(planes, cross):
            found.append(
                Unbuildable(key, "its housing would lie across a mitre of the walls; move it off")
            )
        found += [
            Unbuildable(key, f"stands in the bulkhead {other.plan.name}")
            for other in crosses[:i]
            if abs(cross.plan.at - other.plan.at) < (cross.thickness + other.thickness) / 2
        ]
    return found


def _on_mitre(planes: Shape, cross: BulkheadPlace) -> bool:
    """Tell whether a housing meets the place where two walls meet."""
    for name in SIDES:
        side, t = planes.side(name), planes.wall_thickness(name)
        meets = [side.bounds(w)[1:-1] for w in (t, t - planes.plan.joint_depth)]
        low, high = np.minimum(*meets), np.maximum(*meets)
        if np.any((high >= cross.front) & (low <= cross.rear)):
            return True
    return False


def _opening_faults(planes: Shape) -> list[Unbuildable]:
    """Find openings that are no hole in one deck panel."""
    found = []
    for i, opening in enumerate(planes.plan.openings):
        key = f"console.openings.{i}"
        if min(opening.long, opening.wide) <= 0 or opening.corner < 0:
            found.append(Unbuildable(key, "has no size"))
        elif 2 * opening.corner > min(opening.long, opening.wide) + 1e-9:
            says = f"a corner of {shown(opening.corner)} mm is more than half of a side"
            found.append(Unbuildable(f"{key}.corner", says))
        elif not _inside_deck(planes, opening):
            found.append(Unbuildable(f"{key}.at", "runs out of the flat deck panel it lies in"))
        elif any(_touch(planes, opening, other) for other in planes.plan.openings[:i]):
            found.append(Unbuildable(f"{key}.at", "runs into another opening"))
    return found


def _inside_deck(planes: Shape, opening: OpeningPlan) -> bool:
    """Tell whether an opening lies wholly within one deck panel, clear of its joints."""
    x, slopes = planes.deck.line(0.0)[:, 0], planes.deck.slopes
    piece = int(np.searchsorted(x, opening.at, side="right")) - 1
    if not 0 <= piece < len(slopes):
        return False
    along = float(np.hypot(1.0, slopes[piece]))
    reach = opening.long / 2 / along
    sunk = planes.deck_thickness * abs(float(slopes[piece])) / along
    ends = [planes.deck.line(h)[piece : piece + 2, 0] for h in (0.0, planes.deck_thickness)]
    front, rear = max(float(e[0]) for e in ends), min(float(e[1]) for e in ends)
    if opening.at - reach - sunk <= front or opening.at + reach + sunk >= rear:
        return False
    places = np.linspace(opening.at - reach - sunk, opening.at + reach + sunk, 5)
    room = []
    for name in SIDES:
        inside = max(planes.deck_side(name), planes.wall_thickness(name))
        for h in (0.0, planes.deck_thickness):
            half = planes.side(name).reach(places, planes.deck.height(places, h), inside)
            off = opening.off_middle if name == "right" else -opening.off_middle
            room.append(float(half.min()) - off - opening.wide / 2)
    return min(room) > 0


def _touch(planes: Shape, one: OpeningPlan, other: OpeningPlan) -> bool:
    """Tell whether two openings' rectangles overlap."""
    apart = abs(one.at - other.at) * float(np.hypot(1.0, np.abs(planes.deck.slopes).min()))
    across = abs(one.off_middle - other.off_middle)
    return apart <= (one.long + other.long) / 2 and across <= (one.wide + other.wide) / 2


def scribe_faults(
    walls: tuple[WallPlace, ...],
    crosses: tuple[BulkheadPlace, ...],
    lines: tuple[Line, ...],
    skin: Skin,
) -> tuple[Unbuildable, ...]:
    """Return why a plan cannot be made over this tunnel.

    Parameters
    ----------
    walls, crosses : tuple
        The upright panels.
    lines : tuple of Line
        Their lower edges, walls first.
    skin : Skin
        The covered tunnel.

    Returns
    -------
    tuple of Unbuildable
        Empty if nothing was found.
    """
    planes = walls[0].shape
    found = list(_deck_faults(planes, skin))
    for place_, line in zip(walls, lines, strict=False):
        front, rear = place_.ends(0.0)
        x = np.clip(line.run, front, rear)
        room = planes.deck.height(x, max(planes.deck_thickness, planes.wall_top)) - np.maximum(
            line.height(x, 0.0), line.height(x, place_.thickness)
        )
        if room.min() <= 0:
            name = planes.wall_names(place_.name)[place_.piece]
            where = place(float(x[int(room.argmin())]))
            found.append(
                Unbuildable("console.deck", f"the {name}'s scribe meets the deck at {where}")
            )
    for i, (cross, line) in enumerate(zip(crosses, lines[len(walls) :], strict=True)):
        top = min(cross.top(w) for w in (0.0, cross.thickness))
        middle = np.abs(line.run) <= float(cross.half("right", 0.0, np.asarray(top)))
        high = max(float(line.outer[middle].max()), float(line.inner[middle].max()))
        if top - high <= 0:
            key = f"console.bulkheads.{i}.at"
            found.append(Unbuildable(key, "the tunnel leaves no height for this bulkhead"))
    return tuple(dict.fromkeys(found))


def _deck_faults(planes: Shape, skin: Skin) -> list[Unbuildable]:
    """Find a deck whose underside the covered tunnel passes through."""
    t = planes.deck_thickness
    lowest = planes.deck.line(t)[:, 1].min()
    x, y, z = skin.points[skin.points[..., 2] >= lowest].T  # no other can reach the underside
    inside = (x >= planes.plan.start) & (x <= planes.plan.end)
    for name in SIDES:
        side = planes.side(name)
        inside &= side.sign * y < side.reach(x, z, planes.wall_thickness(name))
    room = np.where(inside, planes.deck.height(x, t) - z, np.inf)
    if room.min(initial=np.inf) > 0:
        return []
    where = place(float(x[int(room.argmin())]))
    says = f"its underside lies {shown(-float(room.min()))} mm in the covered tunnel at {where}"
    return [Unbuildable("console.deck", says)]
