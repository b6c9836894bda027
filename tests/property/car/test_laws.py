"""Laws of the tunnel that hold for every car."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import World, ledger, tunnel

Floats = NDArray[np.float64]

Writer = Callable[..., Build]
Sections = list[tuple[float, float, list[tuple[float, float, float]]]]

DOWN = (10.0, 22.0, 40.0, 70.0, 110.0, 150.0)


@st.composite
def tunnels(draw: st.DrawFn) -> Sections:
    """Return sections of a smooth tunnel, lopsided and tapering as drawn."""
    count = draw(st.integers(1, 5))
    wide, power = draw(st.floats(110, 190)), draw(st.floats(0.3, 0.5))
    taper, lean = draw(st.floats(-0.04, 0.04)), draw(st.floats(-10, 10))
    fall = draw(st.floats(-0.05, 0.05))
    start, step = draw(st.floats(-200, 0)), draw(st.floats(120, 250))
    sections: Sections = []
    for k in range(count):
        x = round(start + k * step, 1)
        half = wide + taper * x
        rows = [
            (d, round(half * (d / 150) ** power, 2), round((half + lean) * (d / 150) ** power, 2))
            for d in DOWN
        ]
        sections.append((x, round(-fall * x, 2), rows))
    return sections


def _places(sections: Sections) -> tuple[Floats, Floats]:
    x = np.linspace(sections[0][0], sections[-1][0] + 10, 7)
    return np.repeat(x, 5), np.tile(np.array([-70.0, -30, 0, 30, 70]), 7)


@settings(max_examples=15)
@given(tunnels())
def test_mirrored_car_has_the_mirrored_tunnel(write: Writer, sections: Sections) -> None:
    mirrored = [(x, top, [(d, b, a) for d, a, b in rows]) for x, top, rows in sections]
    x, y = _places(sections)
    one = tunnel(write(sections).car).under(x, y)
    other = tunnel(write(mirrored).car).under(x, -y)
    assert other.z == pytest.approx(one.z, abs=1e-6)
    assert other.normal == pytest.approx(one.normal * np.array([1, -1, 1]), abs=1e-5)


@settings(max_examples=15)
@given(tunnels(), st.integers(-300, 300))
def test_datum_moved_along_moves_the_tunnel_along(
    write: Writer, sections: Sections, shift: int
) -> None:
    moved = [(x + shift, top, rows) for x, top, rows in sections]
    x, y = _places(sections)
    one = tunnel(write(sections).car).under(x, y).z
    assert tunnel(write(moved).car).under(x + shift, y).z == pytest.approx(one, abs=1e-5)


@settings(max_examples=15)
@given(tunnels())
def test_inches_make_the_same_tunnel(write: Writer, sections: Sections) -> None:
    # the string stands 400 above in both units: only depths below the tops are compared
    in_inches = [
        (x / 25.4, 400 - (400 * 25.4 - 400 + 400 - top) / 25.4,
         [(d / 25.4, a / 25.4, b / 25.4) for d, a, b in rows])
        for x, top, rows in sections
    ]  # fmt: skip
    x, y = _places(sections)
    one = tunnel(write(sections).car)
    other = tunnel(write(in_inches, unit="in").car)
    lift = other.top(0.0) - one.top(0.0)
    assert other.under(x, y).z - lift == pytest.approx(one.under(x, y).z, abs=1e-3)


@settings(max_examples=15)
@given(tunnels(), st.floats(1, 12), st.floats(0.5, 10))
def test_thicker_carpet_never_lowers_the_surface(
    write: Writer, sections: Sections, thin: float, more: float
) -> None:
    skin = tunnel(write(sections).car)
    low, high = skin.surface(thin), skin.surface(thin + more)
    for row in (0, len(low.x) // 2, len(low.x) - 1):
        under, over = low.points[row], high.points[row]
        z = np.interp(under[:, 1], over[:, 1], over[:, 2])
        assert np.all(z[20:-20] >= under[20:-20, 2] + 0.5 * more)


@settings(max_examples=8)
@given(tunnels(), st.integers(0, 2**20))
def test_rows_do_not_know_each_other(write: Writer, sections: Sections, seed: int) -> None:
    build = write(sections)
    book = ledger(build)
    scores = np.random.default_rng(seed).normal(size=(5, len(book)))
    deviations = book.deviations(scores)
    x, y = _places(sections)
    skin = tunnel(build.car)
    together = skin.under(x, y, World(build, book, deviations)).z
    alone = skin.under(x, y, World(build, book, deviations[3:4])).z
    assert together[3] == pytest.approx(alone[0], abs=1e-9)
