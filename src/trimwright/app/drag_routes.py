"""What a drawing asks while something on it is dragged."""

from fastapi import APIRouter, HTTPException

from trimwright.app.asked import Good, OneBench
from trimwright.app.drag import live
from trimwright.app.drag_message import DragAsked, DragMessage
from trimwright.app.handle import NoHandleError, dragged, handles
from trimwright.app.message import FaultMessage, RefusalMessage
from trimwright.app.screen import views
from trimwright.cabin import cabin
from trimwright.papers import Rest

router = APIRouter(
    prefix="/api/builds/{name}",
    responses={
        404: {"model": RefusalMessage},
        409: {"model": RefusalMessage},
        422: {"model": list[FaultMessage]},
    },
)


@router.post("/drag")
def drag(bench: OneBench, good: Good, asked: DragAsked) -> DragMessage:
    """Return what a drag would write and the gaps it changes; nothing is written."""
    before, one = good[1], cabin(good[1].build)
    # what a drag writes does not hang on where its handle is drawn
    moves = {move.path: move.by_mm for move in asked.moves}
    try:
        edits = dragged(
            handles(before, one, Rest(0.0, 0.0, 0.0)), moves, one.build.unit, whole=asked.whole
        )
    except NoHandleError as none:
        raise HTTPException(404, str(none)) from None
    after, version = bench.tried(before.text, edits), good[0].version
    told = live(before.build, after.build, edits, version)
    if asked.seen is None:
        return told
    drawn = views(after, version, asked.seen.at_mm, asked.seen.gap)
    return told.model_copy(update={"views": drawn})
