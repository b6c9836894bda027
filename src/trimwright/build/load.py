"""Reading a build file: all of it, or every fault in it at once."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any

from pydantic import ValidationError

from trimwright.build.agreement import disagreements
from trimwright.build.compose import composed
from trimwright.build.document import Document, document
from trimwright.build.fault import Fault, InputError
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


@dataclass(frozen=True, slots=True)
class Loaded:
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
    loaded = parse(text, where.name)
    _refuse(where.name, strays(loaded.build, loaded.document, where))
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
    _refuse(name, text_traps(text))
    root = composed(text, name)
    newest = up_to_date(text, root, name)
    if newest != text:
        text, root = newest, composed(newest, name)
    shaped = Shaped()
    raw = shape_entry(root, Build, (), (), shaped)
    faults = node_traps(root, text)
    trapped = {fault.line for fault in faults}
    faults += [fault for fault in shaped.faults if fault.line not in trapped]
    build = _validated(raw or {}, _unit(root), shaped, faults)
    where = document(name, text, root)
    if build is None or faults:
        _refuse(name, faults)
        raise AssertionError(f"{name}: no fault was named")
    _refuse(name, disagreements(build, where))
    return Loaded(long_form(build), text, where)


def _refuse(name: str, faults: Iterable[Fault]) -> None:
    """Raise all faults, each said once."""
    once = dict.fromkeys(faults)
    if once:
        raise InputError(name, tuple(once))


def _unit(root: Node) -> Unit:
    """Return the unit the file names; any other is a fault of its own, and mm reads on."""
    return "in" if getattr(child(root, "unit"), "text", "") == "in" else "mm"


def _validated(raw: Any, unit: Unit, shaped: Shaped, faults: list[Fault]) -> Build | None:  # noqa: ANN401  raw data
    """Return the build, or None and what does not fit added to the faults."""
    try:
        return Build.model_validate(raw, context={"unit": unit})
    except ValidationError as error:
        faults += misfits(error, shaped, [*faults, *shaped.faults])
    return None
