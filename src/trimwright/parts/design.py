"""A console as the builder wrote it, turned into a plan and a carcass."""

from functools import lru_cache
from typing import Literal

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from trimwright.build import AsBuilt, Build, Bulkhead, Console, Sheet
from trimwright.car import Tunnel
from trimwright.parts.carcass import Carcass, carcass, faults, refused
from trimwright.parts.frame import Array, fixed
from trimwright.parts.plan import BuiltHeight, BulkheadPlan, OpeningPlan, Plan
from trimwright.parts.skin import Skin
from trimwright.parts.unbuildable import Unbuildable
from trimwright.stock import sheet, thickness, tilt

SAW = "jigsaw"
State = Literal["designed", "as it is"]


class Drawn(Struct, frozen=True):
    """A plan, what stops it, and what was taken for granted."""

    plan: Plan
    faults: tuple[Unbuildable, ...]
    notes: tuple[str, ...]


def console(build: Build, tunnel: Tunnel, state: State = "as it is") -> Carcass:
    """Return the carcass of a build's console at its design pose.

    Parameters
    ----------
    build : Build
        A build with a console.
    tunnel : Tunnel
        The car's tunnel.
    state : {'as it is', 'designed'}
        With what was trimmed and measured on finished panels, or as first drawn.

    Returns
    -------
    Carcass
        With `unbuildable` filled, and no panels, if the design cannot be made.

    Raises
    ------
    ValueError
        If the build has no console.
    """
    if build.console is None:
        raise ValueError("build must have a console, got none")
    drawn = _drawn(build.console, state)
    if drawn.faults:
        return refused(drawn.plan, drawn.faults)
    plan, skin, notes = _laid(build, tunnel, drawn.plan)
    made = carcass(plan, skin)
    return replace(made, notes=(*drawn.notes, *notes, *made.notes))


def buildable(build: Build, tunnel: Tunnel) -> bool:
    """Return whether a build's console can be made of sheet; its panels are not made for it.

    Raises
    ------
    ValueError
        If the build has no console.
    """
    if build.console is None:
        raise ValueError("build must have a console, got none")
    drawn = _drawn(build.console, "as it is")
    if drawn.faults:
        return False
    plan, skin, _ = _laid(build, tunnel, drawn.plan)
    return not faults(plan, skin)


def _laid(build: Build, tunnel: Tunnel, plan: Plan) -> tuple[Plan, Skin, tuple[str, ...]]:
    """Return the plan over the floor, what its edges follow, and what was not known of it."""
    thick, notes = covering_thickness(build, tunnel)
    if tunnel.floor_mm is not None:
        plan = replace(plan, floor_z=tunnel.floor_mm + float(thick.max()))
    return plan, _covered(tunnel, tuple(thick.tolist())), notes


@lru_cache(maxsize=8)
def _covered(tunnel: Tunnel, thick: tuple[float, ...]) -> Skin:
    """Return the tunnel under layers: one skin for all consoles over it."""
    grid = tunnel.surface(np.array(thick))
    return Skin(fixed(grid.points), fixed(grid.normals))


def covering_thickness(build: Build, tunnel: Tunnel) -> tuple[Array, tuple[str, ...]]:
    """Return how thick the layers are that the scribe follows.

    Parameters
    ----------
    build : Build
        A build with a console.
    tunnel : Tunnel
        The car's tunnel.

    Returns
    -------
    thickness : ndarray, shape (a,)
        At each row of the tunnel's grid [mm].
    notes : tuple of str
        What was not known.
    """
    over = build.console.scribe.over if build.console else "carpet"
    x = tunnel.grid_x()
    thick = np.zeros(x.size)
    if over == "bare metal":
        return thick, ()
    names = [layer.name for layer in build.car.layers]
    if over in names:
        for layer in build.car.layers[: names.index(over) + 1]:
            lies = (layer.start.value <= x) & (x <= layer.end.value)
            thick += layer.thick.value * lies
        return thick, ()
    thick = tunnel.layered(x)
    carpet = build.car.carpet
    if carpet is None or carpet.loose is None:
        return thick, ("the carpet's thickness is not known: the scribe follows what is under it",)
    return thick + carpet.loose.value, ()


