"""The measuring walk: which reading comes next, what is written of it, and what it lets us check."""

from trimwright.app.walk.figures import drawn_figures
from trimwright.app.walk.known import Known, known
from trimwright.app.walk.message import ReadBy, WalkMessage
from trimwright.app.walk.next import next_steps
from trimwright.app.walk.step import first_step
from trimwright.build import Loaded
from trimwright.quantities import shown_with_unit
from trimwright.stock import way


def walk(loaded: Loaded, version: str) -> WalkMessage:
    """Return the walk of a build: the first quarter of an hour, then what decides most.

    Parameters
    ----------
    loaded : Loaded
        The build with its text.
    version : str
        Names that text.
    """
    now = known(loaded)
    figures = drawn_figures(now)
    steps = [first_step(now, one, figures) for one in now.first]
    steps += next_steps(now, figures)
    return WalkMessage(
        version=version,
        unit=now.build.unit,
        read_by=_read_by(),
        stations=_stations(now),
        steps=tuple(steps),
    )


def _stations(now: Known) -> tuple[float, ...]:
    """Return the places along the car that have readings [mm], front to rear."""
    car = now.build.car
    places = [one.at.value for one in car.tunnel] + [r.along.value for r in car.dash_above_tunnel]
    return tuple(sorted({round(one, 1) for one in places}))


def _read_by() -> tuple[ReadBy, ...]:
    """Return the ways of reading that are offered, with the doubt of each, rounded up."""
    found = []
    for name in ("tape", "steel rule"):
        doubt = way(name).doubt_mm
        inch = shown_with_unit(doubt, "in", "up", step="fine").removesuffix(" in")
        found.append(ReadBy(name=name, mm=f"{doubt:g}", inch=inch, written=name != "tape"))
    return tuple(found)
