"""Short forms brought to the long form, each value keeping the key it was written under."""

from msgspec.structs import replace

from trimwright.build.car import Car
from trimwright.build.console import Console, DeckPoint, Sheet, Width
from trimwright.build.entry import said
from trimwright.build.occupant import EdgePoint, KnobPlace, Lever, LeverKnob, Move, Seat, Seats
from trimwright.build.whole import Build
from trimwright.quantities import Doubt, Quantity

SEAT_LOW_MM, SEAT_HIGH_MM = 0.0, 250.0  # assumed: an upright inner edge over the console's height
SEAT_FRONT_MM, SEAT_REAR_MM = 0.0, 600.0  # assumed: the seats reach along most of the console


def long_form(build: Build) -> Build:
    """Return the build with deck, widths, seats and lever in the long form."""
    changed: dict[str, Car | Console] = {"car": _car(build.car)}
    if build.console:
        changed["console"] = _console(build.console)
    return build.model_copy(update=changed)


def part_of(reading: Quantity, times: float) -> Quantity:
    """Return a share of a reading, its doubt shared or turned round with it."""
    doubt = reading.doubt
    if doubt is not None:
        ends = (doubt.minus * abs(times), doubt.plus * abs(times))
        low, high = ends if times >= 0 else ends[::-1]
        doubt = Doubt(doubt.kind, low, high)
    return replace(reading, value=reading.value * times, doubt=doubt)


def _car(car: Car) -> Car:
    """Return the car with seats and lever in the long form."""
    changed: dict[str, Seats | Lever] = {}
    if car.between_seats is not None and car.seats is None:
        where = said(car.between_seats, "at_hip").key
        hip = car.between_seats.at_hip
        left, right = _seat(hip, where, "left"), _seat(hip, where, "right")
        changed["seats"] = Seats(key="car.seats", left=left, right=right)
    if car.lever_knob is not None and car.lever is None:
        changed["lever"] = _lever(car.lever_knob)
    return car.model_copy(update=changed)


def _seat(between: Quantity, where: str, side: str) -> Seat:
    """Return one seat of two that stand alike: half the free width is on each side."""
    own = f"car.seats.{side}"

    def edge(name: str, up_mm: float) -> EdgePoint:
        key = f"{own}.{name}"
        return EdgePoint(
            key=key,
            elsewhere=(("out", where, 0.5), ("up", f"{key}.up", 0.0)),
            out=part_of(between, 0.5),
            up=Quantity(up_mm, text=f"{up_mm:g} mm up"),
        )

    return Seat(
        key=own,
        elsewhere=(("start", f"{own}.from", 0.0), ("end", f"{own}.to", 0.0)),
        low=edge("inner edge low", SEAT_LOW_MM),
        high=edge("inner edge high", SEAT_HIGH_MM),
        start=Quantity(SEAT_FRONT_MM, text=f"{SEAT_FRONT_MM:g} mm behind"),
        end=Quantity(SEAT_REAR_MM, text=f"{SEAT_REAR_MM:g} mm behind"),
    )


def _lever(knob: LeverKnob) -> Lever:
    """Return the lever's long form: the ends of the knob's travel stand for the gears."""

    def move(gear: str, at: KnobPlace, off: Quantity | None = None, off_key: str = "") -> Move:
        places = [(name, said(at, name).key, 1.0) for name in ("behind", "above")]
        if off is None:
            off, across = at.off_middle, ("off_middle", said(at, "off_middle").key, 1.0)
        else:
            across = ("off_middle", off_key, -1.0 if off.value < 0 else 1.0)
        return Move(
            key=at.key,
            elsewhere=(*places, across),
            gear=gear,
            behind=at.behind,
            above=at.above,
            off_middle=off,
        )

    moves = [
        move("neutral", knob.neutral),
        move("furthest left", knob.neutral, part_of(knob.left, -1.0), said(knob, "left").key),
        move("furthest right", knob.neutral, knob.right, said(knob, "right").key),
        move("furthest rear", knob.rear),
    ]
    if knob.front is not None:
        moves.append(move("furthest front", knob.front))
    return Lever(
        key=knob.key,
        elsewhere=(("knob", said(knob, "across").key, 1.0),),
        knob=knob.across,
        shaft=knob.shaft,
        moves=tuple(moves),
    )


def _console(console: Console) -> Console:
    """Return the console with deck and widths as profiles."""
    changed: dict[str, Sheet | tuple[DeckPoint, ...] | tuple[Width, ...]] = {}
    if not console.sheet.key:
        where = said(console, "sheet").key
        changed["sheet"] = Sheet.model_construct(
            {"key", "elsewhere"},  # of all it holds, what is not assumed
            key=where,
            elsewhere=(("thickness", where, 1.0),),
            material=console.sheet.material,
            thickness=console.sheet.thickness,
        )
    ends = [(said(console, "start").key, console.start), (said(console, "end").key, console.end)]
    if console.deck_height is not None and not console.deck:
        height = said(console, "deck_height").key
        changed["deck"] = tuple(
            DeckPoint(
                key=height,
                elsewhere=(("at", where, 1.0), ("height", height, 1.0)),
                at=at,
                height=console.deck_height,
            )
            for where, at in ends
        )
    if console.width is not None and not console.widths:
        width, half = said(console, "width").key, part_of(console.width, 0.5)
        changed["widths"] = tuple(
            Width(
                key=width,
                elsewhere=(("at", where, 1.0), ("left", width, 0.5), ("right", width, 0.5)),
                at=at,
                left=half,
                right=half,
            )
            for where, at in ends
        )
    return console.model_copy(update=changed)
