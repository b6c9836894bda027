"""What the sheet 'fields' is told: every key of the build file, written or not."""

from typing import Literal

from trimwright.app.message import Message, Step


class FieldMessage(Message):
    """One key: what it is, what is typed there, what it holds, and what can be added to it.

    `words` says where it is; `choices` are all that it may be, `offers` what it is likely to be; `named` of what can be added, that the builder chooses its key.
    """

    path: tuple[Step, ...]
    key: str
    words: str
    says: str
    kind: Literal["value", "group", "list"]
    sort: str
    example: str
    choices: tuple[str, ...]
    offers: tuple[str, ...]
    left_out: str
    required: bool
    value: str | None
    line: int
    below: tuple["FieldMessage", ...]
    more: "FieldMessage | None"
    named: bool


class FieldsMessage(Message):
    """Every key of a version."""

    version: str
    root: FieldMessage
