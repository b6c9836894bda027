"""Rest on a bed against closed forms: linear bed, lift-off, wedge, power law, locking foam.

The load in all: 8 kg and 120 N of clamp on two walls 700 x 18 mm, 7.875127 kPa on average.
Standard gravity 9.80665 m/s2 (resolution 2 of the 3rd CGPM, 1901).
"""

from dataclasses import dataclass

import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.fit.pose import Contact, Load, Pose, resting_pose
from trimwright.fit.strip import ACROSS_SQUARE, edge_strip

Floats = NDArray[np.float64]
FORCE_N = 8 * 9.80665 + 120
LENGTH, THICK, APART = 700.0, 18.0, 240.0


class Bed:
    """A law given by three functions, the same in every row."""

    def rows(self, which: NDArray[np.bool_]) -> "Bed":  # noqa: ARG002  all rows are alike
        """Return this law."""
        return self

    def at(self, squeeze: Floats) -> tuple[Floats, Floats]:
        """Return pressure and stiffness."""
        return self.pressure(squeeze), self.stiffness(squeeze)

    def pressure(self, squeeze: Floats) -> Floats:
        """Return the pressure [kPa]."""
        raise NotImplementedError

    def stiffness(self, squeeze: Floats) -> Floats:
        """Return its slope [kPa/mm]."""
        raise NotImplementedError

    def energy(self, squeeze: Floats) -> Floats:
        """Return its integral [kPa mm]."""
        raise NotImplementedError


@dataclass(frozen=True)
class PowerBed(Bed):
    """p = c d^n, one-sided."""

    factor: float
    n: float = 1.0

    def pressure(self, squeeze: Floats) -> Floats:
        """Return the pressure [kPa]."""
        return self.factor * np.maximum(squeeze, 0) ** self.n

    def stiffness(self, squeeze: Floats) -> Floats:
        """Return its slope [kPa/mm]."""
        held = np.where(squeeze > 0, np.maximum(squeeze, 1e-300) ** (self.n - 1), 0.0)
        return self.factor * self.n * held

    def energy(self, squeeze: Floats) -> Floats:
        """Return its integral [kPa mm]."""
        return self.factor / (self.n + 1) * np.maximum(squeeze, 0) ** (self.n + 1)


LOCKED = 0.99  # the share of its height at which locking foam goes on as a straight line


@dataclass(frozen=True)
class LockingBed(Bed):
    """p = E e/(1 - e), e = d/H: foam that locks, its tangent beyond e = 0.99."""

    e_kpa: float
    high: float

    def _parts(self, squeeze: Floats) -> tuple[Floats, Floats]:
        e = np.maximum(squeeze, 0) / self.high
        return np.minimum(e, LOCKED), np.maximum(e - LOCKED, 0)

    def pressure(self, squeeze: Floats) -> Floats:
        """Return the pressure [kPa]."""
        e, more = self._parts(squeeze)
        return self.e_kpa * (e / (1 - e) + more / (1 - LOCKED) ** 2)

    def stiffness(self, squeeze: Floats) -> Floats:
        """Return its slope [kPa/mm]."""
        e, _ = self._parts(squeeze)
        return np.where(squeeze > 0, self.e_kpa / self.high / (1 - e) ** 2, 0.0)

    def energy(self, squeeze: Floats) -> Floats:
        """Return its integral [kPa mm]."""
        e, more = self._parts(squeeze)
        tail = more * LOCKED / (1 - LOCKED) + 0.5 * more**2 / (1 - LOCKED) ** 2
        return self.e_kpa * self.high * (-np.log1p(-e) - e + tail)


def rest(  # noqa: PLR0913  one figure of the case a keyword
    curve: Bed,
    *,
    ahead_mm: float = 0.0,
    force_n: float = FORCE_N,
    upright: float = 1.0,
    mu: float = 0.0,
    along: int = 14,
    start_mm: float = 0.0,
) -> Pose:
    """Return the rest of two straight walls that just touch a bed of one slope."""
    lines = [
        np.array([[-LENGTH / 2, side * APART / 2, 0], [LENGTH / 2, side * APART / 2, 0]])
        for side in (-1, 1)
    ]
    strips = [edge_strip(li, np.add(li, [0, THICK, 0]), across=1, along=along) for li in lines]
    points = np.concatenate([s.points for s in strips]) - [0, THICK / 2, 0]
    area = np.concatenate([s.area for s in strips])
    multiplier = 1 + mu * np.sqrt(1 - upright**2) / upright
    contact = Contact(
        points[:, 0],
        points[:, 1],
        np.zeros((1, len(area))),
        np.full(len(area), upright),
        (area * multiplier)[None],
    )
    load = Load(np.array([force_n]), np.array([-ahead_mm]), np.zeros(1))
    pose = resting_pose(contact, load, curve, np.array([[-start_mm, 0.0, 0.0]]))
    assert bool(pose.settled[0]) or bool(pose.tips[0])
    return pose


