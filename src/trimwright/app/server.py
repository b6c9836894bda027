"""The server: the routes of every place, the page itself, and how it is run and stopped."""

import asyncio
import socket
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import uvicorn
from fastapi import FastAPI, HTTPException, Request
from fastapi.responses import FileResponse

from trimwright import __version__
from trimwright.app import (
    bench_routes,
    beside_routes,
    deed_routes,
    drag_routes,
    field_routes,
    fit_routes,
    note_routes,
    part_routes,
    print_routes,
    view_routes,
    wire_fault_routes,
    wire_meter_routes,
    wire_routes,
)
from trimwright.app.bench import Bench
from trimwright.app.door import Door
from trimwright.app.feed import Feed
from trimwright.app.reckoning import Reckoning
from trimwright.app.refusal import ANY, teach
from trimwright.app.screen import views
from trimwright.app.share import Share
from trimwright.app.share import router as share_router
from trimwright.app.walk import router as walk_router

PAGE = Path(__file__).parent / "page"
LOOK_S = 0.5  # how often the files are looked at for changes by another hand
LEAVE_S = 2  # how long answers under way have when the server is stopped
# a new place brings its own routes; its messages live in `message`, its drawings in `screen`
PLACES = (
    bench_routes.router,
    beside_routes.router,
    deed_routes.router,
    fit_routes.router,
    drag_routes.router,
    view_routes.router,
    walk_router,
    field_routes.router,
    print_routes.router,
    wire_routes.router,
    wire_fault_routes.router,
    wire_meter_routes.router,
    part_routes.router,
    note_routes.router,
    share_router,
)


def app(
    benches: dict[str, Bench],
    page: Path = PAGE,
    folder: Path | None = None,
    share: Share | None = None,
) -> FastAPI:
    """Return the application that serves some builds.

    Parameters
    ----------
    benches : dict of str to Bench
        By the name their addresses carry.
    page : Path
        Folder of the built page.
    folder : Path, optional
        Where new builds go; without it none can be begun.
    share : Share, optional
        What shares the bench on the network, once that is switched on.
    """
    feed, sharing = Feed(), share or Share()
    sharing.listen(lambda: feed.tell("", "", "share"))
    for bench in benches.values():
        bench.listen(feed.tell)

    @asynccontextmanager
    async def awake(_: FastAPI) -> AsyncIterator[None]:
        watch = asyncio.create_task(_watch(benches))
        ahead = asyncio.create_task(asyncio.to_thread(_begin, made, tuple(benches.values())))
        yield
        watch.cancel()
        await asyncio.gather(ahead, return_exceptions=True)
        sharing.switch_off()
        await sharing.closed()

    made = FastAPI(
        title="Trimwright",
        version=__version__,
        docs_url=None,
        redoc_url=None,
        lifespan=awake,
        responses=ANY,
    )
    made.state.benches, made.state.feed, made.state.folder = benches, feed, folder
    made.state.reckoning, made.state.share = Reckoning(), sharing
    for router in PLACES:
        made.include_router(router)
    teach(made)

    @made.api_route("/{path:path}", methods=["GET", "HEAD"], include_in_schema=False)
    def file(path: str, request: Request) -> FileResponse:
        if request.method == "HEAD" and path.startswith("api/"):
            raise HTTPException(405, "Ask for it in full.", {"allow": "GET"})
        return _file(page, path)

    return made


class Serving(uvicorn.Server):
    """Serves what is behind a door until it is stopped; open event streams do not keep it."""

    def __init__(self, door: Door, feed: Feed) -> None:
        super().__init__(
            uvicorn.Config(
                door,
                log_level="warning",
                lifespan="on",
                access_log=False,
                ws="none",
                server_header=False,
                timeout_graceful_shutdown=LEAVE_S,
            )
        )
        self.feed = feed

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Send the pages away, then stop."""
        self.feed.close()
        await super().shutdown(sockets)


def _file(page: Path, path: str) -> FileResponse:
    """Return a file of the built page; any other path is the page's own business."""
    found = _inside(page, path)
    if path.startswith("api/") or (found is None and "." in path):
        raise HTTPException(404, "There is nothing at this address.")
    if found is None:
        found = page / "index.html"
        if not found.is_file():
            raise HTTPException(404, "The page was not built: install Trimwright again, online.")
    kept = "public, max-age=31536000, immutable" if path.startswith("assets/") else "no-cache"
    return FileResponse(found, headers={"cache-control": kept})


def _inside(page: Path, path: str) -> Path | None:
    """Return the file that an address names inside a folder, or None."""
    try:
        found = (page / path).resolve()
        inside = found.is_relative_to(page.resolve()) and found.is_file()
    except (OSError, ValueError):  # no system has a file of such a name
        return None
    return found if inside else None


def _begin(made: FastAPI, benches: tuple[Bench, ...]) -> None:
    """Do what the first page would wait for while its browser starts.

    The routes are made ready when they are first looked through, the one of the page last. Of a
    build alone on the shelf the views are what is asked for first; their stages are kept with it.
    """
    for route in made.routes:
        route.matches({"type": "http", "method": "GET", "path": "/", "headers": []})
    if len(benches) == 1:
        now = benches[0].standing().usable
        if now is not None and now.good is not None:
            views(now.good, now.version)


async def _watch(benches: dict[str, Bench]) -> None:
    """Look at the files for changes by another hand, for as long as the server runs."""
    while True:
        await asyncio.sleep(LOOK_S)
        for bench in tuple(benches.values()):
            await asyncio.to_thread(bench.look)
