"""What cannot be of a trunk: no length, one place under the carpet, a hinge no tape finds so."""

from collections.abc import Iterator
from math import hypot

from trimwright.build.entry import keys_of
from trimwright.build.fault import Fault
from trimwright.build.stranger import Say
from trimwright.build.wiring import Trunk, Wiring
from trimwright.build.wiring_hinge import Hinge

WIDEST_DEG = 270.0


def trunk_faults(wiring: Wiring, say: Say) -> Iterator[Fault]:
    """Yield a fault for each trunk that nothing says the length of, and for hinges that cannot be."""
    names = {one.name for one in wiring.places}
    located = {one.name for one in wiring.places if None not in (one.at, one.off_middle, one.up)}
    for trunk in wiring.trunks:
        if len(trunk.under_carpet) == 1:
            expected, example = "two places at least", "300 behind, 70 right"
            yield say(trunk, "under_carpet", "one place", expected, example)
        if trunk.hinge is not None:
            yield from _hinge(trunk, trunk.hinge, say)
            continue
        ends = {trunk.start, trunk.end}
        if trunk.long is None and ends <= names and not ends <= located:
            expected = "how long it is, or where both its places are"
            on = ("wiring.places",)
            yield say(trunk, "long", "no long", expected, "long: 640", on=on)


def _hinge(trunk: Trunk, hinge: Hinge, say: Say) -> Iterator[Fault]:
    """Yield a fault for no length, for distances that close no triangle, for too wide an opening."""
    if trunk.long is None:
        expected = "how long it is on both sides of its hinge together"
        yield say(trunk, "long", "no long", expected, "long: 640")
    body, door, along = hinge.body.value, hinge.door.value, hinge.along.value
    least, most = hypot(body - door, along), hypot(body + door, along)
    if not least <= hinge.closed.value <= most:
        expected = (
            f"from {least:.0f} mm to {most:.0f} mm, as both holes are so far from the hinge axis"
        )
        example = f"{(least + most) / 2:.0f} mm"
        on = keys_of(hinge, "along")
        yield say(hinge, "closed", f'"{hinge.closed.text}"', expected, example, on=on)
    if not hinge.opens.value <= WIDEST_DEG:
        expected = f"{WIDEST_DEG:g} deg at most"
        yield say(hinge, "opens", f'"{hinge.opens.text}"', expected, "68 deg")
