"""How a field of the schema is declared: its key in the file, what it is, and an example."""

from typing import Any

from pydantic import Field


def key(name: str, says: str, example: str, **more: Any) -> Any:  # noqa: ANN401  pydantic's Field
    """Return a field that must be written: its file key, a plain description, one example."""
    return Field(alias=name, description=says, examples=[example], **more)


def maybe(name: str, says: str, example: str) -> Any:  # noqa: ANN401  pydantic's Field
    """Return a field that may be left out and is then None: nothing is assumed for it."""
    return Field(default=None, alias=name, description=says, examples=[example])


def several(name: str, says: str, example: str) -> Any:  # noqa: ANN401  pydantic's Field
    """Return a field that holds a list, empty when left out."""
    return Field(default=(), alias=name, description=says, examples=[example])


def otherwise(name: str, says: str, default: str) -> Any:  # noqa: ANN401  pydantic's Field
    """Return a field with a default, written as a builder would write it, and listed as assumed."""
    return Field(
        default=default, validate_default=True, alias=name, description=says, examples=[default]
    )


def part(name: str, says: str) -> Any:  # noqa: ANN401  pydantic's Field
    """Return a field that holds an entry which has defaults for all it holds."""
    return Field(
        default_factory=dict, validate_default=True, alias=name, description=says, examples=[]
    )
