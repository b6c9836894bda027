"""What each reading usually is: one that lies far off is asked about before it is written."""

import re

from trimwright.app.walk.known import taken_apart
from trimwright.app.walk.need import Path
from trimwright.build import Fault, InputError
from trimwright.findings import Edit
from trimwright.quantities import Unit, length, shown_with_unit

# least and most of each reading [mm], wide enough for any car; common practice, no source
USUAL: tuple[tuple[str, float, float], ...] = (
    (r"carpet (loose|squeezed by hand)", 0.5, 80.0),
    (r"pressed .* thick", 0.5, 80.0),
    (r"dash above tunnel", 60.0, 700.0),
    (r"tunnel .* (height above floor|top)", 30.0, 500.0),
    (r"tunnel .* width at shoulder", 50.0, 600.0),
    (r"tunnel .* width at floor", 80.0, 1000.0),
    (r"tunnel .* down .* (left|right)", 15.0, 500.0),
    (r"tunnel .* girth floor to floor", 150.0, 2000.0),
    (r"tunnel .* at$", 0.0, 3000.0),
    (r"between seats at hip", 60.0, 800.0),
    (r"lever knob across", 15.0, 120.0),
    (r"lever knob .* behind datum", 0.0, 1200.0),
    (r"lever knob .* above tunnel", 40.0, 700.0),
    (r"lever knob furthest (left|right)", 0.0, 300.0),
    (r"console deck height", 40.0, 600.0),
    (r"console width", 60.0, 800.0),
    (r"console (from|to)$", 0.0, 3000.0),
)
SLIPS = (0.1, 10.0, 0.01, 100.0)  # a point too far to the left or right
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")


def refuse_unusual(edit: Edit, unit: Unit) -> None:
    """Raise a reading that lies far from what such a reading usually is, with what it may mean.

    Parameters
    ----------
    edit : Edit
        The reading as entered.
    unit : {'mm', 'in'}
        The unit of a bare figure.

    Raises
    ------
    InputError
        If it lies outside; the last of its readings is the figure as entered.

    Examples
    --------
    >>> refuse_unusual(Edit(("car", "between seats", "at hip"), "262 ± 4"), "mm")
    """
    span, figure = _span(edit.path), _figure(edit.value or "")
    if span is None:
        return
    mm = _mm(figure, unit)
    if mm is not None and span[0] <= mm <= span[1]:
        return
    other = _repaired(figure) if mm is None else _other(figure, unit)
    found = tuple(one for one in other if span[0] <= (_mm(one, unit) or -1.0) <= span[1])
    if mm is not None:
        low, high = (shown_with_unit(one, unit) for one in span)
        fault = Fault(1, edit.path, f'"{figure}"', f"{low} to {high}", "", (*found, figure))
    elif found:
        fault = Fault(1, edit.path, f'"{figure}"', "a length", found[0], found)
    else:
        return  # no figure at all: the file's own reader says what is wrong
    raise InputError("walk", (fault,))


def _span(path: Path) -> tuple[float, float] | None:
    words = " ".join(str(step) for step in path)
    return next(((low, high) for told, low, high in USUAL if re.search(told, words)), None)


def _figure(text: str) -> str:
    """Return the figure of a reading without doubt, side and what stands after it."""
    bare = re.sub(r"\s*\b(ahead|behind|left|right)\b", "", text.partition("±")[0]).strip()
    return taken_apart(bare, ())[0]


def _mm(figure: str, unit: Unit) -> float | None:
    """Return a figure in mm, None where it is none: the file's own reader says so better."""
    try:
        return length(figure, unit).value
    except ValueError:
        return None


def _other(figure: str, unit: Unit) -> list[str]:
    """Return what else may have been meant: the other unit, or a point in another place."""
    number = _NUMBER.match(figure)
    other = "in" if unit == "mm" else "mm"
    bare = re.sub(r"\s*(mm|in)$", "", figure)
    found = [f"{bare} {unit if figure.endswith(other) else other}"]
    if number is not None and number.group() == bare:
        value = float(bare.replace(",", "."))
        found += [f"{value * times:.10g}{figure[len(bare) :]}" for times in SLIPS]
    return found


def _repaired(figure: str) -> list[str]:
    """Return what a figure with more points than one may have been: any one of them the right one."""
    parts = re.split(r"[.,]+", figure)
    points = len(re.findall(r"[.,]", figure))
    if points < 2:  # noqa: PLR2004  one point, or none: nothing to repair
        return []
    kept = range(1, len(parts))
    return list(dict.fromkeys("".join(parts[:k]) + "." + "".join(parts[k:]) for k in kept))
