"""Laws of bundles, whatever their wires."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from trimwright.wiring.bundle import Bundle, bundle

WIRES = st.lists(
    st.sampled_from([1.3, 1.7, 1.9, 2.1, 2.4, 3.0, 3.7, 4.3, 6.0]), min_size=1, max_size=25
)
METHOD = 0.01  # the packing found is the smallest one to this share


def clearance_mm(found: Bundle) -> float:
    radii = np.array(found.diameters_mm) / 2
    delta = found.centres_mm[:, np.newaxis] - found.centres_mm
    gaps = np.hypot(delta[..., 0], delta[..., 1]) - radii[:, np.newaxis] - radii
    np.fill_diagonal(gaps, np.inf)
    return float(gaps.min())


@settings(max_examples=40)
@given(WIRES)
def test_wires_never_overlap_nor_stick_out(wires: list[float]) -> None:
    found = bundle(tuple(wires))
    assert clearance_mm(found) >= -1e-9
    reach = np.hypot(*found.centres_mm.T) + np.array(wires) / 2
    assert np.all(reach <= found.bare_mm / 2 + 1e-9)


@settings(max_examples=40)
@given(WIRES, st.sampled_from([1.3, 2.1, 4.3, 6.0]))
def test_a_bundle_never_shrinks_when_a_wire_is_added(wires: list[float], added: float) -> None:
    before, after = bundle(tuple(wires)), bundle((*wires, added))
    assert after.bare_mm >= before.bare_mm * (1 - METHOD)
    assert after.bare_mm <= before.bare_mm + added * (1 + METHOD)


@settings(max_examples=40)
@given(WIRES, st.floats(0.3, 7.0))
def test_a_bundle_grows_with_its_wires(wires: list[float], times: float) -> None:
    once, scaled = bundle(tuple(wires)), bundle(tuple(times * one for one in wires))
    assert abs(scaled.bare_mm / once.bare_mm / times - 1) < METHOD


@settings(max_examples=40)
@given(WIRES)
def test_a_bundle_is_no_denser_than_the_densest_packing_nor_looser_than_the_rule(
    wires: list[float],
) -> None:
    found = bundle(tuple(wires))
    filled = sum(one**2 for one in wires)
    assert found.bare_mm >= max(wires)
    assert filled <= found.bare_mm**2
    if len(wires) >= 11:
        assert found.bare_mm <= 1.2 * filled**0.5  # which 11 equal wires and more obey
