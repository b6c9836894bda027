"""Rules of the wiring: sizes, fuses, contacts, voltages, interlocks, lengths, ways out.

In: the wiring as computed. Out: findings before the carpet goes in. Nothing of it is loaded for a
build without wiring.
"""

from trimwright.cabin import Cabin
from trimwright.findings import Finding

__all__ = ["findings"]


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return what every rule of the wiring has to say; nothing where there is no wiring."""
    if cabin.build.wiring is None:
        return ()
    from trimwright.checks.wiring.rules import all_said  # noqa: PLC0415  nobody else waits for it

    return all_said(cabin)
