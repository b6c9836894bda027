import numpy as np
import pytest

from trimwright.build import parse
from trimwright.car import CarpetBed, Unmeasured, World, carpet, ledger

CAR = "build: Larkfield saloon\nunit: mm\ncar:\n"
LATH = (
    "  carpet:\n    loose: 15\n    squeezed by hand: 6\n    pressed:\n"
    "      - {weight: 1 kg, lath: 12 x 200, thick: 12.5}\n"
    "      - {weight: 20 kg, lath: 12 x 200, thick: 7}\n"
)


def _bed(text: str, key: str = "", off: float = 0.0) -> CarpetBed:
    build = parse(CAR + text).build
    book = ledger(build)
    deviations = np.zeros((1, len(book)))
    if key:
        deviations[0, book.index(key)] = off
    return carpet(World(build, book, deviations))


def test_it_passes_through_every_reading() -> None:
    # 1 kg and 20 kg on 12 x 200 mm: 4.086 and 81.72 kPa; a hand: 300 kPa
    pressure = np.array([[9.80665 / 2.4, 20 * 9.80665 / 2.4, 300.0]])
    assert _bed(LATH).thickness_under(pressure)[0] == pytest.approx([12.5, 7.0, 6.0], abs=1e-9)


def test_pressure_and_thickness_are_each_the_others_inverse() -> None:
    bed = _bed(LATH)
    squeeze = np.linspace(0.01, bed.full[0] + 1, 60)[None]
    thick = bed.thickness_under(bed.pressure(squeeze))
    assert bed.loose[0] - thick == pytest.approx(squeeze, abs=1e-9)


def test_energy_grows_with_the_pressure_and_the_pressure_with_the_stiffness() -> None:
    bed = _bed(LATH)
    s = np.linspace(0.2, bed.full[0] + 1.5, 301)[None] + 0.00137
    step = 1e-5
    slope = (bed.energy(s + step) - bed.energy(s - step)) / (2 * step)
    assert slope == pytest.approx(bed.pressure(s), rel=1e-5)
    rise = (bed.pressure(s + step) - bed.pressure(s - step)) / (2 * step)
    assert rise == pytest.approx(bed.stiffness(s), rel=1e-4)


def test_past_full_squeeze_it_runs_on_straight_without_a_kink() -> None:
    bed = _bed(LATH)
    full = bed.full[0]
    s = np.array([[full - 1e-7, full, full + 1.0, full + 2.0]])
    p = bed.pressure(s)[0]
    assert p[0] == pytest.approx(p[1], rel=1e-4)
    assert p[3] - p[2] == pytest.approx(p[2] - p[1], rel=1e-9)
    assert bed.stiffness(s)[0] == pytest.approx(bed.stiffness(s)[0, 0], rel=1e-4)


def test_untouched_carpet_does_not_push() -> None:
    bed = _bed(LATH)
    above = np.array([[-3.0, 0.0]])
    assert bed.pressure(above).tolist() == [[0, 0]]
    assert bed.energy(above).tolist() == [[0, 0]]
    assert bed.stiffness(above).tolist() == [[0, 0]]


def test_hand_presses_harder_than_thought_so_the_same_squeeze_takes_more() -> None:
    text = "  carpet: {loose: 15, squeezed by hand: 6}\n"
    s = np.array([[8.0]])
    hard = _bed(text, "model:hand squeeze pressure", 200.0).pressure(s)[0, 0]
    soft = _bed(text, "model:hand squeeze pressure", -200.0).pressure(s)[0, 0]
    assert soft < _bed(text).pressure(s)[0, 0] < hard


def test_readings_that_cross_in_some_world_still_rise() -> None:
    bed = _bed(LATH, "car.carpet.pressed.0.thick", -9.0)  # 3.5 under 1 kg, 7 under 20 kg
    p = bed.pressure(np.linspace(0, bed.full[0], 200)[None])[0]
    assert np.all(np.diff(p) > 0)


def test_loose_alone_is_not_enough() -> None:
    with pytest.raises(Unmeasured, match="how the carpet gives was not read"):
        _bed("  carpet: {loose: 15}\n")


def test_no_carpet_is_named_as_missing() -> None:
    with pytest.raises(Unmeasured, match="loose thickness was not read") as caught:
        _bed("  floor below string: 300\n")
    assert caught.value.missing == ("car.carpet.loose",)


def test_pressures_that_do_not_rise_are_refused() -> None:
    one = np.array([15.0])
    with pytest.raises(ValueError, match="pressure must rise from above 0"):
        CarpetBed.through(one, np.array([[20.0, 4.0]]), np.array([[9.0, 12.0]]), one)
