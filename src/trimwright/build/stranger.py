"""Names that have to be known: ways of measuring, layers, sheets, bolts."""

from collections.abc import Callable, Iterator

from trimwright.build.entry import Entry
from trimwright.build.fault import Fault
from trimwright.build.walk import entries
from trimwright.build.whole import Build
from trimwright.stock import bolt, sheet, way

Say = Callable[[Entry, str, str, str], Fault]
ALWAYS_OVER = ("bare metal", "carpet")


def strangers(build: Build, say: Say) -> Iterator[Fault]:
    """Yield a fault for every name that neither the build nor the stock tables know.

    `say` makes a fault of an entry, its field, what was found and what was expected.
    """
    overs = (*ALWAYS_OVER, *(layer.name for layer in build.car.layers))
    for entry in entries(build):
        by, over = getattr(entry, "by", None), getattr(entry, "over", None)
        if by is not None:
            yield from _unknown(entry, "by", by, way, say)
        if over is not None and over not in overs:
            yield say(entry, "over", f'"{over}"', " | ".join(overs))
    if build.console:
        material = build.console.sheet.material
        yield from _unknown(build.console, "sheet", material, sheet, say)
        for fixing in build.console.held_by:
            yield from _unknown(fixing, "bolt", fixing.bolt, bolt, say)


def _unknown(
    entry: Entry, field: str, name: str, look_up: Callable[[str], object], say: Say
) -> Iterator[Fault]:
    """Yield a fault where a stock table has no such row; the table says which come near."""
    try:
        look_up(name)
    except ValueError as error:
        yield say(entry, field, f'"{name}"', f"a name in the tables: {error}")
