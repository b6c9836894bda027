"""A part of a build that is large and often absent: its reader is made for a file that has it."""

from typing import Any

from msgspec import Struct
from pydantic import BaseModel, GetCoreSchemaHandler, ValidationInfo
from pydantic_core import CoreSchema, core_schema


class IfWritten(Struct, frozen=True):
    """Mark of a field whose entry, or None, is read by the entry's own schema.

    To make the schema of all that may be said of a wiring takes longer than to read a build
    without one. The faults it finds keep their places: pydantic puts the field's before them.
    """

    kind: type[BaseModel]

    def __get_pydantic_core_schema__(
        self,
        source: Any,  # noqa: ANN401  any annotation
        handler: GetCoreSchemaHandler,
    ) -> CoreSchema:
        """Return a schema that asks the entry's own when there is something to read."""
        del source, handler
        return core_schema.with_info_plain_validator_function(self._read)

    def _read(self, value: object, info: ValidationInfo) -> BaseModel | None:
        if value is None:
            return None
        return self.kind.model_validate(value, context=info.context)
