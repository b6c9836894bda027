"""Small builds for the rules, and fewer draws than a builder gets: what is said, not how surely."""

from importlib import import_module

import pytest

ROWS_EACH = 32  # of 8 scrambles: 256 rows instead of 4,096 and more

CAR = """\
build: {name}
unit: mm
seed: 3
car:
  carpet: {{loose: 15 ± 1, squeezed by hand: 6}}
  dash above tunnel: {{80 ahead: {dash} ± 3, at datum: {dash} ± 3}}
  tunnel:
    - {{at: 300 behind, height above floor: 180, width at shoulder: 190, width at floor: 330}}
  between seats: {{at hip: {hip} ± 4}}
"""
CONSOLE = """\
console:
  deck height: 190
  width: 236
  from: 70 ahead
  to: 690 behind
"""
TIPS = CONSOLE + (
    "  held by:\n    - {bolt: M6, at: 685 behind, off middle: 110 left, torque: 9 N m}\n"
)


def text(name: str = "Small car", dash: int = 232, hip: int = 272, console: str = CONSOLE) -> str:
    """Return a build file of few readings."""
    return CAR.format(name=name, dash=dash, hip=hip) + console


def fewer_draws(monkeypatch: pytest.MonkeyPatch, each: int = ROWS_EACH) -> None:
    """Let a build be judged on 8 x 32 rows; no other test may use a build of the same figures."""
    module = import_module("trimwright.fit.verdict")  # the room exports a function of that name
    for most in ("EACH", "MOST_EACH"):
        monkeypatch.setattr(module, most, each)
