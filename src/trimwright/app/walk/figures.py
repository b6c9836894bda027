"""The figures that the walk's drawings are made with."""

from msgspec.structs import replace

from trimwright.app.walk.known import Known, wide_section
from trimwright.app.walk.tape_picture import Figures
from trimwright.build import beginning, figures_of, filled_in, parse


def drawn_figures(now: Known) -> Figures:
    """Return the figures that drawings are made with: those of the build, else of the example."""
    unit = now.build.unit
    example = figures_of(parse(filled_in(beginning("example", unit, "right"), unit)).build)
    own = figures_of(now.build)
    section = f"car.tunnel.{wide_section(now.build.car.tunnel) or 0}"

    def mm(name: str) -> float:
        return (own.get(name) or example[name.replace(section, "car.tunnel.0")]).value

    heights = [r.height.value for r in now.build.car.dash_above_tunnel]
    heights = heights or [example["car.dash above tunnel.at datum"].value]
    car, knob = "car.carpet", "car.lever knob"
    return Figures(
        height=mm(f"{section}.height above floor"),
        shoulder=mm(f"{section}.width at shoulder"),
        floor=mm(f"{section}.width at floor"),
        seats=mm("car.between seats.at hip"),
        dash=(heights[0], heights[-1]),
        knob=mm(f"{knob}.across"),
        neutral=(mm(f"{knob}.neutral.behind datum"), mm(f"{knob}.neutral.above tunnel")),
        rear=(mm(f"{knob}.furthest rear.behind datum"), mm(f"{knob}.furthest rear.above tunnel")),
        aside=(mm(f"{knob}.furthest left"), mm(f"{knob}.furthest right")),
        carpet=(mm(f"{car}.loose"), mm(f"{car}.squeezed by hand")),
        deck=mm("console.deck height"),
        width=mm("console.width"),
        ends=(mm("console.from"), mm("console.to")),
        station=mm(f"{section}.at"),
    )


def of_section(figures: Figures, now: Known, number: int | None) -> Figures:
    """Return the figures with the height and the place of one section, where it has them."""
    sections = now.build.car.tunnel
    if number is None or number >= len(sections):
        return figures
    own = sections[number]
    high = own.height_above_floor
    return replace(
        figures, station=own.at.value, height=figures.height if high is None else high.value
    )
