"""Two normal scores below a limit each, against Sheppard's formula and scipy.

W. F. Sheppard, On the application of the theory of error to cases of normal distribution and normal
correlation, Phil. Trans. R. Soc. A 192 (1899): both below the middle with chance 1/4 + arcsin(r) / 2 pi.
"""

from math import asin, pi

import numpy as np
import pytest
from scipy.stats import multivariate_normal

from trimwright.quantities import normal_both_below


@pytest.mark.parametrize("correlation", [-0.9, -0.3, 0.0, 0.5, 0.8, 0.99])
def test_both_below_the_middle_is_sheppard_s_formula(correlation: float) -> None:
    found = normal_both_below(0.0, 0.0, correlation)
    assert found == pytest.approx(0.25 + asin(correlation) / (2 * pi), abs=1e-12)


@pytest.mark.parametrize("first", [-2.5, -0.7, 1.2])
@pytest.mark.parametrize("second", [-3.1, 0.4])
@pytest.mark.parametrize("correlation", [-0.6, 0.2, 0.95])
def test_both_below_against_scipy(first: float, second: float, correlation: float) -> None:
    law = multivariate_normal(cov=[[1.0, correlation], [correlation, 1.0]])
    wanted = law.cdf(np.array([first, second]))
    assert normal_both_below(first, second, correlation) == pytest.approx(wanted, abs=1e-6)


def test_both_below_refuses_what_is_no_correlation() -> None:
    with pytest.raises(ValueError, match="correlation must be above -1 and below 1, got 1"):
        normal_both_below(0.0, 0.0, 1.0)
