"""The free stretch of a trunk across a hinge."""

from trimwright.build import Hinge
from trimwright.wiring.swing import Lead, Swing


def swing_of(hinge: Hinge) -> Swing:
    """Return a hinge as geometry."""
    return Swing(
        hinge.body.value,
        hinge.door.value,
        hinge.closed.value,
        hinge.opens.value,
        hinge.at_first == "apart",
        hinge.along.value,
    )


def lead_of(hinge: Hinge) -> Lead:
    """Return how a loom leaves the holes of a hinge."""
    angles = (hinge.leaves_body, hinge.leaves_door)
    return Lead(*(None if one is None else one.value for one in angles))


def free_mm(hinge: Hinge) -> float:
    """Return the length of a loom between the holes of a hinge [mm].

    Where it is not written: what is not stretched anywhere, and no more.
    """
    swing = swing_of(hinge)
    return swing.straight_mm(swing.longest_deg) if hinge.free is None else hinge.free.value
