"""What the slip's foot asks: every edit in words, and which findings are left as they are."""

from fastapi import APIRouter

from trimwright.app.asked import OneBench
from trimwright.app.message import DeedsMessage
from trimwright.findings import LOCKS

router = APIRouter(prefix="/api/builds/{name}")


@router.get("/deeds")
def deeds(bench: OneBench) -> DeedsMessage:
    """Return what undo and redo walk through, in words, and what a reason is written for."""
    versions, at = bench.steps()
    good = bench.standing().good
    build = None if good is None else good.build
    return DeedsMessage(
        steps=tuple(one.says for one in versions),
        at=min(at, len(versions) - 1),
        left=() if build is None else tuple(one.finding for one in build.left_as_is),
        locked=() if build is None else tuple(one.lock for one in build.locked),
        locks=tuple(lock for lock in LOCKS if lock != "carpet" or (build and build.wiring)),
    )
