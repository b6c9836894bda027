import numpy as np
import pytest

from trimwright.quantities import normal_cdf, normal_density, normal_quantile


def test_shapes_follow_the_input() -> None:
    for shape in ((), (3,), (2, 3)):
        assert normal_cdf(np.zeros(shape)).shape == shape
        assert normal_quantile(np.full(shape, 0.5)).shape == shape
        assert normal_density(np.zeros(shape)).shape == shape


def test_half_lies_below_nought() -> None:
    assert (float(normal_cdf(0.0)), float(normal_quantile(0.5))) == (0.5, 0.0)


def test_ends() -> None:
    assert normal_cdf([-np.inf, np.inf]).tolist() == [0.0, 1.0]
    assert np.isnan(normal_cdf(np.nan))


@pytest.mark.parametrize("p", [0.0, 1.0, -0.1, 1.1, np.nan])
def test_impossible_chances_are_refused(p: float) -> None:
    with pytest.raises(ValueError, match=r"p must be above 0 and below 1, got "):
        normal_quantile([0.5, p])
