"""Readings of a meter in the wiring, and the words that each place to read at goes by."""

from trimwright.build.wiring import Wiring

OTHER_WAY, RUNNING = ", other way", ", engine running"
FEED_SIDE = "feed side of "


def meter_names(wiring: Wiring) -> tuple[str, ...]:
    """Return the words of every place that a meter may be read at, in the order of the file.

    A load or relay by its own name is read across its two terminals; its feed side, a fuse, a feed
    and a ground point are read against the battery's minus post.
    """
    found: list[str] = []
    names = [*(one.name for one in wiring.loads), *(one.name for one in wiring.relays)]
    for name in names:
        found += [name, f"{name}{OTHER_WAY}", f"{name}{RUNNING}"]
    found += [f"{FEED_SIDE}{name}" for name in list(found)]
    found += [one.name for one in wiring.fuses]
    found += [one.name for one in wiring.feeds]
    return (*found, *(one.name for one in wiring.grounds))
