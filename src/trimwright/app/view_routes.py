"""What every drawn sheet asks: the views of a build, as it is or as edits would make it."""

from typing import Annotated

from fastapi import APIRouter, Query

from trimwright.app.answer import edits_of
from trimwright.app.asked import Good, OneBench, Reckoned
from trimwright.app.message import Reach, ViewsAsked, ViewsMessage
from trimwright.app.screen import views

router = APIRouter(prefix="/api/builds/{name}")


@router.get("/views")
async def drawn(
    good: Good, reckoned: Reckoned, at: Annotated[Reach | None, Query()] = None
) -> ViewsMessage:
    """Return the views, the section at a place along the car [mm]."""
    loaded, version = good[1], good[0].version
    return await reckoned.wait(("views", version, at), lambda: views(loaded, version, at))


@router.post("/views")
async def drawn_as(
    bench: OneBench, good: Good, reckoned: Reckoned, asked: ViewsAsked
) -> ViewsMessage:
    """Return the views with edits made, without writing them, and the detail of a gap."""
    edits, version = edits_of(asked.edits), good[0].version
    loaded = bench.tried(good[1].text, edits) if edits else good[1]
    key = ("views as", version, edits, asked.at_mm, asked.gap)
    return await reckoned.wait(key, lambda: views(loaded, version, asked.at_mm, asked.gap))
