"""The schema in words is what docs hold, and every example in it can be read."""

from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Any

import pytest
from pydantic import ConfigDict, TypeAdapter
from pydantic.fields import FieldInfo

from trimwright.build import Build, Entry, describe, parse
from trimwright.build.reading import roles
from trimwright.build.shape import inner_type
from trimwright.quantities import Quantity

DOCS = Path(__file__).parents[3] / "docs" / "build-file.md"

ANY = ConfigDict(arbitrary_types_allowed=True)


def models(model: type[Entry] = Build) -> Iterator[type[Entry]]:
    yield model
    for info in model.model_fields.values():
        kind, _ = inner_type(info.annotation)
        if isinstance(kind, type) and issubclass(kind, Entry):
            yield from models(kind)


ALL = sorted(set(models()), key=lambda model: model.__name__)


def test_docs_hold_the_schema_as_it_is() -> None:
    assert DOCS.read_text("utf-8") == describe()


@pytest.mark.parametrize("model", ALL, ids=lambda model: model.__name__)
def test_every_key_is_described_and_every_example_can_be_read(model: type[Entry]) -> None:
    figures = {name for name, _ in roles(model)}
    for name, info in model.model_fields.items():
        if info.alias is None:
            continue
        assert info.description
        assert info.description.endswith(".")
        if name in figures and info.examples:
            assert _read(info, info.examples[0]).text == info.examples[0]


def _read(info: FieldInfo, text: str) -> Quantity:
    """Return what a field makes of a text."""
    kind: Any = info.annotation
    for part in info.metadata:
        kind = Annotated[kind, part]
    found: Quantity = TypeAdapter(kind, config=ANY).validate_python(text, context={"unit": "mm"})
    return found


def test_the_sample_holds_every_key_of_the_schema() -> None:
    text = (Path(__file__).parent / "every_key.yaml").read_text("utf-8")
    short = (Path(__file__).parent / "quarter_hour.yaml").read_text("utf-8")
    written = text + short
    for model in ALL:
        for info in model.model_fields.values():
            if info.alias not in (None, "furthest front"):
                assert f"{info.alias}:" in written
        for alias in model.SPLITS:
            assert f"{alias}:" in written
    assert parse(text).build.name == "Corvane Tourer, 1971"
