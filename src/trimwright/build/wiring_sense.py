"""What no device and no wire can be: ratings that contradict each other, wires that go nowhere."""

from collections.abc import Iterator
from itertools import pairwise

from trimwright.build.entry import keys_of
from trimwright.build.fault import Fault
from trimwright.build.stranger import Say
from trimwright.build.walk import held
from trimwright.build.wiring import Wiring
from trimwright.build.wiring_device import Feed, Fuse, Load
from trimwright.build.wiring_stop import NAMED, NoStopError, Stop, by_name, stop
from trimwright.quantities import Quantity

ABOVE_NOTHING = (
    "volts", "holds", "cranks", "inside", "starter_takes", "gives", "at_idle", "behind", "to_battery",
    "rated", "coil", "carries", "cavities", "at_volts", "power", "current", "hole", "room",
)  # fmt: skip
LEAST_BATTERY_V = 5.0  # three cells, all but flat
FIRST_IS_MOST = ("lamp", "motor", "solenoid")


def senseless(wiring: Wiring, say: Say) -> Iterator[Fault]:
    """Yield a fault for each figure that cannot be, and each wire that joins a terminal to itself.

    `say` makes a fault of an entry, its field, what was found, what was expected, an example.
    """
    for _, _, entry in held(wiring):
        for field in ABOVE_NOTHING:
            figure = entry.__dict__.get(field)
            if isinstance(figure, Quantity) and not figure.value > 0:
                yield say(entry, field, f'"{figure.text}"', "a figure above 0")
    yield from _sources(wiring, say)
    for load in wiring.loads:
        yield from _load(load, say)
    yield from _rings(wiring, say)


def _sources(wiring: Wiring, say: Say) -> Iterator[Fault]:
    """Refuse a battery of less than three cells, an alternator that gives most while idling."""
    battery, alternator = wiring.battery, wiring.alternator
    if battery is not None and 0 < battery.volts.value < LEAST_BATTERY_V:
        expected = f"the volts of a car's battery, at least {LEAST_BATTERY_V:g} V"
        yield say(battery, "volts", f'"{battery.volts.text}"', expected, "12.6 V")
    if alternator is None or alternator.at_idle is None:
        return
    if alternator.at_idle.value > alternator.gives.value:
        expected = f"no more than the {alternator.gives.text} that it gives at speed"
        yield say(alternator, "at_idle", f'"{alternator.at_idle.text}"', expected, "22 A")


def _load(load: Load, say: Say) -> Iterator[Fault]:
    """Refuse a load that takes less at first than for good, more asleep than awake."""
    takes = load.current or load.power
    if takes is None:
        return
    amps = takes.value if load.current else takes.value / max(load.at_volts.value, 1e-9)
    first, asleep, least = load.starts_with, load.asleep, load.cuts_out
    on = keys_of(load, "at_volts")
    if first is not None and load.kind in FIRST_IS_MOST and first.value < amps:
        expected = f"no less than it takes for good, {amps:.3g} A"
        yield say(load, "starts_with", f'"{first.text}"', expected, f"{3 * amps:.3g} A", on=on)
    if asleep is not None and asleep.value > amps:
        expected = f"no more than it takes awake, {amps:.3g} A"
        yield say(load, "asleep", f'"{asleep.text}"', expected, "12 mA", on=on)
    measured = "at_volts" in load.model_fields_set
    if least is not None and measured and least.value >= load.at_volts.value:
        expected = f"less than the {load.at_volts.text} at which it takes {takes.text}"
        yield say(load, "cuts_out", f'"{least.text}"', expected, "10.5 V")


def _rings(wiring: Wiring, say: Say) -> Iterator[Fault]:
    """Refuse wires between terminals that are one, or that a fuse box joins inside."""
    read = [_stops(path.goes, wiring) for path in wiring.paths]
    joined = dict[str, str]()
    for stops in read:
        for before, after in pairwise(stops):
            if before and after and _boxed(before, after, wiring):
                joined[f"{after.device} in"] = f"{before.device} out"
    for path, stops in zip(wiring.paths, read, strict=True):
        for item, (before, after) in enumerate(pairwise(stops), start=1):
            if before is None or after is None or _boxed(before, after, wiring):
                continue
            one, other = (
                _terminal(before, wiring, comes=False),
                _terminal(after, wiring, comes=True),
            )
            if joined.get(one, one) == joined.get(other, other) or _own_feed(before, after, wiring):
                expected = "another terminal: a wire has two ends"
                found = f'"{path.goes[item]}"'
                yield say(path, "goes", found, expected, item=item, among=NAMED)


def _stops(goes: tuple[str, ...], wiring: Wiring) -> list[Stop | None]:
    """Return the stops of a path, None for what cannot be read, which is told elsewhere."""
    found: list[Stop | None] = []
    for text in goes:
        try:
            found.append(stop(text, wiring))
        except NoStopError:
            found.append(None)
    return found


def _boxed(before: Stop, after: Stop, wiring: Wiring) -> bool:
    """Return whether a feed and a fuse sit in one box, which joins them without a wire."""
    one, other = (by_name(wiring).get(at.device) for at in (before, after))
    return (
        isinstance(one, Feed)
        and isinstance(other, Fuse)
        and after.comes == "in"
        and one.at is not None
        and one.at == other.at
    )


def _terminal(at: Stop, wiring: Wiring, *, comes: bool) -> str:
    """Return the terminal that a wire meets: of a feed its live side where it leaves."""
    if isinstance(by_name(wiring).get(at.device), Feed):
        return f"{at.device} {'in' if comes else 'out'}"
    return f"{at.device} {at.comes if comes else at.goes}"


def _own_feed(before: Stop, after: Stop, wiring: Wiring) -> bool:
    """Return whether a feed is to be its own supply."""
    return before.device == after.device and isinstance(by_name(wiring).get(before.device), Feed)
