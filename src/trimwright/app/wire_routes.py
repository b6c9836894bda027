"""What the sheet 'wire' asks: the diagram, and what is live with key and switches as they are put."""

from collections.abc import Iterator
from functools import lru_cache

from fastapi import APIRouter, HTTPException, Response

from trimwright.app.asked import Good
from trimwright.app.print_message import PageMessage
from trimwright.app.wire_answer import fault_of, state_message, tried_message
from trimwright.app.wire_message import (
    HandleMessage,
    StateAsked,
    StateMessage,
    WireMessage,
)
from trimwright.build import Build
from trimwright.cabin import cabin
from trimwright.drawing import Element, Group, Page, svg
from trimwright.papers import wiring_pages
from trimwright.wiring import MODES, handles, lit, tried, wiring_outcome

router = APIRouter(prefix="/api/builds/{name}/wire")


@lru_cache(maxsize=8)
def diagram_pages(build: Build) -> tuple[Page, ...]:
    """Return the pages of a build's wiring diagram."""
    return wiring_pages(cabin(build), "A4")


@lru_cache(maxsize=8)
def pages_by_name(build: Build) -> dict[str, int]:
    """Return the first page that shows each wire, contact or device; where a wire leads is no device."""
    found: dict[str, int] = {}
    for number, page in enumerate(diagram_pages(build), start=1):
        for told in _named(page.drawing.elements):
            kind, _, own = told.partition(" ")
            if kind != "lead":
                found.setdefault(own, number)
    return found


def _named(elements: tuple[Element, ...]) -> Iterator[str]:
    """Yield the name of every group that has one."""
    for one in elements:
        if isinstance(one, Group):
            yield from (one.name,) if one.name else ()
            yield from _named(one.elements)


@router.get("")
def wire(good: Good) -> WireMessage:
    """Return the diagram's pages and what can be worked on it."""
    build = good[1].build
    pages = diagram_pages(build) if build.wiring else ()
    return WireMessage(
        version=good[0].version,
        pages=tuple(
            PageMessage(
                number=n, title=page.title, width_mm=page.width_mm, height_mm=page.height_mm
            )
            for n, page in enumerate(pages, start=1)
        ),
        modes=tuple(mode.name for mode in MODES),
        handles=tuple(
            HandleMessage(name=name, positions=positions)
            for name, positions in (handles(build.wiring) if build.wiring else ())
        ),
    )


@router.get("/pages/{number}.svg", response_class=Response)
def page(good: Good, number: int) -> Response:
    """Return one page of the diagram; every wire and contact in it is named."""
    build = good[1].build
    pages = diagram_pages(build) if build.wiring else ()
    if not 1 <= number <= len(pages):
        raise HTTPException(404, "There is no such page.")
    headers = {"cache-control": "no-cache"}
    return Response(svg(pages[number - 1]), media_type="image/svg+xml", headers=headers)


@router.post("/state")
def state(good: Good, asked: StateAsked) -> StateMessage:
    """Return what is live and what works in a mode of the car, with switches worked and a fault."""
    build = good[1].build
    mode = next((one for one in MODES if one.name == asked.mode), None)
    if build.wiring is None or mode is None:
        raise HTTPException(404, "There is no such state of this build.")
    if asked.fault is not None:
        fault = fault_of(build.wiring, asked.fault)
        told = tried(build.wiring, build.unit, mode, asked.put, fault)
        whole = wiring_outcome(build.wiring, build.unit)
        return state_message(told.lit, tried_message(whole, fault, told))
    return state_message(lit(build.wiring, build.unit, mode, asked.put))
