"""All entries of a build, one after another."""

from collections.abc import Iterator

from trimwright.build.entry import OWN_FIELDS, Entry


def held(entry: Entry) -> Iterator[tuple[str, int | None, Entry]]:
    """Yield the entries right below one: the field, the item's number if listed, the entry."""
    for name, value in entry:
        if name in OWN_FIELDS or value is None:
            continue
        if isinstance(value, Entry):
            yield name, None, value
        elif isinstance(value, tuple):
            for number, item in enumerate(value):
                if isinstance(item, Entry):
                    yield name, number, item


def entries(entry: Entry) -> Iterator[Entry]:
    """Yield an entry and every entry below it, in the order of the schema."""
    yield entry
    for _, _, below in held(entry):
        yield from entries(below)
