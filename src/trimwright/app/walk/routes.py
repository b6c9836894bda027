"""What the sheet 'measure' asks: a new build, the walk, and a reading entered on it."""

from pathlib import Path

from fastapi import APIRouter, Request

from trimwright.app.answer import edits_of
from trimwright.app.asked import Good, News, OneBench, Shelf
from trimwright.app.bench_routes import WRITES
from trimwright.app.message import EditMessage, OnShelf
from trimwright.app.standing import NotDoneError
from trimwright.app.walk.at_the_car import learned, reading_edits, sheet
from trimwright.app.walk.begin import begin
from trimwright.app.walk.entry import Placed, moved, placed, ready, refuse_wrong
from trimwright.app.walk.known import Known, known
from trimwright.app.walk.message import (
    Entered,
    LearnedMessage,
    NewBuild,
    ProbeReading,
    ProbesMessage,
    SlipMessage,
    TakenMessage,
    WalkMessage,
)
from trimwright.app.walk.step import heading
from trimwright.app.walk.usual import refuse_unusual
from trimwright.app.walk.walking import walk
from trimwright.car import adjusted

router = APIRouter(prefix="/api/builds")


@router.post("", status_code=201)
def begun(request: Request, shelf: Shelf, news: News, asked: NewBuild) -> OnShelf:
    """Write a new build into the served folder and put it on the shelf."""
    folder: Path | None = request.app.state.folder
    if folder is None:
        raise NotDoneError("No folder is served that a new build could go into.")
    bench = begin(folder, asked.title.strip(), asked.unit, asked.driver)
    if bench.name in shelf:
        bench.path.unlink()
        raise NotDoneError(f"There is a build called {bench.name} already: give it another name.")
    bench.listen(news.tell)
    shelf[bench.name] = bench
    return OnShelf(name=bench.name, title=asked.title.strip(), next_lock="", stops=0, waits=False)


@router.get("/{name}/walk")
def walked(good: Good) -> WalkMessage:
    """Return the walk: what to read next, what is read."""
    return walk(good[1], good[0].version)


@router.post("/{name}/walk", responses=WRITES)
def entered(bench: OneBench, good: Good, asked: Entered) -> TakenMessage:
    """Take a reading: written as soon as the file can hold it, with those that waited for it."""
    now, edits = known(good[1]), edits_of((*asked.held, asked.reading))
    if not asked.meant:
        refuse_unusual(edits[-1], now.build.unit)
    split = ready(now, edits)
    refuse_wrong(good[1], now, split)
    standing, into = good[0], placed(now, split.ready)
    if split.ready:
        says = f"Measured: {heading(now, edits[-1].path)}, {edits[-1].value}"
        standing = bench.edit(asked.base, into.edits, says[:200])
    held = moved(split.held, into)
    return TakenMessage(
        version=standing.version,
        path=into.goes.get(edits[-1].path, edits[-1].path),
        held=tuple(EditMessage(path=one.path, value=one.value) for one in held),
        waits_for=tuple(heading(now, one.path) for one in split.lacking),
        slips=_slips(now, known(standing.good), into) if split.ready and standing.good else (),
    )


@router.get("/{name}/test-fit")
def fit_sheet(good: Good) -> ProbesMessage:
    """Return what to probe at the car, and what is read."""
    return sheet(good[1], good[0].version)


@router.post("/{name}/test-fit", responses=WRITES)
def fit_read(bench: OneBench, good: Good, asked: ProbeReading) -> LearnedMessage:
    """Write one reading at the car and say what it changed."""
    edits = reading_edits(good[1], asked.words, asked.reads)
    now = bench.edit(asked.base, edits, f"Test fit: {asked.words}: {asked.reads}"[:200])
    after = now.good.build if now.good else good[1].build
    return learned(good[1].build, after, now.version)


def _slips(before: Known, now: Known, into: Placed) -> tuple[SlipMessage, ...]:
    """Return the readings that do not fit the others and did before, or were written just now."""
    old = {one.says for one in adjusted(before.build).suspects}
    own, slips = set(into.goes.values()), []
    for one in adjusted(now.build).suspects:
        path = now.path(one.key) or (one.key,)
        if one.says not in old or path in own:
            says, *instead = one.says.rstrip(".").split(", or else ")
            slips.append(SlipMessage(path=path, says=f"{says}.", instead=tuple(instead)))
    return tuple(slips)
