"""Rules of the wiring: sizes, fuses, contacts, voltages, interlocks, lengths, ways out.

In: the wiring as computed. Out: findings before the carpet goes in.
"""

from trimwright.checks.wiring.rules import findings

__all__ = ["findings"]
