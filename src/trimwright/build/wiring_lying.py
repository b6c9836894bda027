"""Where a trunk lies under the carpet."""

import re
from typing import ClassVar

from trimwright.build.entry import Entry
from trimwright.build.form import Split
from trimwright.build.kind import ChosenAcross, ChosenAlong


class LyingPoint(Entry):
    """A place that a trunk runs through under the carpet: how far along the car, how far across."""

    at: ChosenAlong
    off_middle: ChosenAcross
    WHOLE: ClassVar[Split | None] = Split(
        re.compile(r"(?P<at>[^,]+), *(?P<off_middle>.+)"),
        "a place along and across the car",
        "300 behind, 70 right",
    )