def _drawn(wanted: Console, state: State) -> Drawn:
    """Return the plan of a console."""
    plan = replace(_plain(wanted), density=_density(wanted.sheet))
    faults, notes = list[Unbuildable](), list[str]()
    for i, bulkhead in enumerate(wanted.bulkheads):
        if bulkhead.joint == "rebate":
            says = "a bulkhead is butted or housed: write butt or housing"
            faults.append(Unbuildable(f"console.bulkheads.{i}.joint", says))
    if state == "as it is":
        plan = _trimmed(plan, wanted)
        for i, read in enumerate(wanted.as_built):
            plan, said = _measured(plan, read)
            notes += [f"as built {i + 1}: {said}"] if said else []
    return Drawn(replace(plan, tilt_deg=tilt(SAW).largest_deg), tuple(faults), tuple(notes))


def _plain(wanted: Console) -> Plan:
    """Return the figures of a console as designed, its density still unknown."""
    t = wanted.sheet.thickness.value
    widths = [(w.at.value, w.left.value, w.right.value) for w in wanted.widths]
    openings = tuple(
        OpeningPlan(
            o.name,
            o.at.value,
            o.off_middle.value,
            o.long.value,
            o.wide.value,
            o.corner.value,
        )
        for o in wanted.openings
    )
    return Plan(
        deck=tuple((d.at.value, d.height.value) for d in wanted.deck),
        left=tuple((x, left) for x, left, _ in widths),
        right=tuple((x, right) for x, _, right in widths),
        start=wanted.start.value,
        end=wanted.end.value,
        thickness=t,
        density=1.0,
        material=wanted.sheet.material,
        deck_joint=wanted.walls.deck_joint,
        through=wanted.walls.runs_through,
        joint_depth=wanted.walls.joint_depth.value,
        lean_deg=wanted.walls.lean.value,
        bulkheads=tuple(_across(bulkhead, t) for bulkhead in wanted.bulkheads),
        openings=openings,
        edge=wanted.scribe.edge,
        deeper=wanted.scribe.deeper_by.value,
    )


def _across(wanted: Bulkhead, thickness_mm: float) -> BulkheadPlan:
    """Return a bulkhead; the file gives its front face."""
    joint: Literal["butt", "housing"] = "butt" if wanted.joint == "butt" else "housing"
    return BulkheadPlan(wanted.name, wanted.at.value + thickness_mm / 2, joint)


def _density(wanted: Sheet) -> float:
    """Density of a sheet [kg/m3]: as printed for its thickness, else the middle of its range."""
    printed = thickness(wanted.material, wanted.thickness.value)
    return sheet(wanted.material).density.value if printed is None else printed.density_kg_m3


def _trimmed(plan: Plan, wanted: Console) -> Plan:
    """Return a plan with what was taken off before covering."""
    trims = wanted.trims
    (nose_x, nose_z), *rest = plan.deck
    return replace(
        plan,
        deck=((nose_x, nose_z - trims.nose_lower_by.value), *rest),
        start=plan.start + trims.front_shorter_by.value,
        left=tuple((x, w - trims.left_in_by.value) for x, w in plan.left),
        right=tuple((x, w - trims.right_in_by.value) for x, w in plan.right),
    )


def _measured(plan: Plan, read: AsBuilt) -> tuple[Plan, str]:
    """Return a plan with one reading of a finished panel, and what stopped it from counting."""
    bulkheads = [bulkhead.name for bulkhead in plan.bulkheads]
    base = read.panel.rstrip("0123456789").strip()
    if base not in ("deck", "left wall", "right wall") and read.panel not in bulkheads:
        return plan, f"there is no panel {read.panel!r}"
    if read.what == "thickness":
        name = read.panel if read.panel in bulkheads else base
        entry = (name, read.reads.value)
        return replace(plan, built_thickness=(*plan.built_thickness, entry)), ""
    if base == "deck":
        return plan, "a deck has no height of its own: measure its walls"
    if read.at is None and read.panel not in bulkheads:
        return plan, f"the height of the {read.panel} needs the place where it was measured"
    at = 0.0 if read.panel in bulkheads or read.at is None else read.at.value
    built = BuiltHeight(read.panel, at, read.reads.value)
    return replace(plan, built_heights=(*plan.built_heights, built)), ""
