"""What the sheet 'fields' asks: every key of the build file, whether the file can be used or not."""

from fastapi import APIRouter

from trimwright.app.asked import OneBench
from trimwright.app.field_message import FieldsMessage
from trimwright.app.fields import fields

router = APIRouter(prefix="/api/builds/{name}")


@router.get("/fields")
def every_field(bench: OneBench) -> FieldsMessage:
    """Return every key, what is typed there, and what may be added."""
    now = bench.standing()
    return fields(now.text, now.version)
