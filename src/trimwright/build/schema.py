"""The schema, asked by path."""

from trimwright.build.entry import OWN_FIELDS, Entry
from trimwright.build.node import Path
from trimwright.build.shape import inner_type
from trimwright.build.whole import Build


def model_at(path: Path) -> type[Entry] | None:
    """Return the model of the entry at a path of file keys, or None where there is none.

    Examples
    --------
    >>> model_at(("car", "tunnel", 2, "down 30")).__name__
    'Row'
    """
    model: type[Entry] = Build
    for step in path:
        if isinstance(step, int):
            continue
        names = {info.alias: name for name, info in model.model_fields.items() if info.alias}
        if step in names:
            field = names[step]
        elif model.FREE and model.FREE.pattern.fullmatch(step) and not model.FREE.scalar:
            field = model.FREE.into
        else:
            return None
        kind, _ = inner_type(model.model_fields[field].annotation)
        if not (isinstance(kind, type) and issubclass(kind, Entry)):
            return None
        model = kind
    return model


def key_order(path: Path) -> tuple[str, ...]:
    """Return the keys of the entry at a path in the order of the schema; none where unknown.

    Examples
    --------
    >>> key_order(("car", "carpet"))
    ('loose', 'squeezed by hand', 'pressed')
    """
    model = model_at(path)
    if model is None:
        return ()
    fields = model.model_fields.items()
    return tuple(
        info.alias or name.replace("_", " ") for name, info in fields if name not in OWN_FIELDS
    )


def fields_below(model: type[Entry]) -> list[tuple[str, type[Entry]]]:
    """Return the keys of a model that hold groups written key by key, each with its model.

    Examples
    --------
    >>> from trimwright.build import Seats
    >>> [(name, kind.__name__) for name, kind in fields_below(Seats)]
    [('left', 'Seat'), ('right', 'Seat')]
    """
    found = []
    for info in model.model_fields.values():
        kind, _ = inner_type(info.annotation)
        if isinstance(kind, type) and issubclass(kind, Entry) and kind.WHOLE is None:
            found.append((info.alias or "", kind))
    if model.FREE and not model.FREE.scalar:
        kind, _ = inner_type(model.model_fields[model.FREE.into].annotation)
        found = [(name or model.FREE.example.split(":")[0], one) for name, one in found]
    return [(name, kind) for name, kind in found if name]
