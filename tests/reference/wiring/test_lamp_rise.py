"""How soon a stop lamp is bright, and how much heat opens a fuse at once, as printed.

A maker of trailers: incandescent lamps take about a quarter of a second to 90 % of their light; a
study of the University of Michigan it names has LEDs ahead by 0.2 s on the average. The model's
filament is straight, and so on the quick side: it is to be bright within that time, and not in less
than half of it. A fuse maker's sheet: a mini blade fuse of 25 A takes 625 A2 s to melt.
"""

import pytest

from trimwright.stock import fuse_class
from trimwright.wiring.copper import Fuse, melts_a2s
from trimwright.wiring.filament import COLD_SHARE, HOT_K, STEP_S, Filament

BRIGHT_S = 0.25
BRIGHT = 0.9 ** (0.45 / 1.2 / 3.4)  # of its temperature: light by the 3.4th power of the voltage


@pytest.mark.parametrize(("volts", "watts"), [(12.0, 21.0), (12.8, 27.0)])
def test_a_stop_lamp_is_bright_within_the_quarter_of_a_second(volts: float, watts: float) -> None:
    told = [kelvin for kelvin, _ in Filament(volts, watts).warming(volts, 0.0)]
    bright = next(n for n, kelvin in enumerate(told) if kelvin >= BRIGHT * HOT_K) * STEP_S
    assert BRIGHT_S / 2 < bright < BRIGHT_S


def test_a_cold_filament_has_about_a_fifteenth_of_its_resistance() -> None:
    # commonly told of lamps of tungsten: fifteen times as much when hot
    assert pytest.approx(15.0, rel=0.05) == 1 / COLD_SHARE


def test_a_fuse_melts_at_what_its_maker_prints() -> None:
    assert melts_a2s(Fuse(fuse_class("mini blade"), 25.0)) == pytest.approx(625.0, rel=0.05)
