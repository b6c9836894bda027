"""The stops of a current path: a device by its name, and the terminals a wire meets there."""

from collections.abc import Callable, Iterator
from functools import lru_cache, partial

from msgspec import Struct

from trimwright.build.known import nearest
from trimwright.build.wiring import Wiring
from trimwright.build.wiring_device import Feed, Fuse, Ground, Load, Plug, Relay, Splice, Switch
from trimwright.build.wiring_unit import ControlUnit

Device = Feed | Ground | Fuse | Switch | Relay | Load | Plug | Splice | ControlUnit
SOURCES = {"battery": ("+", "-"), "alternator": ("B+", "D+", "B-")}
DEVICES = (
    "feeds", "grounds", "fuses", "switches", "relays", "units", "plugs", "splices", "loads",
)  # fmt: skip
NAMED = tuple(f"wiring.{name}" for name in (*DEVICES, *SOURCES))
_SWITCH: dict[str, tuple[str, ...]] = {
    "make": ("in", "out"),
    "break": ("in", "out"),
    "changeover": ("in", "worked", "rest"),
    "reversing": ("feed", "a", "b", "ground"),
}
_SINGLE: dict[type[Device], tuple[str, ...]] = {
    Ground: ("stud",),
    Splice: ("joint",),
    Feed: ("in", "out"),
    Fuse: ("in", "out"),
    Relay: ("30", "87", "87a", "85", "86"),
}


class Stop(Struct, frozen=True):
    """Where a path meets a device: by which terminal it comes, and by which it goes on."""

    device: str
    comes: str
    goes: str


class NoStopError(ValueError):
    """A stop that cannot be understood: what was expected, and what gives one right example."""

    def __init__(self, expected: str, example: str | Callable[[], str]) -> None:
        super().__init__(expected)
        self.expected, self.example = expected, example


def devices(wiring: Wiring) -> Iterator[Device]:
    """Yield every device that has a name of its own, in the order of the schema."""
    for name in DEVICES:
        yield from getattr(wiring, name)


def by_name(wiring: Wiring) -> dict[str, Device]:
    """Return the devices of a wiring by their names."""
    return _by_name(_Itself(wiring))


class _Itself(Struct, frozen=True, eq=False):
    """A wiring as a key that no other equals: to compare two that are equal takes long."""

    wiring: Wiring

    def __hash__(self) -> int:
        return id(self.wiring)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Itself) and other.wiring is self.wiring


@lru_cache(maxsize=64)
def _by_name(of: _Itself) -> dict[str, Device]:
    """Return the devices of a wiring, kept while it is asked for."""
    return {one.name: one for one in devices(of.wiring)}


def terminals(device: Device) -> tuple[str, ...]:
    """Return the terminals of a device: of two or more, first the usual way in and way out.

    Examples
    --------
    >>> terminals(Switch(name="fog switch"))
    ('in', 'out')
    """
    if isinstance(device, Switch):
        return _SWITCH[device.contacts]
    if isinstance(device, Plug):
        return tuple(str(1 + n) for n in range(int(device.cavities.value)))
    if isinstance(device, ControlUnit):
        return device.terminals
    if isinstance(device, Load):
        return ("a", "b") if device.kind == "motor" else ("+", "-")
    return _SINGLE[type(device)]


def stop(text: str, wiring: Wiring) -> Stop:
    """Return what a stop of a path says.

    Parameters
    ----------
    text : str
        A device's name, with the terminals where it has a choice: 'fog relay 30-87'.
    wiring : Wiring
        Whose devices may be meant.

    Raises
    ------
    NoStopError
        If no device is called so, it has no such terminal, or one has to be named.
    """
    words = text.strip()
    known = by_name(wiring)
    name = max((one for one in known if _begins(words, one)), key=len, default="")
    if name:
        return _at(known[name], words.removeprefix(name).strip())
    for source, posts in SOURCES.items():
        if _begins(words, source) and getattr(wiring, source):
            post = words.removeprefix(source).strip()
            if post not in posts:
                expected = f"one of its terminals: {', '.join(posts)}"
                raise NoStopError(expected, f"{source} {posts[0]}")
            return Stop(source, post, post)
    names = (*known, "battery +")
    raise NoStopError("a device of this wiring", partial(nearest, words, names, 0.0))


def _begins(words: str, name: str) -> bool:
    """Return whether a stop begins with a name, as a whole word."""
    return words == name or words.startswith(f"{name} ")


def _at(device: Device, said: str) -> Stop:
    """Return a stop at a device, with the terminals that were said, or the usual ones."""
    there = terminals(device)
    choices = [*there, *(("+", "-") if isinstance(device, Load) else ())]
    if not said:
        if isinstance(device, Plug | Relay | ControlUnit) or len(there) > 3:  # noqa: PLR2004  reversing: no usual way
            example = "30-87" if isinstance(device, Relay) else there[0]
            raise NoStopError(f"which terminal: {', '.join(there)}", f"{device.name} {example}")
        return Stop(device.name, there[0], there[min(1, len(there) - 1)])
    if said in choices:
        one = _own(device, said)
        return Stop(device.name, one, one)
    comes, _, goes = said.partition("-")
    if comes in choices and goes in choices:
        return Stop(device.name, _own(device, comes), _own(device, goes))
    example = f"{device.name} {there[0]}-{there[1]}" if len(there) > 1 else device.name
    raise NoStopError(f"its terminals are {', '.join(there)}", example)


def _own(device: Device, said: str) -> str:
    """Return a terminal by the name it is kept under: a motor's + is its a."""
    there = terminals(device)
    return said if said in there else there["+-".index(said)]
