"""Readings of a test fit that cannot be used as they are written."""

from collections.abc import Iterator
from dataclasses import replace

from trimwright.build.console import Console
from trimwright.build.fault import Fault
from trimwright.build.probe import CARD, Probe, ProbePlace, probe_place
from trimwright.build.stranger import Say
from trimwright.build.whole import Build
from trimwright.chance import MOST_LIMITS
from trimwright.quantities import QuantityError

CARD_EXAMPLE = "card at 220 behind and 90 left"


def useless_trials(build: Build, say: Say) -> Iterator[Fault]:
    """Yield a fault for every test-fit reading that says nothing, or nowhere on the console.

    `say` makes a fault of an entry, its field, what was found, what was expected, an example.
    """
    limits = [one for one in build.test_fit if one.reads is None]
    for probe in limits[MOST_LIMITS:]:
        expected = f"at most {MOST_LIMITS} that touch, or read at least or at most"
        yield say(probe, "probe", f"{len(limits)} of them", expected)
    for probe in build.test_fit:
        if probe.said is None and probe.touches is None:
            yield say(probe, "probe", "no reads and no touches", "one of the two", "reads: 2 ± 0.5")
        if probe.said is not None and probe.touches is not None:
            yield say(probe, "touches", "both reads and touches", "one of the two")
        try:
            place = probe_place(probe.probe, build.unit)
        except QuantityError as wrong:
            fault = say(probe, "probe", f'"{wrong.found}"', wrong.expected, wrong.example)
            yield replace(fault, readings=wrong.readings)
        else:
            yield from _nowhere(probe, place, build.console, say) if place else ()


def _nowhere(probe: Probe, place: ProbePlace, console: Console | None, say: Say) -> Iterator[Fault]:
    """Yield a fault for a card without both its places, and for a place beyond the console."""
    found = f'"{probe.probe}"'
    if place.what == CARD:
        if place.along_mm is None or place.across_mm is None or place.up_mm is not None:
            yield say(probe, "probe", found, "a place along and one across", CARD_EXAMPLE)
        return
    if console is None or place.along_mm is None:
        return
    if not console.start.value <= place.along_mm <= console.end.value:
        ends = f'from "{console.start.text}" to "{console.end.text}"'
        yield say(probe, "probe", found, f"a place on the console, {ends}")
