"""What refusals look like: every answer that is no success, in the words and form the page knows."""

from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse

from trimwright.app.answer import faults, messages_of
from trimwright.app.message import ClashMessage, FaultMessage, RefusalMessage
from trimwright.app.standing import ClashError, NotDoneError
from trimwright.build import InputError

SHOWN = 60  # signs of what was found
# what any question may be answered with, whatever it asks
ANY: dict[int | str, dict[str, Any]] = {
    400: {"model": RefusalMessage, "description": "What was sent cannot be read."},
    401: {"model": RefusalMessage, "description": "The key is missing."},
    403: {"model": RefusalMessage, "description": "Asked from elsewhere than one of our pages."},
    404: {"model": RefusalMessage, "description": "There is nothing of that name."},
    409: {"model": RefusalMessage, "description": "It cannot be done as things are."},
    408: {"model": RefusalMessage, "description": "It took too long to come in."},
    413: {"model": RefusalMessage, "description": "More was sent than any edit needs."},
    422: {"model": list[FaultMessage], "description": "What was sent is not as it should be."},
    429: {
        "model": RefusalMessage,
        "description": "Too much was asked, or too many codes were wrong.",
    },
}


def teach(app: FastAPI) -> None:
    """Let an application answer every refusal of the rooms below."""
    app.add_exception_handler(InputError, _unusable)
    app.add_exception_handler(RequestValidationError, _unreadable)
    app.add_exception_handler(ClashError, _clash)
    app.add_exception_handler(NotDoneError, _not_done)
    app.add_exception_handler(Exception, _failed)


def _unusable(_: Request, error: Exception) -> JSONResponse:
    """Answer an edit that the file cannot hold with every fault."""
    return _faults(faults(error) if isinstance(error, InputError) else ())


def _unreadable(_: Request, error: Exception) -> JSONResponse:
    """Answer what is no message of ours with a fault for each place that is not as it should be."""
    found = error.errors() if isinstance(error, RequestValidationError) else []
    return _faults(
        tuple(
            FaultMessage(
                line=0,
                path=tuple(one["loc"]),
                found=_printable(one.get("input")),
                expected=_printable(one["msg"]),
                example="",
                readings=(),
            )
            for one in found
        )
    )


def _printable(found: object) -> str:
    """Return what was found as text that any answer can carry."""
    return str(found).encode("ascii", "backslashreplace").decode("ascii")[:SHOWN]


def _faults(told: tuple[FaultMessage, ...]) -> JSONResponse:
    return JSONResponse([one.model_dump(mode="json") for one in told], 422)


def _clash(_: Request, error: Exception) -> JSONResponse:
    """Answer an edit that meets another hand's with what that wrote."""
    theirs = error.theirs if isinstance(error, ClashError) else {}
    told = ClashMessage(theirs=messages_of(theirs))
    return JSONResponse(told.model_dump(mode="json"), 409)


def _not_done(_: Request, error: Exception) -> JSONResponse:
    """Answer what cannot be done with why, in one line."""
    return JSONResponse({"detail": str(error)}, 409)


def _failed(_: Request, __: Exception) -> JSONResponse:
    """Answer a fault of our own in words; what it was goes to the terminal."""
    return JSONResponse({"detail": "The bench failed at this. The file is as it was."}, 500)
