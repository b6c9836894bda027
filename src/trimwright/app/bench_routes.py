"""What every page asks of a build: what it says, edits to it, undo and redo, and news of it."""

from typing import Annotated, Any

from fastapi import APIRouter, Query
from fastapi.responses import StreamingResponse

from trimwright.app.answer import edits_of, faults, fit, fit_key, messages_of
from trimwright.app.asked import News, OneBench, Reckoned, Shelf
from trimwright.app.bench import Bench
from trimwright.app.feed import Feed
from trimwright.app.message import (
    ClashMessage,
    FaultMessage,
    FitMessage,
    OnShelf,
    Patch,
    RefusalMessage,
    RefusedPatch,
    Replay,
    ReplayMessage,
    StandingMessage,
)
from trimwright.app.reckoning import Reckoning
from trimwright.app.standing import Sent

router = APIRouter(prefix="/api", responses={409: {"model": RefusalMessage}})
NOT_HERE: dict[int | str, dict[str, Any]] = {404: {"model": RefusalMessage}}
WRITES: dict[int | str, dict[str, Any]] = {
    **NOT_HERE,
    409: {"model": ClashMessage | RefusalMessage},
    422: {"model": list[FaultMessage]},
}
Base = Annotated[str, Query(max_length=64)]


@router.get("/builds")
def builds(shelf: Shelf, reckoned: Reckoned, news: News) -> list[OnShelf]:
    """Return every build on the shelf at once; findings not yet worked out come later."""
    return [_on_shelf(bench, reckoned, news) for bench in tuple(shelf.values())]


@router.get("/builds/{name}", responses=NOT_HERE)
def standing(bench: OneBench) -> StandingMessage:
    """Return what a build's file says now."""
    return _standing(bench)


@router.post("/builds/{name}/edits", responses=WRITES)
def edit(bench: OneBench, patch: Patch) -> StandingMessage:
    """Write edits that were made to a version of the file."""
    bench.edit(patch.base, edits_of(patch.edits), patch.says, mark=patch.mark)
    return _standing(bench)


@router.post("/builds/{name}/replay", responses=WRITES)
def replay(bench: OneBench, kept: Replay) -> ReplayMessage:
    """Write what a page kept while it was away, in its order; tell what did not go in."""
    patches = (Sent(edits_of(one.edits), one.says, one.mark) for one in kept.patches)
    _, refused = bench.replay(kept.base, patches)
    told = tuple(
        RefusedPatch(
            number=one.number,
            theirs=messages_of(one.theirs),
            faults=faults(one.fault) if one.fault else (),
        )
        for one in refused
    )
    return ReplayMessage(standing=_standing(bench), refused=told)


@router.post("/builds/{name}/undo", responses=WRITES)
def undo(bench: OneBench, base: Base = "") -> StandingMessage:
    """Take the last edit back; with a version, only if that is what the file still holds."""
    bench.undo(base)
    return _standing(bench)


@router.post("/builds/{name}/redo", responses=WRITES)
def redo(bench: OneBench, base: Base = "") -> StandingMessage:
    """Make the edit again that was taken back; with a version, only if the file still holds it."""
    bench.redo(base)
    return _standing(bench)


@router.get(
    "/events",
    response_class=StreamingResponse,
    responses={200: {"content": {"text/event-stream": {"schema": {"type": "string"}}}}},
)
def events(shelf: Shelf, news: News) -> StreamingResponse:
    """Stream every new version as it comes, and when the findings of one are worked out."""

    def first() -> dict[str, str]:
        return {name: bench.standing().version for name, bench in tuple(shelf.items())}

    return StreamingResponse(news.lines(first), media_type="text/event-stream")


def _standing(bench: Bench) -> StandingMessage:
    told = bench.account()
    now = told.now
    build = now.good.build if now.good else None
    return StandingMessage(
        name=bench.name,
        title=build.name if build else bench.name,
        unit=build.unit if build else "mm",
        version=now.version,
        last=told.last,
        can_undo=told.can_undo,
        can_redo=told.can_redo,
        faults=faults(now.fault) if now.fault else (),
    )


def _on_shelf(bench: Bench, reckoned: Reckoning, news: Feed) -> OnShelf:
    name, now = bench.name, bench.standing().usable
    if now is None or now.good is None:
        return OnShelf(name=name, title=name, next_lock="", stops=None, waits=False)
    build, version = now.good.build, now.version

    def make() -> FitMessage:
        return fit(build, version)

    key = fit_key(version)
    known = reckoned.done(key)
    ahead = reckoned.once(key, make, waited_for=False)
    if not known:
        ahead.add_done_callback(lambda _: news.tell(name, version, "reckoned"))
        return OnShelf(name=name, title=build.name, next_lock="", stops=None, waits=True)
    found = ahead.result().findings
    still = [one for one in found if one.grade != "good"]
    lock = still[0].lock if still else ""
    stops = sum(one.grade == "stop" for one in found)
    return OnShelf(name=name, title=build.name, next_lock=lock, stops=stops, waits=False)