def test_even_linear_bed_settles_by_pressure_over_stiffness() -> None:
    assert -rest(PowerBed(2.5)).motion[0, 0] == pytest.approx(3.150051, abs=5e-7)


def test_load_off_centre_tilts_the_linear_bed() -> None:
    # p(x) = p0 (1 + 12 e x / L^2), e = 40 mm ahead
    pose = rest(PowerBed(2.5), ahead_mm=40)
    z, pitch, roll = pose.motion[0]
    # the first point is the foremost: it is pressed harder, by 1.342857 to 0.657143 at the ends
    assert pose.squeeze[0, 0] > 1.9 * pose.squeeze[0, 13]
    assert -(z + LENGTH / 2 * pitch) == pytest.approx(4.230068, abs=5e-7)
    assert -(z - LENGTH / 2 * pitch) == pytest.approx(2.070033, abs=5e-7)
    assert np.degrees(np.arctan(-pitch)) == pytest.approx(0.176801, abs=5e-7)
    assert roll == pytest.approx(0, abs=1e-12)


def test_load_to_the_right_rolls_the_linear_bed() -> None:
    # two strips w wide, middles a off: roll stiffness k A (a^2 + w^2/12), right side goes down
    line = np.array([[-LENGTH / 2, 0, 0], [LENGTH / 2, 0, 0]])
    strip = edge_strip(line, np.add(line, [0, THICK, 0]), across=4)
    x = np.tile(strip.points[:, 0], 2)
    y = np.concatenate([side * APART / 2 + strip.points[:, 1] - THICK / 2 for side in (-1, 1)])
    area, off = np.tile(strip.area, 2), 15.0
    contact = Contact(x, y, np.zeros((1, len(x))), np.ones(len(x)), area[None])
    load = Load(np.array([FORCE_N]), np.zeros(1), np.array([off]))
    pose = resting_pose(contact, load, PowerBed(2.5))
    arm = (APART / 2) ** 2 + THICK**2 / 12
    assert bool(pose.settled[0])
    assert pose.motion[0, 2] == pytest.approx(-3.150051 * off / arm, rel=1e-6)
    assert pose.squeeze[0, -1] > pose.squeeze[0, 0]


def test_a_softening_bed_needs_the_search_on_the_energy() -> None:
    # p = 2 d^0.3 under 2 kPa rests at 1 mm; full Newton steps from 15.7 mm, held to 20 mm, lift
    # off to -4.3 mm and come back to 15.7 mm for ever
    pose = rest(PowerBed(2.0, 0.3), force_n=2.0 * 2 * LENGTH * THICK * 1e-3, start_mm=15.7)
    assert -pose.motion[0, 0] == pytest.approx(1.0, rel=1e-6)


@pytest.mark.parametrize("ahead_mm", [130.0, 200.0, 300.0])
def test_beyond_a_sixth_of_the_length_one_end_lifts(ahead_mm: float) -> None:
    # a bed that cannot pull: contact length 3 (L/2 - e), peak pressure 2 P / (width x length)
    long = 3 * (LENGTH / 2 - ahead_mm)
    peak_mm = 2 * FORCE_N / (2 * THICK * long) * 1e3 / 2.5
    pose = rest(PowerBed(2.5), ahead_mm=ahead_mm, along=400)
    z, pitch, _ = pose.motion[0]
    assert -(z + LENGTH / 2 * pitch) == pytest.approx(peak_mm, rel=2e-4)
    assert LENGTH / 2 + z / pitch == pytest.approx(long, rel=2e-4)
    assert (pose.squeeze < 0).any()


def test_load_outside_the_foot_print_tips_and_is_not_iterated() -> None:
    pose = rest(PowerBed(2.5), ahead_mm=351)
    assert bool(pose.tips[0])
    assert np.isnan(pose.motion).all()


def test_neutral_place_of_a_linear_bed() -> None:
    # (xf - xm)(xn - xm) = -L^2/12: force at f does not move the height at n
    at_mm, extra_n = 200.0, 50.0
    neutral = -(LENGTH**2) / 12 / at_mm
    before = rest(PowerBed(2.5)).motion[0]
    # weight in the middle with an extra force ahead of it, as one resultant
    both = FORCE_N + extra_n
    after = rest(PowerBed(2.5), force_n=both, ahead_mm=extra_n * at_mm / both).motion[0]
    shift = after - before
    assert shift[0] + neutral * shift[1] == pytest.approx(
        0, abs=1e-7
    )  # the last step of Newton is under 1e-5 mm
    assert abs(shift[0]) > 0.1


