"""Loads: what they ask of a contact, and how much voltage they may lose on the way."""

from msgspec import Struct

from trimwright.stock.table import row, rows


class LoadKind(Struct, frozen=True):
    """A kind of load: what it is to a contact, and the largest drop [share of the supply]."""

    name: str
    contact: str
    drop: float
    source: str


class ContactFactor(Struct, frozen=True):
    """By what the load's current is multiplied to give the rating its contact needs."""

    load: str
    system_v: float
    factor: float
    source: str


def load_kind(name: str) -> LoadKind:
    """Return a kind of load by name: 'driving lamp', 'fan', 'coil'.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    Examples
    --------
    >>> load_kind("driving lamp").drop
    0.03
    """
    found = row("load_kind", name)
    share = float(found["drop_percent"]) / 100
    return LoadKind(found["name"], found["contact"], share, found["source"])


def load_kinds() -> tuple[LoadKind, ...]:
    """Return every kind of load, as the table orders them.

    Examples
    --------
    >>> load_kinds()[0].name
    'feed'
    """
    return tuple(load_kind(one["name"]) for one in rows("load_kind"))


def fault_chance(kind: str) -> float:
    """Return how likely it is, before anything was read, that one part has a kind of fault.

    'anything else' is what a whole wiring may have beside single faults of these kinds.

    Raises
    ------
    ValueError
        If the kind is not in the table.

    Examples
    --------
    >>> fault_chance("bad crimp")
    0.005
    """
    return float(row("fault_odds", kind)["in_10000"]) / 10000


def contact_factor(load: str, *, system_v: float = 12.0) -> ContactFactor:
    """Return the factor of a contact's load: 'lamp', 'inductive', 'resistive' or 'motor'.

    Raises
    ------
    ValueError
        If the load, or the system's voltage, is not in the table.

    References
    ----------
    ac-43-13-1b-2001

    Examples
    --------
    >>> contact_factor("lamp").factor, contact_factor("lamp", system_v=28.0).factor
    (5.0, 8.0)
    """
    found = row("contact_load", f"{load} at {system_v:g} V")
    return ContactFactor(
        found["load"], float(found["system_v"]), float(found["factor"]), found["source"]
    )
