"""A circuit for a load that nothing leads to yet: feed, fuse, switch or relay, path and ground."""

from collections.abc import Iterable

from msgspec import Struct

from trimwright.build import Feed, Fuse, Ground, Load, Switch, Wiring, by_name, stop
from trimwright.findings import Edit
from trimwright.quantities import Unit
from trimwright.wiring.consumer import Consumer, consumers
from trimwright.wiring.contacts import contact_network
from trimwright.wiring.copper import contact_rating
from trimwright.wiring.draft import Draft
from trimwright.wiring.fact import REST, WORKED, YES, fact_of, live_when
from trimwright.wiring.logic import Board, Fed, at_rest, resting
from trimwright.wiring.loom import loom, routes_from
from trimwright.wiring.mode import MODES
from trimwright.wiring.rating import STARTING_S, Start, relay_rating, smallest_fuse, switch_rating

COLOUR = {
    "always": "RD",
    "accessory": "VT",
    "ignition": "GN",
    "start": "BKYE",
}  # of wires by their feed; common practice, no source
FEED = {"always": "always", "accessory": "accessory feed", "ignition": "ignition feed",
        "start": "start feed"}  # fmt: skip
BOX, BAY = "fuse box", "engine bay"
CHARGED_V = (
    14.2  # that a battery is charged at where no alternator is written; common practice, no source
)
LOWEST_V = 10.5  # at which electronics still take their power; common practice, no source
BAR, KEYED = "1 mohm", "5 mohm"  # of a bar, of the key's contact; common practice, no source
COIL_V = 12.0


class Proposal(Struct, frozen=True):
    """Circuits for some loads: the wiring with them, the edits that write them, who does not work.

    `idle` are the loads that would not work in each mode in which their feed is live.
    """

    wiring: Wiring
    edits: tuple[Edit, ...]
    idle: tuple[str, ...]


class NoCircuitError(ValueError):
    """No circuit can be proposed: says why, as a builder reads it."""


def unwired(wiring: Wiring) -> tuple[Load, ...]:
    """Return the loads that no path leads to, in the order of the file."""
    met = {stop(text, wiring).device for path in wiring.paths for text in path.goes}
    return tuple(load for load in wiring.loads if load.name not in met)


def proposal(wiring: Wiring, loads: Iterable[Load], unit: Unit) -> Proposal:
    """Return a circuit for each of some loads that no path leads to.

    Parameters
    ----------
    wiring : Wiring
        What is there.
    loads : iterable of Load
        Of which it is written what they take.
    unit : {'mm', 'in'}
        The build's.

    Raises
    ------
    NoCircuitError
        If no fuse or switch as sold will do.
    """
    draft = Draft(wiring, unit)
    # what is live more widely comes first: a switch that is shared hangs on the widest feed
    ordered = sorted(loads, key=lambda load: list(FEED).index(load.live or "always"))
    for load in ordered:
        _wire(draft, load)
    dead = tuple(load.name for load in ordered if not _works(draft.wiring, load))
    return Proposal(draft.wiring, tuple(draft.edits), dead)


def _wire(draft: Draft, load: Load) -> None:
    """Add one load's circuit."""
    live = load.live or "always"
    feed = _feed(draft, live)
    own = _consumer(draft.wiring, load)
    rated = smallest_fuse("blade", _lasting_a(draft.wiring, load, own), _starts(own))
    if rated is None:
        raise NoCircuitError(f"no fuse as sold bears what {load.name} takes")
    fuse, ground = draft.device_name(f"{load.name} fuse"), nearest_ground(draft, load.at)
    at = by_name(draft.wiring)[feed].at
    draft.add("fuses", {"name": fuse, "at": at, "rated": f"{rated:g} A"})
    draft.way(at, load.at)
    through = _switched(draft, load, (fuse, ground, COLOUR[live]))
    goes = (feed, fuse, *through, load.name, ground)
    draft.add("paths", {"name": draft.path_name(load.name), "goes": goes, "colour": COLOUR[live]})


def _switched(draft: Draft, load: Load, told: tuple[str, str, str]) -> tuple[str, ...]:
    """Return what a load's current goes through between fuse and load; add what is not there."""
    fuse, ground, colour = told
    name = load.worked_by
    if name is None:
        return ()
    own = _consumer(draft.wiring, load)
    needed = contact_rating(own.current_a or 0.0, own.contact)
    there = by_name(draft.wiring).get(name)
    coil = COIL_V / 90.0  # of a relay as it is assumed to be
    if there is None:
        rating = switch_rating(needed)
        carries = rating or switch_rating(contact_rating(coil, "inductive"))
        draft.add("switches", {"name": name, "carries": f"{carries:g} A" if carries else None})
        if rating is not None:
            return (name,)
        goes: tuple[str, ...] = (fuse, name)
    elif not isinstance(there, Switch) or there.contacts == "reversing":
        raise NoCircuitError(f"{name} has no plain contact to put {load.name} behind")
    elif _used(draft.wiring, name):
        goes = (f"{name} {'worked' if there.contacts == 'changeover' else 'out'}",)
    elif there.carries is None or there.carries.value >= needed:
        return (name,)
    else:
        goes = (fuse, name)
    relay = draft.device_name(f"{load.name} relay")
    at = by_name(draft.wiring)[fuse].at
    rated = f"{relay_rating(needed):g} A"
    draft.add("relays", {"name": relay, "at": at, "carries": rated, "coil guard": "resistor"})
    worked = draft.path_name(f"{load.name} worked")
    coil_path = (*goes, f"{relay} 86-85", ground)
    draft.add("paths", {"name": worked, "goes": coil_path, "colour": colour})
    return (f"{relay} 30-87",)


