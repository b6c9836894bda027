"""What YAML would silently misread, refused with the right spelling."""

from trimwright.build.fault import Fault
from trimwright.build.node import Node


def text_traps(text: str) -> list[Fault]:
    """Return the faults of the raw text."""
    del text
    return []


def node_traps(root: Node, text: str) -> list[Fault]:
    """Return the faults of plain values that YAML reads as something else."""
    del root, text
    return []
