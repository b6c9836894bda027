"""The nodes of a file laid out as the schema wants them, with where each value was written."""

import re
from functools import cache
from types import UnionType
from typing import Any, Union, get_args, get_origin

from msgspec import Struct, field

from trimwright.build.compose import found_in
from trimwright.build.document import dotted
from trimwright.build.entry import Entry
from trimwright.build.fault import Fault, quoted
from trimwright.build.form import FreeKeys, Split
from trimwright.build.known import MOST_GUESSES, nearest
from trimwright.build.node import Mapping, Node, Path, Scalar, Sequence

LONGEST = 400  # characters of one value

Loc = tuple[str | int, ...]


class Place(Struct, frozen=True):
    """Where a value stands: its file path, its line, its text if it has one.

    `split` says how the text was taken apart, where it fills several fields.
    """

    path: Path
    line: int
    text: str | None
    split: Split | None = None


class Shaped(Struct):
    """What the file holds, laid out for the schema, and all that does not fit it."""

    places: dict[Loc, Place] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    wrong: set[Path] = field(default_factory=set)  # where they are
    strays: set[Path] = field(default_factory=set)  # keys with no place, or written twice
    guesses: int = 0

    def refuse(self, fault: Fault, stray: Path | None = None) -> None:
        """Note a fault and where it is; `stray` is the key that has no place, if it is one."""
        self.faults.append(fault)
        self.wrong.add(fault.path if stray is None else stray)
        if stray is not None:
            self.strays.add(stray)


@cache
def field_kinds(model: type[Entry]) -> dict[str, tuple[str, Any, bool]]:
    """Return a model's file keys: each with its field, the type inside, and whether it is a list."""
    return {
        info.alias: (name, *inner_type(info.annotation))
        for name, info in model.model_fields.items()
        if info.alias
    }


def inner_type(annotation: Any) -> tuple[Any, bool]:  # noqa: ANN401  any annotation
    """Return the type inside an optional or a tuple, and whether it is a tuple."""
    if get_origin(annotation) in (Union, UnionType):
        annotation = next(one for one in get_args(annotation) if one is not type(None))
    if get_origin(annotation) is tuple:
        return get_args(annotation)[0], True
    return annotation, False


def _is_entry(kind: Any) -> bool:  # noqa: ANN401  any annotation
    return isinstance(kind, type) and issubclass(kind, Entry)


def shape_entry(node: Node, model: type[Entry], path: Path, loc: Loc, out: Shaped) -> Any:  # noqa: ANN401  raw data
    """Return the raw data of one entry, or None where nothing can be made of the node."""
    out.places[loc] = Place(path, node.line, node.text if isinstance(node, Scalar) else None)
    whole = model.WHOLE
    if isinstance(node, Scalar) and whole is not None:
        raw = _split(node, whole, path, loc, out)
        if raw is not None and whole.main:
            raw["elsewhere"] = ((whole.main, dotted(path), 1.0),)
    elif isinstance(node, Mapping) and whole is None:
        raw = _shape_pairs(node, model, path, loc, out)
    else:
        expected = whole.expected if whole else "a group of keys"
        example = whole.example if whole else first_example(model)
        out.refuse(Fault(node.line, path, found_in(node), expected, example))
        return None
    if raw is not None:
        raw["key"] = dotted(path)
    return raw


def first_example(model: type[Entry]) -> str:
    """Return one right line of an entry."""
    told = [info for info in model.model_fields.values() if info.alias and info.examples]
    told.sort(key=lambda info: not info.is_required())
    return f"{told[0].alias}: {told[0].examples[0]}" if told and told[0].examples else ""


def _shape_pairs(
    node: Mapping, model: type[Entry], path: Path, loc: Loc, out: Shaped
) -> dict[str, Any]:
    """Return the raw data of a group of keys."""
    kinds, splits, free = field_kinds(model), model.SPLITS, model.FREE
    raw: dict[str, Any] = {}
    seen: dict[str, int] = {}
    for key, value in node.pairs:
        name, here = key.text, (*path, key.text)
        match = free.pattern.fullmatch(name) if free and len(name) <= LONGEST else None
        if name in seen:
            found = f'"{name}" a second time (first on line {seen[name]})'
            out.refuse(Fault(key.line, here, found, "each key once"), here)
        elif name in kinds:
            raw[name] = shape_value(value, kinds[name][1:], here, (*loc, name), out)
        elif name in splits:
            raw |= _split(value, splits[name], here, loc, out) or {}
        elif free and match:
            kind, _ = inner_type(model.model_fields[free.into].annotation)
            items = raw.setdefault(free.into, [])
            at = (here, (*loc, free.into, len(items)))
            items.append(_free_item(value, kind, free, at, out))
            _say(free, key, match, at, items, out)
        else:
            out.refuse(_unknown(key, here, [*kinds, *splits], free, out), here)
        seen.setdefault(name, key.line)
    for name, kind in _parts(model).items():
        if name not in seen:
            raw[name] = untold(kind, (*path, name))
    return raw


