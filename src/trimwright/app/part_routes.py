"""What the sheet 'wire' asks of the parts of a wiring: all there are, and what may be added."""

from functools import lru_cache
from typing import Any

from fastapi import APIRouter, HTTPException, Response

from trimwright.app.asked import Good, OneBench
from trimwright.app.message import EditMessage, FaultMessage, RefusalMessage
from trimwright.app.part_list import drawn_on, parts
from trimwright.app.part_message import (
    CircuitAsked,
    DrawnNamesMessage,
    NextStopMessage,
    NextStopsMessage,
    OfferMessage,
    RenameAsked,
    StopsAsked,
    WayMessage,
    WirePartsMessage,
    WithoutAsked,
)
from trimwright.app.standing import Standing
from trimwright.app.wire_routes import diagram_pages
from trimwright.build import (
    Build,
    Fault,
    InputError,
    Loaded,
    NoNameError,
    NoStopError,
    NotRemovedError,
    Wiring,
    renamed,
    without,
)
from trimwright.cabin import cabin
from trimwright.checks import circuit
from trimwright.drawing import Page, svg
from trimwright.findings import Edit
from trimwright.papers import plan_page
from trimwright.wiring import next_stops

ANSWERS: dict[int | str, dict[str, Any]] = {
    404: {"model": RefusalMessage},
    409: {"model": RefusalMessage},
    422: {"model": list[FaultMessage]},
}
ENTRY = 3  # steps to an entry of the wiring: its list, its number
router = APIRouter(prefix="/api/builds/{name}/wire", responses=ANSWERS)


@router.get("/parts")
def every_part(good: Good) -> WirePartsMessage:
    """Return every part of the wiring, with where its fields are."""
    return parts(cabin(good[1].build), good[0].version)


@router.get("/drawn")
def names_drawn(good: Good) -> DrawnNamesMessage:
    """Return what each page of the diagram draws, by name."""
    build = good[1].build
    pages = diagram_pages(build) if build.wiring else ()
    return DrawnNamesMessage(version=good[0].version, pages=tuple(drawn_on(page) for page in pages))


@router.get("/plan.svg", response_class=Response)
def plan(good: Good) -> Response:
    """Return the trunks in plan; every place and trunk in it is named."""
    made = _plan(good[1].build)
    if made is None:
        raise HTTPException(404, "No place is written with where it is along and across the car.")
    headers = {"cache-control": "no-cache"}
    return Response(svg(made), media_type="image/svg+xml", headers=headers)


@lru_cache(maxsize=8)
def _plan(build: Build) -> Page | None:
    """Return the trunks in plan as a page."""
    return plan_page(cabin(build), "A4")


@router.post("/stops")
def stops(good: Good, asked: StopsAsked) -> NextStopsMessage:
    """Return what may follow some stops of a path."""
    wiring = good[1].build.wiring or Wiring()
    try:
        found = next_stops(wiring, asked.goes)
    except NoStopError as error:
        return NextStopsMessage(stops=(), ends=f"One of these is no stop: {error.expected}.")
    ends = ""
    if not found:
        ends = "A path ends at its ground." if asked.goes else "There is no device yet."
    return NextStopsMessage(
        stops=tuple(
            NextStopMessage(
                device=one.device,
                sort=one.sort,
                ways=tuple(WayMessage(text=w.text, says=w.says, by=w.by) for w in one.ways),
            )
            for one in found
        ),
        ends=ends,
    )


@router.post("/circuit")
def whole_circuit(good: Good, asked: CircuitAsked) -> OfferMessage:
    """Return a whole circuit for a load that no path leads to, or why none is offered."""
    found = circuit(cabin(good[1].build), asked.load)
    if found is None:
        raise HTTPException(404, "No load of this name waits for a circuit.")
    remedy = next((one for one in found.remedies if one.edits), None)
    why = found.why[-1] if found.why else f"Missing: {', '.join(found.missing)}."
    if remedy is None:
        return _offer(good, why, ())
    return _offer(good, remedy.says, remedy.edits)


@router.post("/rename")
def other_name(bench: OneBench, good: Good, asked: RenameAsked) -> OfferMessage:
    """Return the edits that give a part another name, wherever it is named."""
    try:
        edits = renamed(good[1].build, asked.path, asked.name)
    except NoNameError as error:
        place = (*asked.path, "name") if len(asked.path) == ENTRY else asked.path
        fault = Fault(1, place, f'"{asked.name[:60]}"', str(error), "")
        raise InputError(bench.path.name, (fault,)) from None
    count = len(edits) - 1
    places = "in 1 more place" if count == 1 else f"in {count} more places"
    return _offer(good, f"It is named {places}." if count > 0 else "", edits)


@router.post("/without")
def taken_out(good: Good, asked: WithoutAsked) -> OfferMessage:
    """Return the edits that take a part out, and what goes with it, or why it cannot be."""
    try:
        found = without(good[1].text, asked.path)
    except NotRemovedError as error:
        return _offer(good, str(error), ())
    told = []
    if found.shortened:
        told.append(f"Its wires are joined in {', '.join(found.shortened)}.")
    if found.gone:
        one = len(found.gone) == 1
        told.append(f"With it go{'es the path' if one else ' the paths'} {', '.join(found.gone)}.")
    return _offer(good, " ".join(told) or "Nothing else names it.", found.edits)


def _offer(good: tuple[Standing, Loaded], says: str, edits: tuple[Edit, ...]) -> OfferMessage:
    """Return edits as they are offered to a page."""
    told = tuple(EditMessage(path=one.path, value=one.value) for one in edits)
    return OfferMessage(version=good[0].version, says=says, edits=told)
