"""The schema laid over a file: every key that is written or could be, each with what it is."""

from collections.abc import Iterator
from typing import Any, Literal, get_args, get_origin

from msgspec import Struct
from msgspec.structs import replace
from pydantic.fields import FieldInfo

from trimwright.build.compose import composed
from trimwright.build.entry import Entry
from trimwright.build.form import FreeKeys, Split
from trimwright.build.known_names import Known, known
from trimwright.build.node import Mapping, Node, Path, Scalar, Sequence, child
from trimwright.build.reading import NAMING, roles
from trimwright.build.shape import inner_type
from trimwright.build.whole import Build

Kind = Literal["value", "group", "list"]


class Field(Struct, frozen=True):
    """One key of a build file.

    Attributes
    ----------
    path : tuple of str or int
        Where it stands or would stand.
    key : str
        The key; of an item of a list, what tells it from its neighbours.
    says : str
        What it is.
    kind : {'value', 'group', 'list'}
        Whether it holds one text, keys, or items.
    sort : str
        What a figure is: 'measured length', 'chosen place along'; empty for words.
    example : str
        How a value may be written.
    choices : tuple of str
        What it may be, where that is a few words.
    offers : tuple of str
        What it is likely to be, where any other text will do as well.
    left_out : str
        What is assumed where it is left out.
    required : bool
        Whether it has to be there once what holds it is there.
    value : str or None
        As typed; None where nothing is written, or no single text.
    line : int
        Where it is written, from 1; 0 where it is not.
    below : tuple of Field
        What it holds, in the order of the schema.
    more : Field or None
        What can be added to it, with nothing written.
    named : bool
        Of what can be added: whether the builder chooses its key, of which `key` is an example.
    """

    path: Path
    key: str
    says: str
    kind: Kind
    sort: str = ""
    example: str = ""
    choices: tuple[str, ...] = ()
    offers: tuple[str, ...] = ()
    left_out: str = ""
    required: bool = False
    value: str | None = None
    line: int = 0
    below: tuple["Field", ...] = ()
    more: "Field | None" = None
    named: bool = False


def layout(text: str) -> Field:
    r"""Return every key of a build file, written or not, as one tree.

    Parameters
    ----------
    text : str
        The file. It may hold what the schema refuses; that has no place in the tree.

    Raises
    ------
    InputError
        If the text cannot be read as a build file at all.

    Examples
    --------
    >>> tree = layout("build: Larkspur estate\nunit: mm\ncar: {carpet: {loose: 15 ± 1}}\n")
    >>> carpet = next(one for one in tree.below[6].below if one.key == "carpet")
    >>> [(one.key, one.value) for one in carpet.below]
    [('loose', '15 ± 1'), ('squeezed by hand', None), ('pressed', None)]
    """
    root = composed(text)
    below = tuple(_keys(Build, root, (), known(root)))
    return Field((), "the build", "", "group", below=below, line=1)


def _keys(model: type[Entry], node: Node | None, path: Path, names: Known) -> Iterator[Field]:
    """Yield the fields of a group: its keys, its texts for several, its keys with a figure."""
    sorts = {name: f"{role.role} {role.sort}" for name, role in roles(model)}
    told = set[str]()
    for name, info in model.model_fields.items():
        split = next((one for one in model.SPLITS if name in _fills(model, one)), "")
        if info.alias:
            one = _field(info, node, (*path, info.alias), names)
            yield replace(
                one,
                sort=sorts.get(name, ""),
                choices=one.choices or names.choices(model, name),
                offers=names.offers(model, name),
            )
        elif split and split not in told:
            told.add(split)
            one = _text(model.SPLITS[split], (*path, split), child(node, split) if node else None)
            required = any(info.is_required() for info in _fills(model, split).values())
            yield replace(one, required=required, line=_line(node, split))


def _fills(model: type[Entry], split: str) -> dict[str, FieldInfo]:
    """Return the fields that a text for several fills."""
    names = model.SPLITS[split].pattern.groupindex
    return {name: info for name, info in model.model_fields.items() if name in names}


def _line(node: Node | None, key: str | int) -> int:
    """Return the line on which a key or item is written, 0 where it is not."""
    if isinstance(node, Mapping):
        return next((name.line for name, _ in node.pairs if name.text == key), 0)
    below = child(node, key) if node else None
    return below.line if below else 0


