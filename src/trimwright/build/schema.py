"""The schema, asked by path."""

from trimwright.build.entry import Entry
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
    return tuple(info.alias for info in model.model_fields.values() if info.alias)