@cache
def _parts(model: type[Entry]) -> dict[str, type[Entry]]:
    """Return the keys of a model that hold an entry of defaults when nothing is written."""
    return {
        name: kind
        for name, (field_name, kind, _) in field_kinds(model).items()
        if model.model_fields[field_name].default_factory is not None
    }


def untold(kind: type[Entry], path: Path) -> dict[str, Any]:
    """Return the raw data of an entry that nothing was written for."""
    below = {name: untold(part, (*path, name)) for name, part in _parts(kind).items()}
    return below | {"key": dotted(path)}


def shape_value(
    node: Node,
    kind: tuple[Any, bool],
    path: Path,
    loc: Loc,
    out: Shaped,
) -> Any:  # noqa: ANN401  raw data
    """Return the raw data of one field's value: of the type inside, and a list of it if so."""
    inner, many = kind
    out.places[loc] = Place(path, node.line, node.text if isinstance(node, Scalar) else None)
    if many:
        if not isinstance(node, Sequence):
            out.refuse(Fault(node.line, path, found_in(node), "a list", "- ..."))
            return ()
        return tuple(
            shape_value(item, (inner, False), (*path, number), (*loc, number), out)
            for number, item in enumerate(node.items)
        )
    if _is_entry(inner):
        return shape_entry(node, inner, path, loc, out)
    if isinstance(node, Scalar) and node.text and len(node.text) <= LONGEST:
        return node.text
    expected = "one value" if not isinstance(node, Scalar) else f"at most {LONGEST} characters"
    if isinstance(node, Scalar) and not node.text:
        expected = "a value, or no such key"
    out.refuse(Fault(node.line, path, found_in(node), expected))
    return None


def _split(node: Node, split: Split, path: Path, loc: Loc, out: Shaped) -> dict[str, Any] | None:
    """Return the fields that one text fills."""
    text = node.text.strip() if isinstance(node, Scalar) else ""
    match = split.pattern.fullmatch(text) if len(text) <= LONGEST else None
    if not match:
        out.refuse(Fault(node.line, path, found_in(node), split.expected, split.example))
        return None
    raw: dict[str, Any] = {}
    for name, part in match.groupdict().items():
        if part and name.endswith("_more"):
            raw[name.removesuffix("_more")] += part
        elif part:
            raw[name] = part
    for name in raw:
        out.places[(*loc, name)] = Place(path, node.line, text, split)
    return raw


def _free_item(
    value: Node, kind: type[Entry], free: FreeKeys, at: tuple[Path, Loc], out: Shaped
) -> dict[str, Any] | None:
    """Return the item under a key with a figure in it, without what the key itself says."""
    path, loc = at
    if not free.scalar:
        item: dict[str, Any] | None = shape_entry(value, kind, path, loc, out)
        return item
    text = shape_value(value, (str, False), path, (*loc, free.scalar), out)
    return {
        free.scalar: text,
        "key": dotted(path),
        "elsewhere": ((free.scalar, dotted(path), 1.0),),
    }


def _say(
    free: FreeKeys,
    key: Scalar,
    match: re.Match[str],
    at: tuple[Path, Loc],
    items: list[dict[str, Any] | None],
    out: Shaped,
) -> None:
    """Add what a key with a figure in it says to its item, the last one."""
    path, loc = at
    said = free.item(key.text, match)
    for name, text in said.items():
        out.places[(*loc, name)] = Place(path, key.line, text)
    if items[-1] is not None:
        items[-1] |= said


def _unknown(
    key: Scalar, path: Path, known: list[str], free: FreeKeys | None, out: Shaped
) -> Fault:
    """Return the fault of a key that has no place here, with the nearest that has."""
    out.guesses += 1
    near = nearest(key.text.lower(), known) if out.guesses <= MOST_GUESSES else ""
    example = near or (free.example if free else "")
    listed = " | ".join(known) if len(known) <= 8 else "a key of this group"  # noqa: PLR2004  a line's worth
    return Fault(key.line, path[:-1], f"the key {quoted(key.text)}", listed, example)
