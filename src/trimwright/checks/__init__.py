"""Checks: every rule, and what it has to say about a cabin.

In: a `Cabin` with its results. Out: findings, one module a rule. Only words, limits, grades and
remedies are made here; every figure comes from the rooms below.
"""

from trimwright.checks.all_rules import all_findings
from trimwright.checks.all_together import cuts_told
from trimwright.checks.figure import amount
from trimwright.checks.tried_in_car import not_there_told, told
from trimwright.checks.wiring import circuit
from trimwright.checks.worth_before import Test, hours_told, redoing_h, worth_before

__all__ = [
    "Test",
    "all_findings",
    "amount",
    "circuit",
    "cuts_told",
    "hours_told",
    "not_there_told",
    "redoing_h",
    "told",
    "worth_before",
]
