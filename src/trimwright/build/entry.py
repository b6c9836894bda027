"""What every entry of a build file is: frozen, closed, and able to say where it was written."""

from functools import cache
from typing import Any, ClassVar, NamedTuple

from pydantic import BaseModel, ConfigDict, Field, model_validator

from trimwright.build.form import FreeKeys, Split


class Said(NamedTuple):
    """The key under which a value was written, and how many times the reading it is."""

    key: str
    times: float


class Entry(BaseModel):
    """One entry: a frozen mapping with known keys only.

    `key` is the entry's own place in the file ('car.tunnel.2.down 30'); `elsewhere` names the
    fields that a short form filled from another key, with their share of that reading; a share of
    0 is a figure that nobody wrote, and its key is where to write it.
    """

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        validate_by_name=True,
        validate_by_alias=True,
        arbitrary_types_allowed=True,
        defer_build=True,
    )

    WHOLE: ClassVar[Split | None] = None
    SPLITS: ClassVar[dict[str, Split]] = {}
    FREE: ClassVar[FreeKeys | None] = None
    WAY: ClassVar[str] = ""  # how such a thing is measured where nothing is said

    __slots__ = ("_hash",)  # kept, never copied: a build is asked for it hundreds of times

    key: str = Field(default="", repr=False)
    elsewhere: tuple[tuple[str, str, float], ...] = Field(default=(), repr=False)

    def __hash__(self) -> int:
        """Return a number that is the same for equal entries."""
        try:
            return int(object.__getattribute__(self, "_hash"))
        except AttributeError:
            found = hash(tuple(self.__dict__[name] for name in type(self).model_fields))
            object.__setattr__(self, "_hash", found)
            return found

    @model_validator(mode="before")
    @classmethod
    def _from_text(cls, data: Any) -> Any:  # noqa: ANN401  pydantic hands anything
        """Take an entry that was written as one text apart."""
        found = cls.WHOLE.pattern.fullmatch(data) if cls.WHOLE and isinstance(data, str) else None
        return found.groupdict() if found else data


OWN_FIELDS = frozenset({"key", "elsewhere"})


def said(entry: Entry, field: str) -> Said:
    """Return where the value of a field was written, and its share of what was written there.

    Parameters
    ----------
    entry : Entry
        Any part of a build.
    field : str
        The field's Python name.

    Returns
    -------
    Said
        The dotted file key, and the factor from that reading to this value: a distance between
        two seats gives each side half of it, so `times` is 0.5.

    Raises
    ------
    ValueError
        If the entry has no such field.

    Examples
    --------
    >>> from trimwright.build import EnginePlay
    >>> said(EnginePlay(key="car.engine moves"), "along")
    Said(key='car.engine moves.along', times=1.0)
    """
    for name, key, times in entry.elsewhere:
        if name == field:
            return Said(key, times)
    alias = _alias(type(entry), field)
    return Said(f"{entry.key}.{alias}" if entry.key else alias, 1.0)


@cache
def _alias(kind: type[Entry], field: str) -> str:
    """Return the key in the file of a field of a kind of entry."""
    fields = kind.model_fields
    if field not in fields or field in OWN_FIELDS:
        raise ValueError(f"field must be one of {kind.__name__}, got {field!r}")
    alike = (alias for alias, split in kind.SPLITS.items() if field in split.alike)
    return fields[field].alias or next(alike, field.replace("_", " "))


def keys_of(entry: Entry, *fields: str) -> tuple[str, ...]:
    """Return the dotted file keys of some fields of an entry."""
    return tuple(said(entry, name).key for name in fields)


def list_of(item: Entry) -> tuple[str, ...]:
    """Return the dotted file key of the list that an entry is an item of, alone in a tuple."""
    return (item.key.rpartition(".")[0],)
