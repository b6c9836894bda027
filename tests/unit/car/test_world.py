"""What is found in cars is found once for the same ones, and never served for others."""

import numpy as np

from trimwright.build import parse
from trimwright.car import World, ledger, seats

TEXT = """
build: Two seats
unit: mm
car:
  carpet: {{loose: 15, squeezed by hand: 6}}
  between seats: {{at hip: {apart}}}
"""


def test_what_hangs_on_the_car_is_kept_for_another_console_in_it() -> None:
    one = parse(TEXT.format(apart="250 ± 4")).build
    doubts = ledger(one)
    rows = np.random.default_rng(1).normal(size=(3, len(doubts)))
    found = seats(World(one, doubts, rows))
    other = one.model_copy(update={"seed": 5})
    assert seats(World(other, doubts, rows.copy())) is found
    read_anew = parse(TEXT.format(apart="250 ± 4")).build
    assert seats(World(read_anew, doubts, rows)) is found


def test_another_car_or_other_figures_are_looked_at_anew() -> None:
    near, far = (parse(TEXT.format(apart=f"{apart} ± 4")).build for apart in (250, 260))
    doubts = ledger(near)
    rows = np.random.default_rng(1).normal(size=(3, len(doubts)))
    found = [
        seats(world)[0].low[:, 0].copy()
        for world in (
            World(near, doubts, rows),
            World(far, doubts, rows),
            World(near, doubts, 2 * rows),
            World(near, doubts, rows[:2]),
        )
    ]
    as_read = World.nominal(near, doubts)
    middle = seats(as_read)[0].low[0, 0]
    np.testing.assert_allclose(found[1] - found[0], 5.0, atol=1e-9)
    np.testing.assert_allclose(found[2] - middle, 2 * (found[0] - middle), atol=1e-9)
    np.testing.assert_allclose(found[3], found[0][:2], atol=1e-9)
