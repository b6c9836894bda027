"""A hinge that a trunk crosses: what a tape finds about it."""

from typing import Literal

from trimwright.build.entry import Entry
from trimwright.build.field import key, maybe, otherwise
from trimwright.build.kind import ChosenAngle, ChosenLength


class Hinge(Entry):
    """A hinge that the trunk crosses, of a door, tailgate or lid, as seen along its axis.

    An angle at which the loom leaves a hole is off the line from the axis through the hole,
    outwards: 0 straight away from the axis, 90 square to that line, towards the side of the other
    hole as closed.
    """

    body: ChosenLength = key("body hole", "From the hinge axis to the hole in the body.", "60")
    door: ChosenLength = key(
        "door hole", "From the hinge axis to the hole in the door, tailgate or lid.", "85"
    )
    closed: ChosenLength = key("closed", "Straight from hole to hole, closed.", "70")
    opens: ChosenAngle = key("opens", "How far it opens.", "68 deg")
    at_first: Literal["apart", "together"] = otherwise(
        "at first", "Which way the holes go as it begins to open.", "apart"
    )
    along: ChosenLength = otherwise(
        "along the axis", "How far one hole is from the other along the hinge axis.", "0 mm"
    )
    free: ChosenLength | None = maybe("free", "How long the loom is between the holes.", "180")
    leaves_body: ChosenAngle | None = maybe(
        "leaves body", "Angle the loom is held at in the body; without it, free to turn.", "90 deg"
    )
    leaves_door: ChosenAngle | None = maybe(
        "leaves door", "Angle the loom is held at in the door; without it, free to turn.", "90 deg"
    )
    wires: Literal["wrapped", "loose"] = otherwise(
        "wires", "Whether they are wrapped over the hinge, or lie loose in its boot.", "wrapped"
    )
    strands: Literal["as sold", "fine"] = otherwise(
        "strands", "Whether wires with fine strands, of IEC 60228 class 5, are taken.", "as sold"
    )
