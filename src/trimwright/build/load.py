"""Reading a build file: all of it, or every fault in it at once."""

from collections.abc import Iterable
from pathlib import Path as FilePath
from typing import Any

from msgspec import Struct
from pydantic import ValidationError

from trimwright.build.agreement import disagreements
from trimwright.build.aside import Aside, on_lines
from trimwright.build.compose import composed
from trimwright.build.document import Document, document
from trimwright.build.fault import Fault, InputError
from trimwright.build.left_over import left_over
from trimwright.build.misfit import misfits
from trimwright.build.node import Node, child
from trimwright.build.picture_file import strays
from trimwright.build.shape import Shaped, shape_entry
from trimwright.build.short_form import long_form
from trimwright.build.source import source_text
from trimwright.build.trap import node_traps, text_traps
from trimwright.build.version import keep_older, up_to_date
from trimwright.build.whole import Build
from trimwright.quantities import Unit


class Loaded(Struct, frozen=True):
    """A build with the text it was read from."""

    build: Build
    text: str
    document: Document


def load(path: FilePath | str) -> Loaded:
    """Return the build in a file; a file in an older format is brought up to date.

    Before an older file is rewritten in the newest format, it is kept as it was beside it, as
    `build.yaml.format-0`. A file that cannot be used stays as it is.

    Raises
    ------
    InputError
        If there is no such file, or anything in it needs a look.
    """
    where = FilePath(path)
    text = source_text(where)
    loaded = _read(text, where.name, where)
    if loaded.text != text:
        keep_older(where, text, loaded.text)
    return loaded


def parse(text: str, name: str = "build.yaml") -> Loaded:
    r"""Return the build written in a text.

    Parameters
    ----------
    text : str
        The whole file. If it is in an older format, it is read as brought up to date.
    name : str, default 'build.yaml'
        The file's name, for messages.

    Raises
    ------
    InputError
        Every fault at once, each with its line, its key, what was found, what was expected and
        one right example.

    Examples
    --------
    >>> words = "build: Larkspur estate\nunit: mm\ncar:\n  carpet:\n    loose: 15 ± 1\n"
    >>> parse(words).build.car.carpet.loose.value
    15.0
    """
    return _read(text, name, None)


def _read(text: str, name: str, path: FilePath | None) -> Loaded:
    """Return the build written in a text, which may stand in a file beside its pictures."""
    _refuse(name, text_traps(text))
    root = composed(text, name)
    newest = up_to_date(text, root, name)
    if newest != text:
        text, root = newest, composed(newest, name)
    where = document(name, text, root)
    shaped = Shaped()
    raw = shape_entry(root, Build, (), (), shaped)
    build, misfit = _validated(raw or {}, _unit(root), shaped)
    traps = node_traps(root, text)
    if build is None or traps or shaped.faults:
        wrong = shaped.wrong | {one.path for one in misfit}
        wrong |= on_lines(root, {one.line for one in traps})
        left, _ = _validated(left_over(raw, Build, shaped, wrong) or {}, _unit(root), shaped)
        aside = Aside(where, wrong, shaped.strays)
        follow = _disagreements(left, where, path) if left else []
        _refuse(name, [*_once(traps, shaped, misfit), *(f for f in follow if not aside.touches(f))])
        raise AssertionError(f"{name}: no fault was named")
    _refuse(name, _disagreements(build, where, path))
    return Loaded(long_form(build), text, where)


def _once(traps: list[Fault], shaped: Shaped, misfit: list[Fault]) -> list[Fault]:
    """Return the faults of single entries, without those that another one brought about."""
    trapped = {fault.line for fault in traps}
    faults = [*traps, *(fault for fault in shaped.faults if fault.line not in trapped)]
    said = {(fault.line, fault.path) for fault in (*faults, *shaped.faults)}
    return [*faults, *(fault for fault in misfit if (fault.line, fault.path) not in said)]


def _disagreements(build: Build, where: Document, path: FilePath | None) -> list[Fault]:
    """Return what the entries of a build do not agree on, its pictures beside it included."""
    return [*disagreements(build, where), *(strays(build, where, path) if path else ())]


def _refuse(name: str, faults: Iterable[Fault]) -> None:
    """Raise all faults, each said once."""
    once = dict.fromkeys(faults)
    if once:
        raise InputError(name, tuple(once))


def _unit(root: Node) -> Unit:
    """Return the unit the file names; any other is a fault of its own, and mm reads on."""
    return "in" if getattr(child(root, "unit"), "text", "") == "in" else "mm"


def _validated(raw: Any, unit: Unit, shaped: Shaped) -> tuple[Build | None, list[Fault]]:  # noqa: ANN401  raw data
    """Return the build, or None and what does not fit."""
    try:
        return Build.model_validate(raw, context={"unit": unit}), []
    except ValidationError as error:
        return None, misfits(error, shaped)
