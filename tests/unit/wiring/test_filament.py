"""A filament keeps the balance of its heat, ends as the lamp's law has it, and begins cold."""

import numpy as np
import pytest

from trimwright.stock import fuse_class
from trimwright.wiring.copper import Fuse, melts_a2s
from trimwright.wiring.filament import COLD_SHARE, HOT_K, STEP_S, Filament
from trimwright.wiring.network.law import lamp_current

LAMPS = [(12.0, 5.0), (12.0, 21.0), (12.8, 27.0), (12.0, 55.0)]


@pytest.mark.parametrize(("volts", "watts"), LAMPS)
def test_what_comes_in_warms_it_or_leaves_it(volts: float, watts: float) -> None:
    one = Filament(volts, watts)
    kelvin, amps = np.array(list(one.warming(14.0, 0.05))).T
    ohm = np.array([one.ohm(k) for k in kelvin])
    came = (amps**2 * ohm)[:-1].sum() * STEP_S
    left = sum(one.gives_off(k) for k in kelvin[:-1]) * STEP_S
    assert one.heat_j_k * (kelvin[-1] - kelvin[0]) == pytest.approx(came - left, rel=1e-9)


@pytest.mark.parametrize(("volts", "watts"), LAMPS)
@pytest.mark.parametrize("share", [0.8, 1.0, 1.15])
def test_it_ends_as_the_network_has_a_hot_lamp(volts: float, watts: float, share: float) -> None:
    *_, (kelvin, amps) = Filament(volts, watts).warming(share * volts, 0.0)
    told = lamp_current(
        np.array([share * volts]), np.array([watts / volts**2]), np.array([volts]), np.array([9.0])
    )
    assert amps == pytest.approx(told[0][0], rel=0.02)
    assert kelvin == pytest.approx(HOT_K * share ** (0.45 / 1.2), rel=0.02)


def test_its_first_current_is_that_of_cold_tungsten_behind_its_way() -> None:
    # by hand: 144 / 21 ohm hot, a fifteenth of it cold, and 0.05 ohm before it
    first = next(iter(Filament(12.0, 21.0).warming(14.0, 0.05)))[1]
    assert first == pytest.approx(14.0 / (144 / 21 * COLD_SHARE + 0.05))


def test_half_the_step_brings_as_much_heat(monkeypatch: pytest.MonkeyPatch) -> None:
    heats = []
    for step in (STEP_S, STEP_S / 4):
        monkeypatch.setattr("trimwright.wiring.filament.STEP_S", step)
        amps = np.array([a for _, a in Filament(12.0, 55.0).warming(14.0, 0.05)])
        heats.append((amps[amps > 10.0] ** 2).sum() * step)
    assert heats[0] == pytest.approx(heats[1], rel=0.02)


def test_what_opens_a_fuse_at_once_is_read_off_its_earliest_times() -> None:
    # 350 %: 0.08 s, 600 %: 0.03 s; the lesser is 12.25 x 0.08 = 0.98 times its rating squared
    assert melts_a2s(Fuse(fuse_class("mini blade"), 10.0)) == pytest.approx(98.0)
    assert melts_a2s(Fuse(fuse_class("glass 5x20"), 5.0)) is None
