"""The car as measured."""

from trimwright.build.entry import Entry
from trimwright.build.field import maybe, part, several
from trimwright.build.kind import MeasuredLength
from trimwright.build.occupant import (
    BetweenSeats,
    Body,
    DashLine,
    DashPoint,
    DashReading,
    EnginePlay,
    Handbrake,
    Lever,
    LeverKnob,
    Seats,
)
from trimwright.build.tunnel import Carpet, Datum, Diagonal, Layer, Section


class Car(Entry):
    """The car as measured: everything the console has to fit."""

    datum: Datum | None = maybe("datum", "Where all is measured from.", "{marks: ..., ...}")
    layers: tuple[Layer, ...] = several(
        "layers", "Layers that stay on the metal, from the metal up, carpet left out.", "{...}"
    )
    carpet: Carpet | None = maybe("carpet", "The carpet.", "{loose: 15 ± 1, ...}")
    dash_line: DashLine | None = maybe(
        "dash above tunnel", "The dash's underside above the tunnel.", "{60 ahead: 236 ± 3}"
    )
    dash: tuple[DashPoint, ...] = several(
        "dash", "The dash's underside as points.", "{at: 60 ahead, across: 80 left, up: 236}"
    )
    tunnel: tuple[Section, ...] = several(
        "tunnel", "Sections of the tunnel, front to rear.", "{at: 300 behind, ...}"
    )
    floor_below_string: MeasuredLength | None = maybe(
        "floor below string", "How far the floor lies below the string.", "330"
    )
    diagonals: tuple[Diagonal, ...] = several(
        "diagonals", "Distances that check the readings.", "{from: ..., to: ..., length: 352}"
    )
    between_seats: BetweenSeats | None = maybe(
        "between seats", "The free width between the seats.", "{at hip: 262 ± 4}"
    )
    seats: Seats | None = maybe("seats", "The seats, each side.", "{left: ..., right: ...}")
    lever_knob: LeverKnob | None = maybe(
        "lever knob", "The gear lever in a quarter of an hour.", "{across: 48, ...}"
    )
    lever: Lever | None = maybe("lever", "The gear lever.", "{knob: 48, shaft: 14, moves: ...}")
    engine_moves: EnginePlay = part("engine moves", "How far engine and lever shift.")
    handbrake: Handbrake | None = maybe("handbrake", "The handbrake.", "{pivot: ..., ...}")
    bodies: tuple[Body, ...] = several("bodies", "Anything else fixed to the car.", "{...}")

    @property
    def dash_above_tunnel(self) -> tuple[DashReading, ...]:
        """The dash's underside along the middle, reading by reading."""
        return self.dash_line.readings if self.dash_line else ()
