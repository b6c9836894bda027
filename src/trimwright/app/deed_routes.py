"""What the slip's foot asks: every edit in words, and which findings are left as they are."""

from fastapi import APIRouter

from trimwright.app.asked import OneBench
from trimwright.app.message import DeedsMessage

router = APIRouter(prefix="/api/builds/{name}")


@router.get("/deeds")
def deeds(bench: OneBench) -> DeedsMessage:
    """Return what undo and redo walk through, in words, and what a reason is written for."""
    versions, at = bench.steps()
    good = bench.standing().good
    left = () if good is None else tuple(one.finding for one in good.build.left_as_is)
    return DeedsMessage(
        steps=tuple(one.says for one in versions), at=min(at, len(versions) - 1), left=left
    )
