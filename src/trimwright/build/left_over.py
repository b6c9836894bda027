"""What is left of a file once all that is at fault is set aside."""

from collections.abc import Collection
from typing import Any

from trimwright.build.entry import OWN_FIELDS, Entry
from trimwright.build.node import Path
from trimwright.build.shape import Loc, Shaped, field_kinds, inner_type, untold

GONE = object()


def left_over(raw: Any, model: type[Entry], shaped: Shaped, wrong: Collection[Path]) -> Any:  # noqa: ANN401  raw data
    """Return the raw data of an entry without what is at fault, None if nothing is left of it.

    Of what is at fault the smallest part goes that need not be written: a key that may be left
    out, or an item of a list. No value is put in its place.

    Parameters
    ----------
    raw : dict
        The data as it was shaped.
    model : type of Entry
        What it is the data of.
    shaped : Shaped
        Where each value was written.
    wrong : collection of Path
        The places at fault.
    """
    left = _value(raw, (model, False), (), (shaped, wrong))
    return None if left is GONE else left


def _value(raw: Any, kind: tuple[Any, bool], loc: Loc, by: tuple[Shaped, Collection[Path]]) -> Any:  # noqa: ANN401  raw data
    """Return what is left of one value, GONE if nothing is."""
    shaped, wrong = by
    place = shaped.places.get(loc)
    if raw is None or (place is not None and place.path in wrong):
        return GONE
    inner, many = kind
    if many:
        items = (_value(one, (inner, False), (*loc, n), by) for n, one in enumerate(raw))
        return tuple(one for one in items if one is not GONE)
    return _entry(raw, inner, loc, by) if isinstance(raw, dict) else raw


def _entry(
    raw: dict[str, Any], model: type[Entry], loc: Loc, by: tuple[Shaped, Collection[Path]]
) -> Any:  # noqa: ANN401  raw data
    """Return what is left of one group of keys, GONE if a key is that must be written."""
    left: dict[str, Any] = {}
    kinds = field_kinds(model)
    for name, value in raw.items():
        if name in OWN_FIELDS:
            left[name] = value
            continue
        field = kinds[name][0] if name in kinds else name
        info = model.model_fields[field]
        kind = inner_type(info.annotation)
        one = _value(value, kind, (*loc, name), by)
        if one is not GONE:
            left[name] = one
        elif info.is_required():
            return GONE
        elif info.default_factory is not None:
            left[name] = untold(kind[0], (*by[0].places[loc].path, name))
    return left
