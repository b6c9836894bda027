"""The door to the garage network: paired phones get in; others see the page that pairs them."""

import asyncio
import json
from math import ceil
from typing import ClassVar

from trimwright.app.door import (
    HEADERS,
    Door,
    Receive,
    Scope,
    Send,
    Server,
    Told,
    again,
    most_bytes,
    read_body,
    refuse,
    tell,
)
from trimwright.app.share.phone import Phone
from trimwright.app.share.sharing import Share, too_many

PAIR, ASK = "/pair.html", "/api/pair"
SHOWN = ("GET", "HEAD")
ASSETS = ("/assets/", "/icon.svg")  # of the built page: the same for everybody
MOST_CODE = 512  # bytes of what brings a code
BODY_S = 20.0  # how long a request may take to come in
NOT_PAIRED = "This phone is not paired. Point its camera at a new code on the bench."
HURRIED = "This phone asks more than the bench answers. Wait a moment."


class PhoneDoor(Door):
    """Lets in phones that were paired, for as long as they are.

    Parameters
    ----------
    inside : ASGI application
        What is served.
    hosts : set of str
        Network addresses and ports that it answers to.
    share : Share
        Who is paired.
    """

    at = "phone"
    # browsers heed this one on encrypted pages only, and complain of it on others
    headers: ClassVar = {k: v for k, v in HEADERS.items() if k != "cross-origin-opener-policy"}

    def __init__(self, inside: Server, hosts: set[str], share: Share) -> None:
        super().__init__(inside, hosts)
        self.share = share

    async def _asked(
        self, scope: Scope, receive: Receive, send: Send, headers: dict[str, str]
    ) -> None:
        """Answer a paired phone; show others how to be paired."""
        if not self.share.look():
            await refuse(scope, send, 403, "The bench is not shared any more.")
            return
        keys = self.keys(headers)
        phone = self.share.phone(keys)
        if phone is None:
            await self._stranger(scope, receive, send, headers)
        elif not phone.allowance.take(self.share.clocks.steady()):
            await refuse(scope, send, 429, HURRIED, {"retry-after": "1"})
        else:
            phone.heard = self.share.now()
            await self._friend(scope, receive, send, headers, phone)

    async def _stranger(
        self, scope: Scope, receive: Receive, send: Send, headers: dict[str, str]
    ) -> None:
        """Show one that is not paired the page that pairs it, and take its code."""
        who, keys = (scope.get("client") or ("", 0))[0], self.keys(headers)
        gone = self.share.gone(keys)
        wait_s = self.share.wait_s(who)
        if wait_s == 0 and keys and gone is None and not _is_shown(scope):
            self.share.mistaken(who)
        if wait_s > 0:
            more = {"retry-after": str(ceil(wait_s))}
            await refuse(scope, send, 429, too_many(wait_s), more)
        elif _is_shown(scope) or _asks_to_pair(scope):
            await self._answered(scope, receive, send, headers, MOST_CODE)
        elif scope["path"].startswith("/api/") or scope["method"] not in SHOWN:
            await refuse(scope, send, 401, gone.why if gone else NOT_PAIRED)
        else:
            await tell(send, 303, "", {"location": PAIR})

    async def _friend(
        self, scope: Scope, receive: Receive, send: Send, headers: dict[str, str], phone: Phone
    ) -> None:
        """Answer a paired phone, until it is let go."""
        answer = _Answer(send)
        work = asyncio.create_task(
            self._answered(
                {**scope, "phone": phone}, receive, answer.send, headers, most_bytes(scope)
            )
        )
        over = asyncio.create_task(phone.over.wait())
        try:
            await asyncio.wait({work, over}, return_when=asyncio.FIRST_COMPLETED)
            if not work.done() and not answer.whole_soon:
                work.cancel()
            await asyncio.wait({work})
        finally:
            over.cancel()
            work.cancel()
        if work.cancelled():
            await self._break_off(scope, send, answer, phone)
        else:
            work.result()

    async def _break_off(self, scope: Scope, send: Send, answer: "_Answer", phone: Phone) -> None:
        """End what is open of a phone that was let go, with why."""
        if answer.streams:
            told = f"event: ended\ndata: {json.dumps({'says': phone.why})}\n\n"
            await send({"type": "http.response.body", "body": told.encode()})
        else:
            await refuse(scope, send, 401, phone.why)

    async def _answered(
        self, scope: Scope, receive: Receive, send: Send, headers: dict[str, str], most: int
    ) -> None:
        """Pass a request on, once all of it is here."""
        try:
            async with asyncio.timeout(BODY_S):
                body = await read_body(headers, receive, most)
        except TimeoutError:
            await refuse(scope, send, 408, "It took too long to come in.")
            return
        if body is None:
            await refuse(scope, send, 413, f"At most {most} bytes may be sent.")
        else:
            told = {**scope, "door": self.at, "pairs": self}
            await self.inside(told, again(body, receive), send)


class _Answer:
    """Watches how far an answer has got."""

    def __init__(self, send: Send) -> None:
        self._send = send
        self.started = self.streams = False

    @property
    def whole_soon(self) -> bool:
        """Whether it has begun and ends by itself."""
        return self.started and not self.streams

    async def send(self, message: Told) -> None:
        """Send a part of it."""
        if message["type"] == "http.response.start":
            self.started = True
            self.streams = any(
                name == b"content-type" and value.startswith(b"text/event-stream")
                for name, value in message["headers"]
            )
        await self._send(message)


def _is_shown(scope: Scope) -> bool:
    """Return whether a request is for the page that pairs phones, or what it is made of."""
    path: str = scope["path"]
    return scope["method"] in SHOWN and (path == PAIR or path.startswith(ASSETS))


def _asks_to_pair(scope: Scope) -> bool:
    """Return whether a request asks if a phone is paired, or to pair it."""
    return scope["path"] == ASK and scope["method"] in ("GET", "POST")
