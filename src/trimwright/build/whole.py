"""A whole build: everything about one car's cabin that the builder wrote down."""

from typing import Annotated, Literal

from trimwright.build.car import Car
from trimwright.build.console import Console
from trimwright.build.entry import Entry
from trimwright.build.field import key, maybe, otherwise, part, several
from trimwright.build.if_written import IfWritten
from trimwright.build.probe import Probe
from trimwright.build.wanted import Covers, Hours, LeftAsIs, Locked, Note, Wanted
from trimwright.build.wiring import Wiring
from trimwright.findings import Lock
from trimwright.quantities import Unit


class Build(Entry):
    """Everything about one car's cabin that the builder wrote down."""

    format: Literal["1"] = otherwise("format", "The form in which the file is written.", "1")
    name: str = key("build", "What the build is called.", "Larkspur estate, 1974")
    unit: Unit = key("unit", "The unit of every figure that names none: mm or in.", "mm")
    driver: Literal["left", "right"] | None = maybe(
        "driver", "The side the driver sits on.", "right"
    )
    seed: int = otherwise("seed", "Where chance starts; the same number, the same paper.", "1")
    wanted: Wanted = part("wanted", "What is wanted of the fit.")
    car: Car = part("car", "The car as measured.")
    console: Console | None = maybe("console", "The console as wanted.", "{from: 70 ahead, ...}")
    covers: Covers = part("covers", "What is glued on it.")
    wiring: Annotated[Wiring | None, IfWritten(Wiring)] = maybe(
        "wiring", "Everything electrical.", "{loads: ...}"
    )
    test_fit: tuple[Probe, ...] = several(
        "test fit",
        "What a test fit in the car said.",
        "{probe: left wall daylight at 610 behind, reads: 4 ± 0.5}",
    )
    left_as_is: tuple[LeftAsIs, ...] = several(
        "left as is", "Findings to live with.", "{finding: ..., because: ...}"
    )
    locked: tuple[Locked, ...] = several(
        "locked", "What is done and can no longer be undone easily.", "{lock: covering}"
    )
    hours: Hours | None = maybe(
        "hours",
        "What doing it again, and trying it first, would take; to weigh one against the other.",
        "{covering: 14 h, test fit: 90 min}",
    )
    notes: tuple[Note, ...] = several(
        "notes",
        "What there is to say or show of a part, a reading, a finding, or the whole.",
        "{finding: nose to dash, says: ..., photo: photos/nose.jpg}",
    )

    @property
    def locks(self) -> frozenset[Lock]:
        """What is behind the builder."""
        return frozenset(one.lock for one in self.locked)