def test_straight_line_between_two_readings() -> None:
    # (2 mm, 2 kPa) to (5 mm, 20 kPa): slope 6 kPa/mm and a bed that starts 5/3 mm down
    z = rest(PowerBed(6.0)).motion[0, 0] - 5 / 3
    assert -z == pytest.approx(2.979188, abs=5e-7)


def test_power_law_through_two_readings() -> None:
    n = np.log(10) / np.log(2.5)
    pose = rest(PowerBed(2 / 2**n, n))
    assert -pose.motion[0, 0] == pytest.approx(3.450602, abs=5e-7)


@pytest.mark.parametrize(("kpa", "left_mm"), [(2.0, 8.0), (7.875127, 4.042062), (20.0, 2.0)])
def test_locking_foam(kpa: float, left_mm: float) -> None:
    pose = rest(LockingBed(4.0, 12.0), force_n=kpa * 2 * LENGTH * THICK * 1e-3)
    assert 12 + pose.motion[0, 0] == pytest.approx(left_mm, abs=1e-6)


@pytest.mark.parametrize(
    ("loose", "at", "squeezed", "kpa", "height"),
    [
        (12.0, (10.0, 2.0), 4.0, 2.0, 10.0),
        (12.0, (10.0, 2.0), 4.0, 7.875127, 7.459428),
        (12.0, (10.0, 2.0), 4.0, 20.0, 5.846154),
        (12.0, (10.0, 2.0), 4.0, 200.0, 4.233010),
    ],
)
def test_three_readings(
    loose: float, at: tuple[float, float], squeezed: float, kpa: float, height: float
) -> None:
    # h = (c H + p h0)/(c + p) is locking foam over a floor: E = c with c from the middle reading
    c = at[1] * (at[0] - squeezed) / (loose - at[0])
    assert c == pytest.approx(6.0)
    pose = rest(LockingBed(c, loose - squeezed), force_n=kpa * 2 * LENGTH * THICK * 1e-3)
    assert loose + pose.motion[0, 0] == pytest.approx(height, abs=1e-6)


@pytest.mark.parametrize("slope_deg", [0.0, 30.0, 60.0])
@pytest.mark.parametrize("mu", [0.0, 0.3, 0.5])
def test_wedge_with_friction(slope_deg: float, mu: float) -> None:
    # normal force N, friction mu N up the slope: P = N (cos s + mu sin s), strip width T/cos s,
    # so p = P / (A (1 + mu tan s)) and the wedge sinks by p / (k cos s)
    s = np.radians(slope_deg)
    p = FORCE_N / (2 * LENGTH * THICK) * 1e3 / (1 + mu * np.tan(s))
    pose = rest(PowerBed(2.5), upright=float(np.cos(s)), mu=mu)
    assert -pose.motion[0, 0] == pytest.approx(p / (2.5 * np.cos(s)), rel=1e-9)


@pytest.mark.parametrize("slope_deg", [30.0, 45.0])
@pytest.mark.parametrize(("across", "share"), [(40, 2e-3), (ACROSS_SQUARE, 0.02)])
def test_square_cut_edge_presses_with_its_high_corner(
    slope_deg: float, across: int, share: float
) -> None:
    # squeeze falls from c0 by w sin(s) (normal) across the wood: while it touches in part on a
    # linear bed, force per length = k c0^2 / (2 sin s), sink = c0 / cos s
    s, k = np.radians(slope_deg), 2.5
    per_mm = FORCE_N / (2 * LENGTH)
    c0 = np.sqrt(2 * np.sin(s) * per_mm * 1e3 / k)
    assert c0 / np.sin(s) < THICK
    line = np.array([[-LENGTH / 2, 0, 0], [LENGTH / 2, 0, 0]])
    strip = edge_strip(line, np.add(line, [0, THICK, 0]), across=across)
    points = np.concatenate([strip.points, strip.points * [1, -1, 1] + [0, -APART, 0]])
    fall = np.concatenate([strip.points[:, 1]] * 2) * np.tan(s)
    contact = Contact(
        points[:, 0],
        points[:, 1] + APART / 2,
        -fall[None],
        np.full(len(fall), np.cos(s)),
        np.concatenate([strip.area] * 2)[None],
    )
    pose = resting_pose(contact, Load(np.array([FORCE_N]), np.zeros(1), np.zeros(1)), PowerBed(k))
    assert -pose.motion[0, 0] == pytest.approx(c0 / np.cos(s), rel=share)
