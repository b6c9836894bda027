"""The schema in words: what a builder may write, read off the models themselves."""

from typing import Literal, get_args, get_origin

from pydantic.fields import FieldInfo

from trimwright.build.entry import Entry
from trimwright.build.reading import roles
from trimwright.build.schema import fields_below
from trimwright.build.shape import inner_type
from trimwright.build.whole import Build

_OPENING = """\
# What a build file holds

A build file is plain text, one `key: value` on a line. A bare length is in the unit the file
names; any other unit is written out: `3/4 in`, `1-1/2"`, `6 ft 2 in`, `12,5 mm`. A figure that was
**measured** may carry its doubt, `19 ± 2`: a bet of 19 to 1 that it is no further off. A figure
that is **chosen** carries none. Places say which way: `60 ahead`, `300 behind`, `80 left`,
`40 right`, `20 up`. Write `#` and a space for a remark; put text in quotes if it holds `: ` or `#`.

Only `build` and `unit` have to be there. What is not written is either assumed, and listed as
assumed, or missing, and named as missing.
"""


def describe(model: type[Entry] = Build) -> str:
    """Return every key of the schema with what it is, an example and its default, as Markdown.

    Parameters
    ----------
    model : type of Entry, default Build
        Where to begin.

    Examples
    --------
    >>> print(describe().splitlines()[0])
    # What a build file holds
    """
    lines = [_OPENING] if model is Build else []
    lines += _group("the file" if model is Build else model.__name__, model)
    return "\n".join(lines)


def _group(path: str, model: type[Entry]) -> list[str]:
    """Return the lines of one group of keys and all groups below it."""
    doc = (model.__doc__ or "").strip().splitlines()[0]
    lines = [f"## {path}", "", doc, ""]
    lines += [*_table(model), ""]
    for name, kind in fields_below(model):
        below = name if path == "the file" else f"{path} > {name}"
        lines += _group(below, kind)
    return lines


def _table(model: type[Entry]) -> list[str]:
    """Return one group's keys as a table."""
    sorts = dict(roles(model))
    rows = ["| key | what it is | for example | if left out |", "| --- | --- | --- | --- |"]
    for name, info in model.model_fields.items():
        if info.alias:
            role = sorts.get(name)
            says = (info.description or "").removesuffix(".")
            sort = f", {role.role} {role.sort}" if role else ""
            cells = (info.alias, f"{says}{sort}", _example(info), _left_out(info))
            rows.append(f"| `{cells[0]}` | {cells[1]} | {cells[2]} | {cells[3]} |")
    for alias, split in model.SPLITS.items():
        rows.append(f"| `{alias}` | {split.expected} (measured) | `{split.example}` | |")
    if model.FREE:
        rows.append(f"| {model.FREE.key} | {model.FREE.says} | `{model.FREE.example}` | |")
    return rows


def _example(info: FieldInfo) -> str:
    """Return a field's example, or the words it may be."""
    kind, _ = inner_type(info.annotation)
    if get_origin(kind) is Literal:
        return ", ".join(f"`{word}`" for word in get_args(kind))
    return f"`{info.examples[0]}`" if info.examples else ""


def _left_out(info: FieldInfo) -> str:
    """Return what holds when a key is not written."""
    if info.is_required():
        return "has to be there"
    if isinstance(info.default, str):
        return f"`{info.default}`, assumed"
    return "" if info.default_factory is None else "its defaults"
