"""All rules of the wiring, in the order of the sheet."""

from trimwright.cabin import Cabin
from trimwright.checks.wiring import (
    back_feed,
    battery,
    breaking,
    bundle,
    carrying,
    circuits,
    closed_circuit,
    contact,
    fuse,
    hinge,
    interlock,
    length,
    loose_end,
    meter,
    noise,
    ratings,
    shorted,
    size,
    sneak,
    terminal,
    under_carpet,
    unknown,
    voltage,
    way_out,
)
from trimwright.findings import Finding

RULES = (
    circuits,
    closed_circuit,
    loose_end,
    interlock,
    back_feed,
    way_out,
    ratings,
    contact,
    fuse,
    breaking,
    shorted,
    size,
    voltage,
    length,
    carrying,
    bundle,
    terminal,
    hinge,
    noise,
    battery,
    meter,
    sneak,
    unknown,
)


def all_said(cabin: Cabin) -> tuple[Finding, ...]:
    """Return what every rule of the wiring has to say; nothing where there is no wiring."""
    found = cabin.wiring
    if found is None:
        return ()
    told = (one for rule in RULES for one in rule.findings(found, cabin.build.unit))
    return (*told, *under_carpet.findings(cabin))
