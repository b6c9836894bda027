"""Laws of the normal law."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimwright.quantities import normal_cdf, normal_quantile


@given(st.floats(-37, 5))
def test_quantile_undoes_cdf(z: float) -> None:
    # near 1 the chance itself is rounded, so the way back is rough by that over the density
    slack = 1e-15 * np.exp(z * z / 2) if z > 0 else 0.0
    assert float(normal_quantile(normal_cdf(z))) == pytest.approx(
        z, rel=1e-10, abs=1e-9 + 4 * slack
    )


@given(st.floats(-37, 37))
def test_tails_mirror(z: float) -> None:
    assert float(normal_cdf(z)) + float(normal_cdf(-z)) == pytest.approx(1.0, abs=1e-15)
