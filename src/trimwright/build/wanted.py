"""What the builder wants of the fit, the covers, what he lives with, and what he notes."""

from typing import ClassVar

from trimwright.build.entry import Entry
from trimwright.build.field import key, maybe, otherwise, part
from trimwright.build.kind import ChosenHours, ChosenLength, ChosenShare, MeasuredLength
from trimwright.findings import Lock
from trimwright.quantities import Quantity


class Wanted(Entry):
    """The gaps the builder wants with all covers on, and how sure to be of them."""

    certainty: ChosenShare = otherwise("certainty", "How sure to be that all of it fits.", "95 %")
    nose_to_dash: ChosenLength = otherwise("nose to dash", "Gap under the dash.", "6 mm")
    walls_to_seats: ChosenLength = otherwise("walls to seats", "Gap beside the seats.", "8 mm")
    lever_to_opening: ChosenLength = otherwise(
        "lever to opening", "Gap around lever and knob, to everything.", "6 mm"
    )
    handbrake: ChosenLength = otherwise("handbrake", "Gap around the handbrake.", "6 mm")
    other_bodies: ChosenLength = otherwise("other bodies", "Gap to anything else.", "5 mm")
    daylight: ChosenLength = otherwise(
        "daylight at most", "Widest gap between the lower edge and the carpet.", "3 mm"
    )


class Cover(Entry):
    """What is glued on a face."""

    WAY: ClassVar[str] = "caliper"

    foam: MeasuredLength = otherwise("foam", "Thickness of the foam; 0 for none.", "3 mm ± 0.5")
    leather: MeasuredLength = otherwise(
        "leather", "Thickness of the leather, vinyl or cloth.", "1.2 mm ± 0.2"
    )


class Covers(Entry):
    """The covers of the console."""

    deck: Cover = part("deck", "The cover of the deck.")
    walls: Cover = part("walls", "The cover of the walls.")


class Locked(Entry):
    """A moment that is behind the builder: what it locks can no longer be changed easily."""

    lock: Lock = key("lock", "What was done.", "covering")


class Hours(Entry):
    """What it takes to do it again once a lock is behind the builder, and to try it in the car."""

    carpet: ChosenHours | None = maybe("carpet", "Doing it again, once the carpet is in.", "5 h")
    wood_is_cut: ChosenHours | None = maybe(
        "wood is cut", "Doing it again, once the wood is cut.", "3 h"
    )
    glue_up: ChosenHours | None = maybe("glue-up", "Doing it again, once it is glued up.", "6 h")
    covering: ChosenHours | None = maybe("covering", "Doing it again, once it is covered.", "14 h")
    refit: ChosenHours | None = maybe("refit", "Doing it again, once it is back in the car.", "2 h")
    test_fit: ChosenHours | None = maybe("test fit", "Trying it in the car, bare.", "90 min")

    def redoing(self, lock: Lock) -> Quantity | None:
        """Return what it takes to do it again once a lock is behind the builder [h], if written."""
        found: Quantity | None = getattr(self, lock.replace(" ", "_").replace("-", "_"))
        return found


class LeftAsIs(Entry):
    """A finding the builder has decided to live with."""

    finding: str = key("finding", "The finding's name.", "daylight left wall")
    because: str = key("because", "Why.", "the carpet's binding hides it")


class Note(Entry):
    """What there is to say or to show about a part, a reading, a finding, or the whole."""

    part: str | None = maybe("part", "The part it is about.", "left wall")
    reading: str | None = maybe(
        "reading", "The reading it is about, in words.", "tunnel at 300 behind, width at floor"
    )
    finding: str | None = maybe("finding", "The finding it is about.", "nose to dash")
    says: str | None = maybe("says", "What there is to say.", "the seam stands proud here")
    photo: str | None = maybe("photo", "A picture in the build's own folder.", "photos/nose.jpg")
