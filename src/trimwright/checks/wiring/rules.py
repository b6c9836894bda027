"""All rules of the wiring, in the order of the sheet."""

from trimwright.cabin import Cabin
from trimwright.checks.wiring import (
    battery,
    bundle,
    carrying,
    circuits,
    contact,
    fuse,
    hinge,
    interlock,
    length,
    meter,
    noise,
    size,
    sneak,
    under_carpet,
    unknown,
    voltage,
    way_out,
)
from trimwright.findings import Finding

RULES = (
    circuits,
    interlock,
    way_out,
    contact,
    fuse,
    size,
    voltage,
    length,
    carrying,
    bundle,
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
