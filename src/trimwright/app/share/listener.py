"""The second listener: on this machine's network addresses, for as long as the bench is shared."""

import asyncio
import errno
import os
import socket
from collections.abc import Generator, Sequence
from contextlib import contextmanager, suppress

import uvicorn
from uvicorn.protocols.http.h11_impl import H11Protocol

from trimwright.app.door import Server
from trimwright.app.standing import NotDoneError

TRIES = 8  # at a port that is free on every address
MOST_LINES, MOST_FROM_ONE = 96, 24  # connections at once, in all and from one address
SILENT_S = 15.0  # after so long a line that asked for nothing is cut
LEAVE_S = 2  # how long answers under way have


class Line(H11Protocol):
    """One connection: cut if there are too many, or if it asks for nothing."""

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]  # as uvicorn has it
        """Take a connection, or cut it."""
        super().connection_made(transport)
        lines = [one for one in self.connections if isinstance(one, Line)]
        same = [one for one in lines if one.host == self.host]
        if len(lines) > MOST_LINES or len(same) > MOST_FROM_ONE:
            transport.abort()
        else:
            self.loop.call_later(SILENT_S, self._cut_if_silent)

    @property
    def host(self) -> str:
        """The address that it comes from."""
        return self.client[0] if self.client else ""

    def _cut_if_silent(self) -> None:
        if self.cycle is None:
            self.transport.abort()


class Listener(uvicorn.Server):
    """Serves what is behind a door on some sockets; Ctrl-C is the main server's business."""

    def __init__(self, door: Server) -> None:
        super().__init__(
            uvicorn.Config(
                door,
                http=Line,
                ws="none",
                lifespan="off",
                log_level="warning",
                access_log=False,
                server_header=False,
                proxy_headers=False,
            )
        )
        self.servers: list[asyncio.base_events.Server] = []

    @contextmanager
    def capture_signals(self) -> Generator[None, None, None]:
        """Leave the signals to the main server."""
        yield

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Let answers under way be finished, for a while."""
        cut = asyncio.get_running_loop().call_later(LEAVE_S, self._cut)
        await super().shutdown(sockets)
        cut.cancel()

    def _cut(self) -> None:
        for one in list(self.server_state.connections):
            if isinstance(one, Line):
                one.transport.abort()

    def close(self) -> None:
        """Take no more connections from now on; end soon."""
        for one in self.servers:
            one.close()
        self.should_exit = True


def listening(addresses: Sequence[str]) -> list[socket.socket]:
    """Return a socket that listens on each address, all on one free port.

    Raises
    ------
    NotDoneError
        If an address does not take one, or no port is free on all of them.
    """
    for _ in range(TRIES):
        with suppress(FileExistsError):
            return _on_one_port(addresses)
    raise NotDoneError("No free port was found on this machine's network addresses. Try again.")


def _on_one_port(addresses: Sequence[str]) -> list[socket.socket]:
    """Return a socket on each address; FileExistsError if the port of the first is taken there."""
    made: list[socket.socket] = []
    for address in addresses:
        port = made[0].getsockname()[1] if made else 0
        made.append(socket.socket(socket.AF_INET, socket.SOCK_STREAM))
        try:
            made[-1].bind((address, port))
            made[-1].listen()
        except OSError as refused:
            for one in made:
                one.close()
            if refused.errno == errno.EADDRINUSE:
                raise FileExistsError from None
            why = os.strerror(refused.errno or 0)
            raise NotDoneError(f"{address} cannot be listened on: {why}.") from None
    return made
