"""Every text of the wiring that names its parts, and a name that cannot be given to one."""

from collections.abc import Iterator

from trimwright.build.node import Path
from trimwright.build.wiring import Wiring


class NoNameError(ValueError):
    """A part cannot be called so; what was expected instead, in words."""


def mentions(wiring: Wiring) -> Iterator[tuple[Path, str, bool]]:
    """Yield every text that names devices: its place under the wiring, and whether it is a stop."""
    for n, path in enumerate(wiring.paths):
        yield from ((("paths", n, "goes", k), one, True) for k, one in enumerate(path.goes))
    for n, rule in enumerate(wiring.rules):
        for key, told in (("while", rule.when), ("except", rule.excepting)):
            yield from ((("rules", n, key, k), one, False) for k, one in enumerate(told))
    for n, unit in enumerate(wiring.units):
        for m, move in enumerate(unit.moves):
            for k, one in enumerate(move.when):
                yield ("units", n, "moves", m, "when", k), one, False
