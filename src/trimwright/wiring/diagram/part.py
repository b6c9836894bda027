"""What a wiring diagram is drawn of: parts with their ports, and the joins between them."""

from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

Side = Literal["top", "bottom"]
Kind = Literal[
    "fuse",
    "make",
    "break",
    "changeover",
    "reversing",
    "relay",
    "lamp",
    "LED",
    "heater",
    "motor",
    "solenoid",
    "electronics",
    "unit",
    "plug",
    "splice",
    "feed",
    "battery",
    "alternator",
    "post",
    "reference",
]
OTHER: dict[Side, Side] = {"top": "bottom", "bottom": "top"}


class Port(Struct, frozen=True):
    """Where wires come to a part: a terminal, the slot of the part it is in, and the side it faces.

    A cavity of a plug has two, `in` and `out`: one for each half.
    """

    terminal: str
    slot: int
    side: Side


class Part(Struct, frozen=True):
    """A symbol with everything that is written at it.

    Attributes
    ----------
    name : str
        A device's name; of a plug with the cavity.
    device : str
        The device it is of.
    kind : Kind
        Its symbol.
    ports : tuple of Port
        Its terminals that something comes to.
    slots : int
        How many current paths it stands across.
    says : tuple of str
        Below its name: rating, what works it.
    lead_up, lead_down : str or None
        The rail that its first slot is joined to without a wire; the foot it is joined to.
    turns : bool
        Whether it may stand upside down, as a plug may.
    worked : {'', 'push', 'turn', 'other'}
        What works its contacts: a hand that pushes, one that leaves it where it is put, or else.
    title : str
        What is written at it, where that is not its name.
    refers : tuple of str
        Of a reference: the part and the terminal that it leads to on another page.
    """

    name: str
    device: str
    kind: Kind
    ports: tuple[Port, ...]
    slots: int = 1
    says: tuple[str, ...] = ()
    lead_up: str | None = None
    lead_down: str | None = None
    turns: bool = False
    worked: Literal["", "push", "turn", "other"] = ""
    title: str = ""
    refers: tuple[str, str] = ("", "")

    @property
    def common(self) -> Side:
        """The side that the common terminal of a contact with two throws faces."""
        for one in self.ports:
            if one.terminal in ("30", "in"):
                return one.side
            if one.terminal in ("87", "87a", "worked", "rest"):
                return OTHER[one.side]
        return "top"

    def port(self, terminal: str) -> Port:
        """Return the port of a terminal."""
        return next(one for one in self.ports if one.terminal == terminal)

    def turned(self) -> "Part":
        """Return the part upside down."""
        return replace(
            self, ports=tuple(Port(p.terminal, p.slot, OTHER[p.side]) for p in self.ports)
        )


class At(Struct, frozen=True):
    """An end of a join: a port of a part, or a rail or a foot by its name."""

    what: Literal["port", "rail", "foot"]
    name: str
    terminal: str = ""


class Joint(Struct, frozen=True):
    """A wire, or a link inside a box, between two ends; `label` is what is written along it.

    `half` tells the two halves apart of a wire that is drawn on two pages.
    """

    name: str
    start: At
    end: At
    label: str
    is_wire: bool = True
    half: int = 0

    @property
    def ends(self) -> tuple[At, At]:
        """Both ends."""
        return self.start, self.end

    def other(self, end: At) -> At:
        """Return the end that is not this one."""
        return self.end if end == self.start else self.start
