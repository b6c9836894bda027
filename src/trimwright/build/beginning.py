"""How a build begins: a file with what is known, and the readings of the first quarter of an hour."""

from msgspec import Struct

from trimwright.build.node import Path
from trimwright.build.spelling import spelled
from trimwright.build.splice import edited
from trimwright.findings import Edit
from trimwright.quantities import Unit


class First(Struct, frozen=True):
    """One of the first readings: where it is written, and an example of it in either unit.

    `needs` are the paths without which the file cannot hold it.
    """

    path: Path
    mm: str
    inch: str
    needs: tuple[Path, ...] = ()

    def example(self, unit: Unit) -> str:
        """Return the example as it is written in a unit."""
        return self.mm if unit == "mm" else self.inch


_DATUM, _DASH = ("car", "datum"), ("car", "dash above tunnel")
_SECTION: Path = ("car", "tunnel", 0)
_AT: Path = (*_SECTION, "at")
_MARKS = "two marks that stay visible after deadener and carpet, string across"


def _together(base: Path, *rows: tuple[tuple[str, ...], str, str]) -> tuple[First, ...]:
    """Return the readings of a group that a file holds only as a whole."""
    paths = tuple((*base, *name) for name, _, _ in rows)
    return tuple(
        First(path, mm, inch, tuple(other for other in paths if other != path))
        for path, (_, mm, inch) in zip(paths, rows, strict=True)
    )


def first_readings(unit: Unit) -> tuple[First, ...]:
    """Return the readings of the first quarter of an hour, in the order they are taken.

    Examples
    --------
    >>> [one.path[-1] for one in first_readings("in")][4:6]
    ['2 1/2 ahead', 'at datum']
    """
    ahead = "60 ahead" if unit == "mm" else "2 1/2 ahead"
    return (
        *_together(
            _DATUM,
            (("marks",), _MARKS, _MARKS),
            (("top of tunnel here",), "bare metal", "bare metal"),
        ),
        First(("car", "carpet", "loose"), "15 ± 2", "5/8 ± 1/16"),
        First(("car", "carpet", "squeezed by hand"), "6 ± 1", "1/4"),
        First((*_DASH, ahead), "230 ± 5", "9 ± 1/4"),
        First((*_DASH, "at datum"), "230 ± 5", "9 ± 1/4"),
        First(_AT, "300 behind", "12 behind"),
        First((*_SECTION, "height above floor"), "180", "7", (_AT,)),
        First((*_SECTION, "width at shoulder"), "200", "8", (_AT,)),
        First((*_SECTION, "width at floor"), "340", "13 1/2", (_AT,)),
        First(("car", "between seats", "at hip"), "262 ± 4", "10 1/4 ± 1/8"),
        *_together(
            ("car", "lever knob"),
            (("across",), "48", "1 7/8"),
            (("neutral", "behind datum"), "150", "6"),
            (("neutral", "above tunnel"), "270", "10 1/2"),
            (("furthest left",), "60", "2 3/8"),
            (("furthest right",), "60", "2 3/8"),
            (("furthest rear", "behind datum"), "230", "9"),
            (("furthest rear", "above tunnel"), "270", "10 1/2"),
        ),
        *_together(
            ("console",),
            (("deck height",), "200", "8"),
            (("width",), "236", "9 1/4"),
            (("from",), "60 ahead", "2 1/2 ahead"),
            (("to",), "690 behind", "27 behind"),
        ),
    )


def beginning(name: str, unit: Unit, driver: str) -> str:
    r"""Return a new build file: its name, its unit, where the driver sits, and no figure.

    Examples
    --------
    >>> beginning("Larkspur estate", "mm", "right")
    'build: Larkspur estate\nunit: mm\ndriver: right\n'
    """
    return f"build: {spelled(name, flow=False)}\nunit: {unit}\ndriver: {driver}\n"


def filled_in(text: str, unit: Unit) -> str:
    """Return a file's text with an example written for every first reading."""
    return edited(text, (Edit(one.path, one.example(unit)) for one in first_readings(unit)))
