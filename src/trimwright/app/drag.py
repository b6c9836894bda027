"""What a drag would write and how every gap would stand then, quick enough to follow a finger."""

from math import isfinite

from trimwright.app.answer import messages_of
from trimwright.app.drag_message import DragMessage, LiveGap
from trimwright.build import Build
from trimwright.cabin import Cabin, cabin
from trimwright.findings import Edit
from trimwright.fit import Gap
from trimwright.quantities import shown_with_unit


def live(before: Build, after: Build, edits: tuple[Edit, ...], version: str) -> DragMessage:
    """Return what edits write and the gaps that they change, with all figures as written.

    Parameters
    ----------
    before, after : Build
        Without and with the edits.
    edits : tuple of Edit
        What the drag writes.
    version : str
        Of the build before.
    """
    now, then = _figures(cabin(before)), _figures(cabin(after))
    found = []
    for name, (gap, figure_mm) in then.items():
        was = shown_with_unit(now[name][1], after.unit) if name in now else ""
        figure = shown_with_unit(figure_mm, after.unit)
        if figure != was:
            wanted = shown_with_unit(gap.wanted, after.unit)
            short = _short(gap, figure_mm)
            found.append(
                LiveGap(name=name, before=was, figure=figure, wanted=wanted, short_mm=short)
            )
    return DragMessage(
        version=version,
        edits=messages_of({one.path: one.value for one in edits}),
        gaps=tuple(sorted(found, key=lambda one: (-one.short_mm, one.name))),
        cannot=_cannot(cabin(after)),
    )


def _figures(one: Cabin) -> dict[str, tuple[Gap, float]]:
    """Return every gap that counts with its figure [mm]; one without a figure is left out."""
    if one.model is None:
        return {}
    both = zip(one.model.gaps, one.nominal, strict=True)
    return {gap.name: (gap, mm) for gap, mm in both if isfinite(mm) and not gap.part_of}


def _short(gap: Gap, figure_mm: float) -> float:
    """Return by how much a gap is short of what is wanted [mm]."""
    over = figure_mm - gap.wanted
    return -over if gap.sense == "at least" else over


def _cannot(one: Cabin) -> str:
    """Return why nothing can be told, empty where it can."""
    if one.unbuildable:
        return one.unbuildable[0].says
    if one.model is None or not one.model.gaps:
        return "What is missing for this is told on the slip."
    if not _figures(one):
        return "The console tips there."
    return ""
