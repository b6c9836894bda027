"""News for every open page: one line of server-sent events for each new version of a build."""

import asyncio
import json
from collections.abc import AsyncIterator, Callable

QUIET_S = 15.0  # after so long a line is sent that says nothing, so that a lost page is noticed
BEHIND = 100  # lines a page may lag; one further behind is let go and comes again
_END = ""

News = tuple[str, str, str]  # what happened, to which build, its version


class Feed:
    """Hands each line of news to every page that listens; may be told from any thread."""

    def __init__(self) -> None:
        self._pages: dict[asyncio.Queue[str], asyncio.AbstractEventLoop] = {}
        self._closed = False

    def __len__(self) -> int:
        """Return how many pages listen."""
        return len(self._pages)

    def tell(self, name: str, version: str, event: str = "version") -> None:
        """Tell every page what happened to a build: it has a new version, it was reckoned."""
        self._put_all(_event((event, name, version)))

    def close(self) -> None:
        """Send every page away, and those that come later."""
        self._closed = True
        self._put_all(_END)

    async def lines(self, first: Callable[[], dict[str, str]]) -> AsyncIterator[str]:
        """Yield events for one page: the versions as they are, then news as it comes.

        `first` is asked once the page listens, so that no version falls between the two.
        """
        page: asyncio.Queue[str] = asyncio.Queue()
        self._pages[page] = asyncio.get_running_loop()
        try:
            for name, version in (await asyncio.to_thread(first)).items():
                yield _event(("version", name, version))
            while page in self._pages and not self._closed:
                try:
                    line = await asyncio.wait_for(page.get(), QUIET_S)
                except TimeoutError:
                    line = ": quiet\n\n"
                if line != _END:
                    yield line
        finally:
            self._pages.pop(page, None)

    def _put_all(self, line: str) -> None:
        """Queue a line for every page; one whose server has stopped is forgotten."""
        for page, loop in list(self._pages.items()):
            try:
                loop.call_soon_threadsafe(self._put, page, line)
            except RuntimeError:  # its loop is closed
                self._pages.pop(page, None)

    def _put(self, page: asyncio.Queue[str], line: str) -> None:
        """Queue a line; a page that no longer reads is forgotten."""
        if page.qsize() >= BEHIND:
            self._pages.pop(page, None)
        else:
            page.put_nowait(line)


def _event(news: News) -> str:
    """Return news as a server-sent event."""
    event, name, version = news
    return f"event: {event}\ndata: {json.dumps({'name': name, 'version': version})}\n\n"
