"""Laws of wires and fuses, whatever their sizes, the air and the current."""

from math import inf

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from trimwright.stock import Wire, fuse_class, wires
from trimwright.wiring.copper import (
    Ask,
    Fuse,
    Laid,
    ampacity,
    bundle_factor,
    copper_c,
    opening_band,
    protection,
    seconds_to,
    thinnest,
    wire_resistance,
)

METRIC, GAUGES = wires("metric"), wires("awg")
SYSTEMS = st.sampled_from([METRIC, GAUGES])
AIR_C = st.floats(-30.0, 80.0)
SHARES = st.floats(0.2, 1.0)
AMPERES = st.floats(0.1, 60.0)
FUSES = st.builds(
    Fuse,
    st.sampled_from(
        [fuse_class(name) for name in ("blade", "mini blade", "maxi blade", "glass 5x20")]
    ),
    st.floats(1.0, 60.0),
)


@given(SYSTEMS, AIR_C, AMPERES)
def test_a_thicker_wire_never_loses_more(
    sizes: tuple[Wire, ...], air_c: float, amperes: float
) -> None:
    settled = [float(copper_c(Laid(one, air_c), amperes)) for one in sizes]
    assert settled == sorted(settled, reverse=True)
    lost = [
        float(wire_resistance(one.conductor.ohm_per_m, 1.0, copper_c=celsius))
        for one, celsius in zip(sizes, settled, strict=True)
        if celsius < inf
    ]
    assert lost == sorted(lost, reverse=True)


@given(st.sampled_from(METRIC + GAUGES), AIR_C, st.floats(0.1, 20.0), SHARES)
def test_hotter_air_never_allows_more(
    wire: Wire, air_c: float, warmer: float, share: float
) -> None:
    cool, warm = (ampacity(Laid(wire, celsius, share)) for celsius in (air_c, air_c + warmer))
    assert warm < cool
    assert ampacity(Laid(wire, air_c, share / 2)) < cool


@given(st.integers(1, 60), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_a_fuller_or_busier_bundle_never_allows_more(wires: int, one: float, two: float) -> None:
    calm, busy = sorted((one, two))
    assert bundle_factor(wires, load_share=busy) <= bundle_factor(wires, load_share=calm)
    assert bundle_factor(wires + 1, load_share=busy) <= bundle_factor(wires, load_share=busy)


@given(FUSES, st.lists(st.floats(0.5, 20.0), min_size=2, max_size=20))
def test_bands_never_rise_with_current(fuse: Fuse, shares: list[float]) -> None:
    least, most = opening_band(fuse, fuse.rating_a * np.array(sorted(shares)))
    assert np.all(least <= most)
    for times in (least, most):
        assert np.all(times[1:] <= times[:-1])


@given(st.sampled_from(METRIC), AIR_C, SHARES, st.lists(st.floats(1.0, 500.0), min_size=2))
def test_more_current_never_takes_longer(
    wire: Wire, air_c: float, share: float, amperes: list[float]
) -> None:
    times = seconds_to(Laid(wire, air_c, share), np.sort(amperes), limit_c=105.0)
    assert np.all(times[1:] <= times[:-1])


@given(st.sampled_from(METRIC), AIR_C, FUSES, st.floats(1.0, 500.0))
def test_what_protects_a_wire_protects_it_against_less(
    wire: Wire, air_c: float, fuse: Fuse, prospective_a: float
) -> None:
    found = protection(Laid(wire, air_c), fuse, prospective_a=prospective_a)
    assert found.protects == (found.margin > 0)
    if found.protects:
        assert protection(Laid(wire, air_c), fuse, prospective_a=prospective_a / 2).protects
        assert found.wire_s > found.fuse_s or found.wire_s == inf


@given(AMPERES, st.floats(0.1, 10.0), AIR_C, SHARES, st.floats(0.05, 2.0))
def test_the_wire_chosen_passes_and_the_next_thinner_does_not(
    amperes: float, metres: float, air_c: float, share: float, drop_v: float
) -> None:
    ask = Ask(amperes, metres, air_c, share, drop_v=drop_v)
    found = thinnest(ask, METRIC)
    if found.wire is None:
        assert min(one.margin for one in found.margins) < 0
        return
    assert all(one.passes for one in found.margins)
    place = METRIC.index(found.wire)
    assert thinnest(ask, METRIC[:place] or (METRIC[-1],)).wire in (None, METRIC[-1])


@given(AMPERES, st.floats(0.1, 10.0), AIR_C, st.floats(1.01, 3.0))
def test_asking_more_never_gives_a_thinner_wire(
    amperes: float, metres: float, air_c: float, more: float
) -> None:
    def place(ask: Ask) -> int:
        found = thinnest(ask, METRIC).wire
        return len(METRIC) if found is None else METRIC.index(found)

    base = place(Ask(amperes, metres, air_c, drop_v=0.5))
    assert place(Ask(amperes * more, metres, air_c, drop_v=0.5)) >= base
    assert place(Ask(amperes, metres * more, air_c, drop_v=0.5)) >= base
    assert place(Ask(amperes, metres, air_c, 1 / more, drop_v=0.5)) >= base