def _used(wiring: Wiring, name: str) -> bool:
    """Return whether a path goes through a device."""
    return any(stop(text, wiring).device == name for path in wiring.paths for text in path.goes)


def _feed(draft: Draft, live: str) -> str:
    """Return a feed that is live so, made where there is none."""
    found = next((one.name for one in draft.wiring.feeds if one.live == live), None)
    if found is not None:
        return found
    if live == "always":
        return _main_feed(draft)
    source = _feed(draft, "always")
    name, at = draft.device_name(FEED[live]), _box(draft)
    draft.add("feeds", {"name": name, "at": at, "live": live, "behind": KEYED})
    draft.way(by_name(draft.wiring)[source].at, at)
    draft.add(
        "paths", {"name": draft.path_name(name), "goes": (source, name), "colour": COLOUR[live]}
    )
    return name


def _main_feed(draft: Draft) -> str:
    """Add the feed that is always live, from the battery by a main fuse that bears every load."""
    battery = draft.wiring.battery
    at = battery.at if battery else None
    if at is None:
        at = draft.place(BAY)
        draft.battery_at(at)
    wiring, box = draft.wiring, _box(draft)
    owns = [(load, _consumer(wiring, load)) for load in wiring.loads]
    lasting = sum(_lasting_a(wiring, load, own) for load, own in owns)
    starts = [
        Start(one.name, one.current_a + lasting, one.seconds)
        for _, own in owns
        for one in _starts(own)
    ]
    rated = smallest_fuse("blade", lasting, starts)
    if rated is None:
        raise NoCircuitError("no single main fuse as sold bears all loads")
    fuse, feed = draft.device_name("main fuse"), draft.device_name(FEED["always"])
    draft.add("fuses", {"name": fuse, "at": at, "rated": f"{rated:g} A"})
    draft.add("feeds", {"name": feed, "at": box, "live": "always", "behind": BAR})
    draft.way(at, box)
    goes = ("battery +", fuse, feed)
    draft.add(
        "paths", {"name": draft.path_name("main feed"), "goes": goes, "colour": COLOUR["always"]}
    )
    return feed


def _box(draft: Draft) -> str:
    """Return the place of the fuses: where a feed is, else where a fuse is, else a new one."""
    wiring = draft.wiring
    devices: tuple[Feed | Fuse, ...] = (*wiring.feeds, *reversed(wiring.fuses))
    there = (one.at for one in devices if one.at)
    return next(there, None) or draft.place(BOX)


def nearest_ground(draft: Draft, place: str | None) -> str:
    """Return the ground point at a place, else the nearest that wires lead to, else a new one."""
    grounds = draft.wiring.grounds
    if place is None:
        if not grounds:
            draft.add("grounds", {"name": draft.device_name("body stud")})
        return draft.wiring.grounds[0].name
    ways = routes_from(place, draft.wiring)
    reached: list[Ground] = [one for one in grounds if one.at in ways]
    if reached:
        return min(reached, key=lambda one: ways[one.at or ""].long_mm).name
    name = draft.device_name(f"{place} stud")
    draft.add("grounds", {"name": name, "at": place})
    return name


def _consumer(wiring: Wiring, load: Load) -> Consumer:
    return next(one for one in consumers(wiring) if one.name == load.name)


def _lasting_a(wiring: Wiring, load: Load, own: Consumer) -> float:
    """Return the most that a load takes for good [A]: at the voltage at which it takes most."""
    if own.current_a is None or own.on_for_s is not None:
        return 0.0
    if load.kind in ("LED", "electronics"):
        lowest = load.cuts_out.value if load.cuts_out else LOWEST_V
        return own.current_a * max(1.0, own.volts / lowest)
    highest = wiring.alternator.holds.value if wiring.alternator else CHARGED_V
    return own.current_a * max(1.0, highest / own.volts)


def _starts(own: Consumer) -> tuple[Start, ...]:
    """Return what a load takes for a short time."""
    starts = []
    if own.first_a is not None:
        starts.append(Start(own.name, own.first_a, STARTING_S))
    if own.on_for_s is not None and own.current_a is not None:
        starts.append(Start(own.name, own.current_a, own.on_for_s))
    return tuple(starts)


def _works(wiring: Wiring, load: Load) -> bool:
    """Return whether a load works with its switch worked in each mode in which its feed is live."""
    board = Board(contact_network(wiring, loom(wiring)))
    switch = next((one for one in wiring.switches if one.name == load.worked_by), None)
    feed = next(one for one in wiring.feeds if one.live == (load.live or "always"))
    alive = live_when(feed.live, dies=feed.cranking == "dies")
    for mode in MODES:
        facts = dict(resting(board.network).facts) | {"key": mode.key, "engine": mode.engine}
        if switch is not None:
            facts[fact_of(switch)] = YES if switch.worked_by else WORKED
            if switch.contacts == "break":
                facts[fact_of(switch)] = "no" if switch.worked_by else REST
        seen = at_rest(board, tuple(facts.items()))
        wanted = seen is not None and board.holds(alive, seen)
        if seen is None or (wanted and not board.holds(Fed(load.name), seen)):
            return False
    return True
