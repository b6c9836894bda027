"""What every drawn sheet asks: the views of a build, as it is or as edits would make it."""

from typing import Annotated

from fastapi import APIRouter, Query

from trimwright.app.answer import edits_of
from trimwright.app.asked import Good, OneBench
from trimwright.app.message import Reach, ViewsAsked, ViewsMessage
from trimwright.app.screen import views

router = APIRouter(prefix="/api/builds/{name}")


@router.get("/views")
def drawn(good: Good, at: Annotated[Reach | None, Query()] = None) -> ViewsMessage:
    """Return the views, the section at a place along the car [mm]."""
    return views(good[1], good[0].version, at)


@router.post("/views")
def drawn_as(bench: OneBench, good: Good, asked: ViewsAsked) -> ViewsMessage:
    """Return the views with edits made, without writing them, and the detail of a gap.

    They are drawn at once, never behind what takes seconds to reckon.
    """
    edits = edits_of(asked.edits)
    loaded = bench.tried(good[1].text, edits) if edits else good[1]
    return views(loaded, good[0].version, asked.at_mm, asked.gap, asked.drawn)
