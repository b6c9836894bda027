"""How long it takes until an edit of the console shows in its gaps and certainties, warm."""

from collections.abc import Callable
from itertools import count
from pathlib import Path

import numpy as np

from bench.command import DEMO, ROOT
from bench.measure import Bench
from trimwright.build import Build, parse
from trimwright.cabin import cabin

TEXT = (Path(ROOT) / DEMO).read_text("utf-8")
EDITED = "to: 690 behind\n"
NUMBERS = count(1)


def edited() -> Build:
    """Return the demo's build with a rear end that no turn before has had."""
    if EDITED not in TEXT:
        raise ValueError(f"the demo must hold {EDITED!r}")
    return parse(TEXT.replace(EDITED, f"to: {690 - next(NUMBERS) / 100:.2f} behind\n")).build


def nominal() -> None:
    """Read the edited build and find every gap as written."""
    if not cabin(edited()).nominal:
        raise ValueError("the edited build has no gaps")


def chances() -> None:
    """Read the edited build and find how sure each gap is."""
    if cabin(edited()).outcome is None:
        raise ValueError("the edited build has no certainty")


def peer() -> None:
    """Take a matrix apart, which is arithmetic of about the same kind."""
    np.linalg.svd(np.random.default_rng(1).standard_normal((300, 300)))


def _bench(name: str, ours: Callable[[], None]) -> Bench:
    return Bench(name, ours, peer, "numpy's SVD of a 300 x 300 matrix")


NOMINAL = _bench("edit to nominal gaps", nominal)
CHANCES = _bench("edit to certainties", chances)
