"""What notes and photos ask: those there are, a new one, a picture in, a picture out."""

import asyncio
from pathlib import PurePosixPath
from typing import Any

from fastapi import APIRouter, HTTPException, Request, Response

from trimwright.app.asked import Good, OneBench, Reckoned
from trimwright.app.bench_routes import WRITES
from trimwright.app.message import RefusalMessage
from trimwright.app.note_answer import KINDS, note_edits, notes, parts, shown
from trimwright.app.note_message import NewNote, NotesMessage, PartsMessage, PhotoMessage
from trimwright.app.standing import NotDoneError
from trimwright.build import NoPictureError, keep_picture, picture_name
from trimwright.drawing import PhotoError, photo

router = APIRouter(prefix="/api/builds/{name}")
BYTES: dict[str, Any] = {"schema": {"type": "string", "format": "binary"}}
SENT = {"requestBody": {"required": True, "content": {"application/octet-stream": BYTES}}}
PICTURE: dict[int | str, dict[str, Any]] = {200: {"content": dict.fromkeys(KINDS.values(), BYTES)}}
NO_PICTURE: dict[int | str, dict[str, Any]] = {
    415: {"model": RefusalMessage, "description": "What was sent is no picture we can take in."}
}
KEPT, ASKED_AGAIN = "private, max-age=31536000, immutable", "no-cache"


@router.get("/notes")
def every_note(bench: OneBench, good: Good) -> NotesMessage:
    """Return every note of a build."""
    return notes(good[1], good[0].version, bench.path)


@router.get("/parts")
async def every_part(good: Good, reckoned: Reckoned) -> PartsMessage:
    """Return the parts that a note can be about."""
    loaded, version = good[1], good[0].version
    return await reckoned.wait(("parts", version), lambda: parts(loaded, version))


@router.post("/notes", responses=WRITES)
def add_note(bench: OneBench, good: Good, asked: NewNote) -> NotesMessage:
    """Write a note after the last there is."""
    edits, says = note_edits(asked, len(good[1].build.notes))
    if asked.photo:
        _picture(bench, asked.photo)
    now = bench.edit(good[0].version, edits, says[:200])
    return notes(now.good or good[1], now.version, bench.path)


@router.post("/photos", openapi_extra=SENT, responses=NO_PICTURE)
async def take_in(bench: OneBench, request: Request) -> PhotoMessage:
    """Take a picture in: written anew beside the build file, shown by no note yet."""
    data = await request.body()
    return await asyncio.to_thread(_kept, bench, data)


def _kept(bench: OneBench, data: bytes) -> PhotoMessage:
    """Return a picture that was written beside a build file."""
    try:
        made = photo(data)
        reference = keep_picture(bench.path, made.data, made.ending)
    except PhotoError as wrong:
        raise HTTPException(415, str(wrong)) from None
    except NoPictureError as elsewhere:
        raise NotDoneError(str(elsewhere)) from None
    except OSError as refused:
        raise NotDoneError(f"The picture cannot be kept: {refused.strerror or refused}") from None
    return PhotoMessage(photo=reference, width=made.width, height=made.height)


@router.get("/photos/{path:path}", response_class=Response, responses=PICTURE)
def show(bench: OneBench, good: Good, path: str) -> Response:
    """Return a picture that a note of the build shows; its kind is what its bytes tell."""
    if path not in {one.photo for one in good[1].build.notes}:
        raise HTTPException(404, "No note shows such a picture.")
    data, kind = _picture(bench, path)
    named = path == picture_name(data, PurePosixPath(path).suffix)  # so it never changes
    headers = {"cache-control": KEPT if named else ASKED_AGAIN}
    return Response(data, media_type=kind, headers=headers)


def _picture(bench: OneBench, reference: str) -> tuple[bytes, str]:
    """Return a picture beside a build with its kind."""
    try:
        return shown(bench.path, reference)
    except NoPictureError as lacking:
        raise HTTPException(404, str(lacking)) from None
