"""Rules of the wiring: sizes, fuses, contacts, voltages, interlocks, lengths, ways out.

In: the wiring as computed. Out: findings before the carpet goes in. Nothing of it is loaded for a
build without wiring.
"""

from trimwright.cabin import Cabin
from trimwright.findings import Finding

__all__ = ["circuit", "findings"]


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return what every rule of the wiring has to say; nothing where there is no wiring."""
    if cabin.build.wiring is None:
        return ()
    from trimwright.checks.wiring.rules import all_said  # noqa: PLC0415  nobody else waits for it

    return all_said(cabin)


def circuit(cabin: Cabin, load: str) -> Finding | None:
    """Return what is found of a load that no path leads to, with its circuit; None of any other."""
    found = cabin.wiring
    if found is None:
        return None
    from trimwright.checks.wiring.circuits import circuit_of  # noqa: PLC0415  as above
    from trimwright.wiring import unwired  # noqa: PLC0415  as above

    own = next((one for one in unwired(found.wiring) if one.name == load), None)
    return None if own is None else circuit_of(found, own, cabin.build.unit)
