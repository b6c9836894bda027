"""Readings of a test fit that cannot be used as they are written."""

from collections.abc import Iterator

from msgspec.structs import replace

from trimwright.build.console import Console
from trimwright.build.cut_then import Then, can_be_cut, cut_now, cut_then
from trimwright.build.entry import keys_of, list_of
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
        yield say(probe, "probe", f"{len(limits)} of them", expected, on=list_of(probe))
    for probe in build.test_fit:
        on = keys_of(probe, "reads", "touches")
        if probe.said is None and probe.touches is None:
            found, example = "no reads and no touches", "reads: 2 ± 0.5"
            yield say(probe, "probe", found, "one of the two", example, on=on)
        if probe.said is not None and probe.touches is not None:
            yield say(probe, "touches", "both reads and touches", "one of the two", on=on)
        try:
            place = probe_place(probe.probe, build.unit)
        except QuantityError as wrong:
            fault = say(probe, "probe", f'"{wrong.found}"', wrong.expected, wrong.example)
            yield replace(fault, readings=wrong.readings)
        else:
            yield from _nowhere(probe, place, build.console, say) if place else ()
            yield from _cut_otherwise(probe, place, build.console, say)


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


def _cut_otherwise(
    probe: Probe, place: ProbePlace | None, console: Console | None, say: Say
) -> Iterator[Fault]:
    """Yield a fault for all that a reading says was cut then and cannot have been."""
    if probe.cut_then is None:
        return
    if place is not None and place.what == CARD:
        expected = "no such key: nothing is cut of a tunnel"
        yield say(probe, "cut_then", "a cut under a card", expected)
        return
    if console is None:
        expected = "the key console"
        yield say(probe, "cut_then", "a cut and no console", expected, on=("console",))
        return
    known = can_be_cut(console)
    for then in cut_then(probe.cut_then):
        if then.key not in known:
            openings = [key for key, field in known.items() if field[0] == "openings"]
            expected = " | ".join(openings) or "no such key: the console has no opening"
            example = f"{openings[0]}: {cut_now(console, openings[0]).text}" if openings else ""
            on = keys_of(console, "openings")
            yield say(then.entry, then.field, f'"{then.key}"', expected, example, on=on)
        else:
            yield from _wood_back(then, console, say)


def _wood_back(then: Then, console: Console, say: Say) -> Iterator[Fault]:
    """Yield a fault where more was cut then than is cut now."""
    now = cut_now(console, then.key)
    if then.was.value > now.value:
        expected = f'at most what it is now, "{now.text}": no wood is put back'
        on = keys_of(console, str(can_be_cut(console)[then.key][0]))
        yield say(then.entry, then.field, f'"{then.was.text}"', expected, now.text, on=on)