def _field(info: FieldInfo, holder: Node | None, path: Path, names: Known) -> Field:
    """Return the field of a key that holds a value, a group or a list."""
    kind, many = inner_type(info.annotation)
    node = child(holder, path[-1]) if holder else None
    one = _held(kind, node, path, names, many=many)
    default = info.default if isinstance(info.default, str) else ""
    return replace(
        one,
        key=str(path[-1]),
        says=(info.description or "").removesuffix("."),
        example=one.example or (str(info.examples[0]) if info.examples else ""),
        left_out=default,
        required=info.is_required(),
        line=_line(holder, path[-1]),
    )


def _held(
    kind: Any,  # noqa: ANN401  any annotation
    node: Node | None,
    path: Path,
    names: Known,
    *,
    many: bool,
) -> Field:
    """Return what a key or an item holds, without what its key says of it."""
    if many:
        return _list(kind, node, path, names)
    if isinstance(kind, type) and issubclass(kind, Entry):
        if kind.WHOLE:
            return _text(kind.WHOLE, path, node)
        says = (kind.__doc__ or "").strip().splitlines()[0].removesuffix(".")
        below = (*_keys(kind, node, path, names), *_free(kind, node, path, names))
        more = _more_keys(kind, path, names, {one.key for one in below}) if kind.FREE else None
        return Field(path, str(path[-1]), says, "group", below=below, more=more)
    value = node.text if isinstance(node, Scalar) else None
    choices = get_args(kind) if get_origin(kind) is Literal else ()
    return Field(path, str(path[-1]), "", "value", choices=choices, value=value)


def _text(split: Split, path: Path, node: Node | None) -> Field:
    """Return a field whose one text fills several."""
    value = node.text if isinstance(node, Scalar) else None
    return Field(path, str(path[-1]), split.expected, "value", example=split.example, value=value)


def _list(kind: Any, node: Node | None, path: Path, names: Known) -> Field:  # noqa: ANN401  any annotation
    """Return a list with its items and what one more would be."""
    items = node.items if isinstance(node, Sequence) else []
    below = []
    for number, item in enumerate(items):
        one = _held(kind, item, (*path, number), names, many=False)
        below.append(replace(one, key=_named(one, number), line=item.line))
    more = _held(kind, None, (*path, len(items)), names, many=False)
    return Field(path, str(path[-1]), "", "list", below=tuple(below), more=more)


def _named(item: Field, number: int) -> str:
    """Return what tells an item of a list from its neighbours."""
    told = {one.key: one.value for one in item.below if one.value}
    name = next((one for one in NAMING if one in told), "")
    if not name:
        return str(number + 1)
    text = told[name].split("±")[0].strip()
    return f"at {text}" if name == "at" else text


def _free(model: type[Entry], node: Node | None, path: Path, names: Known) -> Iterator[Field]:
    """Yield the keys of a group that carry a figure, as written."""
    free = model.FREE
    if free is None or not isinstance(node, Mapping):
        return
    for key, value in node.pairs:
        if free.pattern.fullmatch(key.text):
            one = _free_key(model, free, value, (*path, key.text), names)
            yield replace(one, key=key.text, line=key.line)


def _more_keys(model: type[Entry], path: Path, names: Known, taken: set[str]) -> Field | None:
    """Return one more key with a figure in it beside those taken, with nothing written."""
    free = model.FREE
    if free is None:
        return None
    key, _, example = free.example.partition(": ")
    place = f"another {key}" if key in taken else key  # no two fields are at one place
    one = _free_key(model, free, None, (*path, place), names)
    return replace(one, key=key, example=example, named=True)


def _free_key(
    model: type[Entry], free: FreeKeys, node: Node | None, path: Path, names: Known
) -> Field:
    """Return what a key with a figure in it holds."""
    kind, _ = inner_type(model.model_fields[free.into].annotation)
    says = (kind.__doc__ or "").strip().splitlines()[0].removesuffix(".")
    if free.scalar:
        value = node.text if isinstance(node, Scalar) else None
        sort = next(f"{r.role} {r.sort}" for name, r in roles(kind) if name == free.scalar)
        return Field(path, str(path[-1]), says, "value", sort=sort, value=value)
    return _held(kind, node, path, names, many=False)
