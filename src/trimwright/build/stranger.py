"""Names that have to be known: ways of measuring, layers, sheets, bolts."""

from collections.abc import Callable, Iterator
from functools import partial

from trimwright.build.fault import Fault
from trimwright.build.known import nearest
from trimwright.build.walk import entries
from trimwright.build.whole import Build
from trimwright.stock import bolt, rows, sheet, way

Say = Callable[..., Fault]  # of an entry, its field, what was found, expected, an example
ALWAYS_OVER = ("bare metal", "carpet")


def strangers(build: Build, say: Say) -> Iterator[Fault]:
    """Yield a fault for every name that neither the build nor the stock tables know.

    `say` makes a fault of an entry, its field, what was found, what was expected, an example.
    """
    overs = (*ALWAYS_OVER, *(layer.name for layer in build.car.layers))
    for entry in entries(build):
        by, over = entry.__dict__.get("by"), entry.__dict__.get("over")
        if by is not None and not _known(way, by):
            near = partial(_nearest, by, "reading")
            yield say(entry, "by", f'"{by}"', "a way of measuring", near)
        if over is not None and over not in overs:
            yield say(entry, "over", f'"{over}"', " | ".join(overs), on=("car.layers",))
    if build.console is None:
        return
    material = build.console.sheet.material
    if not _known(sheet, material):
        expected = "a sheet that the tables know"
        near = partial(_nearest, material, "sheet")
        yield say(build.console, "sheet", f'"{material}"', expected, near)
    for fixing in build.console.held_by:
        if not _known(bolt, fixing.bolt):
            near = partial(_nearest, fixing.bolt, "bolt", "inch_bolt")
            yield say(fixing, "bolt", f'"{fixing.bolt}"', "a thread that the tables know", near)


def _known(look_up: Callable[[str], object], name: str) -> bool:
    """Return whether a stock table has a row of that name."""
    try:
        look_up(name)
    except ValueError:
        return False
    return True


def _nearest(name: str, *tables: str) -> str:
    """Return the name in the tables that comes nearest, or else the first."""
    names = [row["name"] for table in tables for row in rows(table)]
    return nearest(name, names, 0.4) or names[0]
