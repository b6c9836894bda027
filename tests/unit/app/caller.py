"""Calls an ASGI application in this process, as a browser would."""

import asyncio
import json
from collections.abc import MutableMapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote, urlsplit

from fastapi import FastAPI


@dataclass(frozen=True)
class Answer:
    """What came back."""

    status: int
    headers: dict[str, str]
    content: bytes

    @property
    def told(self) -> Any:  # noqa: ANN401  any JSON
        """The content as JSON."""
        return json.loads(self.content)


def call(inside: FastAPI, path: str, body: object = None) -> Answer:
    """Return the answer to a GET, or to a POST if there is a body."""
    return asyncio.run(_call(inside, path, body))


async def _call(inside: FastAPI, path: str, body: object) -> Answer:
    parts = urlsplit(path)
    sent = b"" if body is None else json.dumps(body).encode()
    scope = {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": "GET" if body is None else "POST",
        "scheme": "http",
        "path": parts.path,
        "raw_path": quote(parts.path).encode(),
        "query_string": parts.query.encode(),
        "headers": [(b"host", b"bench"), (b"content-type", b"application/json")],
        "client": None,
        "server": ("bench", 80),
    }
    messages: list[MutableMapping[str, Any]] = []

    async def receive() -> MutableMapping[str, Any]:
        return {"type": "http.request", "body": sent, "more_body": False}

    async def send(message: MutableMapping[str, Any]) -> None:
        messages.append(message)

    await inside(scope, receive, send)
    start = messages[0]
    headers = {k.decode().lower(): v.decode() for k, v in start["headers"]}
    content = b"".join(one.get("body", b"") for one in messages[1:])
    return Answer(start["status"], headers, content)
