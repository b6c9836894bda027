"""Every key of a build file as messages, each with where it is in words."""

from msgspec.structs import replace

from trimwright.app.field_message import FieldMessage, FieldsMessage
from trimwright.build import Field, layout


def fields(text: str, version: str) -> FieldsMessage:
    """Return every key of a build file, written or not.

    Raises
    ------
    InputError
        If the text cannot be read as a build file at all.
    """
    return FieldsMessage(version=version, root=_field(layout(text), ()))


def _field(one: Field, above: tuple[str, ...]) -> FieldMessage:
    """Return one key and all that it holds."""
    names = above if not one.path else (*above, one.key)
    more = None
    if one.more is not None:
        key = one.more.key if one.more.named else "a new one"
        more = _field(replace(one.more, key=key), names)
    return FieldMessage(
        path=one.path,
        key=one.key,
        words=", ".join(names),
        says=one.says,
        kind=one.kind,
        sort=one.sort,
        example=one.example,
        choices=one.choices,
        offers=one.offers,
        left_out=one.left_out,
        required=one.required,
        value=one.value,
        line=one.line,
        below=tuple(_field(below, names) for below in one.below),
        more=more,
        named=one.named,
    )
