"""Findings: what the tool has to say about a build, as data.

In: figures, limits and words from `checks`. Out: frozen findings in the order of the work, each
with its margin, certainty, remedies (edits to the build file) and source, for the faces and the
papers. A rule that could not be evaluated is a finding too; silence is never a pass.
"""

from trimwright.findings.finding import (
    GRADES,
    LOCKS,
    Finding,
    Grade,
    Lock,
    Measure,
    Point,
    lock_heading,
)
from trimwright.findings.order import counts, sorted_findings
from trimwright.findings.remedy import Edit, Remedy

__all__ = [
    "GRADES",
    "LOCKS",
    "Edit",
    "Finding",
    "Grade",
    "Lock",
    "Measure",
    "Point",
    "Remedy",
    "counts",
    "lock_heading",
    "sorted_findings",
]
