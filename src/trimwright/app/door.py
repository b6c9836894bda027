"""The door: who may speak to the server, and what a browser may do with its answers.

This one is for the machine itself. Every request needs the session's key, once in the address that
the command line prints, afterwards in a cookie that scripts cannot read and other sites do not send.
Host and Origin must be ours: a page of another site, or a name that was made to point here, gets
nothing. No request brings more than an edit needs; only a picture may be larger.
"""

import json
import re
from collections.abc import Awaitable, Callable, MutableMapping
from secrets import compare_digest, token_urlsafe
from typing import Any, ClassVar
from urllib.parse import parse_qs, quote

from trimwright.build import MOST_PICTURE_BYTES

Scope = MutableMapping[str, Any]
Told = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Told]]
Send = Callable[[Told], Awaitable[None]]
Server = Callable[[Scope, Receive, Send], Awaitable[None]]
COOKIE = "trimwright"
MOST_BYTES = 1_048_576  # of a request; 200 edits of 2000 signs have half of it
PICTURES = re.compile(r"/api/builds/[^/]+/photos")  # where pictures are sent to
HEADERS = {
    "content-security-policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:;"
        " font-src 'self'; connect-src 'self'; manifest-src 'self'; base-uri 'none';"
        " form-action 'self'; frame-ancestors 'none'"
    ),
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "x-frame-options": "DENY",
    "cache-control": "no-store",
}
ASKS_ONLY = ("GET", "HEAD")
ONCE = ("host", "origin", "sec-fetch-site", "content-length")


