"""What the sheet 'fit' asks: findings, gaps, and what an edit would change."""

from fastapi import APIRouter

from trimwright.app.answer import edits_of, fit, fit_key, trial
from trimwright.app.asked import Good, OneBench, Reckoned
from trimwright.app.message import (
    FaultMessage,
    FitMessage,
    RefusalMessage,
    Trial,
    TrialMessage,
)

router = APIRouter(
    prefix="/api/builds/{name}",
    responses={
        404: {"model": RefusalMessage},
        409: {"model": RefusalMessage},
        422: {"model": list[FaultMessage]},
    },
)


@router.get("/fit")
async def whole_fit(good: Good, reckoned: Reckoned) -> FitMessage:
    """Return every finding, in the order of the work."""
    build, version = good[1].build, good[0].version
    return await reckoned.wait(fit_key(version), lambda: fit(build, version))


@router.post("/trial")
async def tried(bench: OneBench, good: Good, asked: Trial, reckoned: Reckoned) -> TrialMessage:
    """Return what edits would change, without writing them."""
    edits, before = edits_of(asked.edits), good[1]
    after = bench.tried(before.text, edits)
    key = ("trial", good[0].version, edits)
    return await reckoned.wait(key, lambda: trial(before.build, after.build))
