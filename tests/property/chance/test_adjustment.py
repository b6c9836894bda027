import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trimwright.chance import Contribution, adjust, propagate, repeated_sigma


@settings(max_examples=50, deadline=None)
@given(seed=st.integers(0, 2**31), n=st.integers(1, 8), m=st.integers(1, 5), rank=st.integers(0, 5))
def test_redundancy_sums_to_readings_less_rank(seed: int, n: int, m: int, rank: int) -> None:
    rng = np.random.default_rng(seed)
    kept = min(rank, n, m)
    design = rng.standard_normal((n, kept)) @ rng.standard_normal((kept, m))
    found = adjust(design, rng.standard_normal(n), rng.uniform(0.5, 2, n))
    assert sum(found.redundancy) == pytest.approx(n - kept, abs=1e-9)
    assert found.open_unknowns == m - kept


@settings(max_examples=50, deadline=None)
@given(seed=st.integers(0, 2**31), shift=st.floats(-9, 9), scale=st.floats(0.1, 10))
def test_what_the_unknowns_explain_surprises_no_one(seed: int, shift: float, scale: float) -> None:
    rng = np.random.default_rng(seed)
    design, observed = rng.standard_normal((7, 2)), rng.standard_normal(7)
    sigma = rng.uniform(0.5, 2, 7)
    found = adjust(design, observed, sigma)
    moved = adjust(design, scale * (observed + design @ np.array([shift, 1.0])), scale * sigma)
    assert moved.w == pytest.approx(found.w, abs=1e-8)
    assert np.array(moved.detectable) == pytest.approx(scale * np.array(found.detectable))


@given(shared=st.floats(1e-3, 9), own=st.floats(0, 9), times=st.integers(1, 99))
def test_repeating_never_beats_the_shared_set_up(shared: float, own: float, times: int) -> None:
    found = repeated_sigma(shared, own, times)
    assert found >= shared
    readings = [Contribution("set-up", 1.0 / times, shared, group="s")] * times
    readings += [Contribution("own", 1.0 / times, own)] * times
    assert found == pytest.approx(propagate(readings).sigma, abs=1e-9)