class Door:
    """Lets in those who hold a key, from our own pages only.

    Parameters
    ----------
    inside : ASGI application
        What is served.
    hosts : set of str
        Names and ports that this server answers to: '127.0.0.1:8123'.
    key : str, optional
        The session's key, drawn anew if left out.
    """

    at = "bench"  # what those inside are told about who asks
    headers: ClassVar[dict[str, str]] = HEADERS

    def __init__(self, inside: Server, hosts: set[str], key: str = "") -> None:
        self.inside = inside
        self.hosts = hosts
        self.key = key or token_urlsafe(24)
        # browsers send a cookie to every port of a machine: each door has one of its own name
        self.cookie = f"{COOKIE}-{min(hosts).rpartition(':')[2]}" if hosts else COOKIE

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or refuse it in one line."""
        if scope["type"] == "lifespan":
            await self.inside(scope, receive, send)
        elif scope["type"] == "websocket":
            await send({"type": "websocket.close", "code": 1008})
        elif scope["type"] == "http":
            await self._http(scope, receive, _sealed(send, self.headers))

    def cookie_line(self, key: str) -> str:
        """Return what makes a browser keep a key: out of scripts' reach, for our own pages only."""
        return f"{self.cookie}={key}; HttpOnly; SameSite=Strict; Path=/"

    def fits(self, key: str) -> bool:
        """Return whether a key opens this door, in a time that tells nothing about it."""
        return compare_digest(key.encode(), self.key.encode())

    async def _http(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse what comes from no page of ours; let the others ask."""
        headers = _headers(scope)
        refusal = self._refusal(scope["method"], headers)
        if refusal:
            await refuse(scope, send, 403, refusal)
        else:
            await self._asked(scope, receive, send, headers)

    async def _asked(
        self, scope: Scope, receive: Receive, send: Send, headers: dict[str, str]
    ) -> None:
        """Answer whoever holds the key, or brings it."""
        brought = _brought(scope)
        if brought:
            await self._greet(scope, send, brought)
        elif not any(self.fits(key) for key in self.keys(headers)):
            says = "Open the address that Trimwright printed; it carries a key."
            await refuse(scope, send, 401, says)
        elif (body := await read_body(headers, receive, most := most_bytes(scope))) is None:
            await refuse(scope, send, 413, f"At most {most // 1024**2} MiB may be sent.")
        else:
            await self.inside({**scope, "door": self.at}, again(body, receive), send)

    def keys(self, headers: dict[str, str]) -> list[str]:
        """Return the keys that a request brings in cookies of this door's name."""
        pairs = (pair.strip().partition("=") for pair in headers.get("cookie", "").split(";"))
        return [value for name, _, value in pairs if name == self.cookie]

    def _refusal(self, method: str, headers: dict[str, str]) -> str:
        """Return why a request cannot come from one of our pages, or nothing."""
        origin = headers.get("origin")
        if headers.get("host", "").lower() not in self.hosts:
            return "This server does not answer to that name."
        if origin is not None and origin.removeprefix("http://") not in self.hosts:
            return "Pages of other sites may not ask here."
        if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
            return "Pages of other sites may not ask here."
        if method not in ASKS_ONLY and origin is None:
            return "An edit has to say which page it comes from."
        return ""

    async def _greet(self, scope: Scope, send: Send, brought: str) -> None:
        """Let in whoever brings a key in the address; send them on without it."""
        if scope["method"] == "GET" and self.fits(brought):
            to = "/" + quote(scope["path"].lstrip("/\\"), safe="/")
            more = {"location": to, "set-cookie": self.cookie_line(self.key)}
            await tell(send, 303, "", more)
        else:
            await refuse(scope, send, 401, "That address does not open the bench any more.")


def _headers(scope: Scope) -> dict[str, str]:
    """Return headers by name in small letters; one that may be there once, twice is no value."""
    found: dict[str, str] = {}
    for name, value in scope["headers"]:
        key, said = name.decode("latin-1").lower(), value.decode("latin-1")
        if key not in found:
            found[key] = said
        else:
            found[key] = "" if key in ONCE else f"{found[key]}; {said}"
    return found


def _brought(scope: Scope) -> str:
    """Return the key that an address carries, or nothing."""
    query: bytes = scope.get("query_string", b"")
    return parse_qs(query.decode("latin-1")).get("key", [""])[0]


def most_bytes(scope: Scope) -> int:
    """Return how many bytes a request may bring."""
    sends_picture = scope["method"] == "POST" and PICTURES.fullmatch(scope["path"])
    return MOST_PICTURE_BYTES if sends_picture else MOST_BYTES


async def read_body(
    headers: dict[str, str], receive: Receive, most: int = MOST_BYTES
) -> bytes | None:
    """Return all that a request brings; None if that is more than it may."""
    told = headers.get("content-length", "0")
    if told.isascii() and told.isdigit() and int(told[:20]) > most:
        return None
    body, more = bytearray(), True
    while more:
        message = await receive()
        body += message.get("body", b"")
        more = bool(message.get("more_body", False))
        if len(body) > most:
            return None
    return bytes(body)


def again(body: bytes, receive: Receive) -> Receive:
    """Return a receiver that brings a body that was read already, then what follows it."""
    left = [{"type": "http.request", "body": body, "more_body": False}]

    async def receive_again() -> Told:
        return left.pop() if left else await receive()

    return receive_again


def _sealed(send: Send, headers: dict[str, str]) -> Send:
    """Return a sender that adds what a browser may do with an answer."""

    async def with_headers(message: Told) -> None:
        if message["type"] == "http.response.start":
            named = {k.lower() for k, _ in message["headers"]}
            extra = [
                (k.encode(), v.encode()) for k, v in headers.items() if k.encode() not in named
            ]
            message["headers"] = [*message["headers"], *extra]
        await send(message)

    return with_headers


async def refuse(
    scope: Scope, send: Send, status: int, words: str, more: dict[str, str] | None = None
) -> None:
    """Refuse in the form that whoever asks reads: a script JSON, a person plain words."""
    if scope["path"].startswith("/api/"):
        told = json.dumps({"detail": words})
        await tell(send, status, told, {"content-type": "application/json", **(more or {})})
    else:
        await tell(send, status, words, more)


async def tell(send: Send, status: int, words: str, more: dict[str, str] | None = None) -> None:
    """Send a short answer."""
    body = words.encode()
    told = {"content-type": "text/plain; charset=utf-8", "content-length": str(len(body))}
    headers = [(k.encode(), v.encode("latin-1")) for k, v in {**told, **(more or {})}.items()]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": body})
