"""What the schema refuses, said in the builder's words."""

from typing import Any

from pydantic import ValidationError

from trimwright.build.entry import Entry
from trimwright.build.fault import Fault, quoted
from trimwright.build.node import Path
from trimwright.build.shape import Loc, Place, Shaped, inner_type
from trimwright.build.whole import Build
from trimwright.quantities import QuantityError


def misfits(error: ValidationError, shaped: Shaped) -> list[Fault]:
    """Return the schema's refusals as faults."""
    refused = error.errors(include_url=False, include_input=True)
    return [_fault(one, shaped) for one in refused]


def _place(loc: Loc, shaped: Shaped) -> Place:
    """Return where a value was written, or the nearest thing above it."""
    while loc and loc not in shaped.places:
        loc = loc[:-1]
    return shaped.places.get(loc, Place((), 1, None))


def _fault(one: Any, shaped: Shaped) -> Fault:  # noqa: ANN401  pydantic's error
    """Return one refusal as a fault."""
    loc: Loc = one["loc"]
    place = _place(loc, shaped)
    if one["type"] == "missing":
        return _missing(loc, place)
    cause = one.get("ctx", {}).get("error")
    text = place.text if place.text is not None else str(one["input"])
    if isinstance(cause, QuantityError):
        right = (cause.expected, cause.example, cause.readings)
        if place.split and not cause.readings:
            right = (place.split.expected, place.split.example, ())
        return Fault(place.line, place.path, quoted(text), *right)
    expected = one["msg"]
    if one["type"] == "literal_error":
        expected = one["ctx"]["expected"].replace("'", "")
    elif one["type"].startswith("int"):
        expected = "a whole number"
    return Fault(place.line, place.path, quoted(text), expected, _example(loc))


def _missing(loc: Loc, place: Place) -> Fault:
    """Return the fault of a key that has to be written."""
    model, name = _model(loc[:-1]), str(loc[-1])
    for alias, split in model.SPLITS.items():
        if name in split.pattern.groupindex:
            return Fault(
                place.line, place.path, f"no {alias}", split.expected, f"{alias}: {split.example}"
            )
    path: Path = place.path
    return Fault(place.line, path, f"no {name}", f"the key {name}", f"{name}: {_example(loc)}")


def _model(loc: Loc) -> type[Entry]:
    """Return the model that a location in the data belongs to."""
    model: type[Entry] = Build
    for step in loc:
        if isinstance(step, int):
            continue
        names = {info.alias or name: name for name, info in model.model_fields.items()}
        kind, _ = inner_type(model.model_fields[names.get(step, step)].annotation)
        model = kind
    return model


def _example(loc: Loc) -> str:
    """Return the right example of a field, or of an item of a list of words."""
    while isinstance(loc[-1], int):
        loc = loc[:-1]
    model, name = _model(loc[:-1]), loc[-1]
    for field, info in model.model_fields.items():
        if name in (info.alias, field) and info.examples:
            return str(info.examples[0])
    return ""
