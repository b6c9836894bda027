import numpy as np
import pytest

from trimwright.chance import sobol_points, sobol_scores
from trimwright.quantities import normal_cdf


def test_first_points() -> None:
    # by hand: 1/2 first, then 3/4 and 1/4, in opposite order in the second dimension
    assert sobol_points(2, 4).tolist() == [[0, 0], [0.5, 0.5], [0.75, 0.25], [0.25, 0.75]]


def test_same_seed_gives_same_bytes() -> None:
    assert sobol_scores(7, seed=5).tobytes() == sobol_scores(7, seed=5).tobytes()
    assert sobol_scores(7, seed=5).tobytes() != sobol_scores(7, seed=6).tobytes()


def test_scores_stay_as_they_were_recorded() -> None:
    # a changed stream would change every printed certainty
    found = normal_cdf(sobol_scores(3, scrambles=2, each=2, seed=7)) * 2.0**30
    assert np.rint(found - 0.5).astype(int).tolist() == RECORDED


RECORDED = [
    [533513788, 502221496, 676051671],
    [648821419, 1027779673, 142626784],
    [685043612, 550833402, 50092459],
    [211506571, 146322993, 573237364],
]


def test_no_factors_give_rows_without_columns() -> None:
    assert sobol_scores(0, seed=1).shape == (4096, 0)


@pytest.mark.parametrize("each", [0, 1, 3, 500, 1 << 21])
def test_odd_numbers_of_points_are_refused(each: int) -> None:
    with pytest.raises(ValueError, match=rf"each must be a power of two .*, got {each}$"):
        sobol_scores(2, each=each, seed=1)


def test_more_factors_than_the_table_has_are_refused() -> None:
    assert sobol_points(1111, 2).shape == (2, 1111)
    with pytest.raises(ValueError, match="factors must be from 1 to 1111, got 1112"):
        sobol_scores(1112, seed=1)


@pytest.mark.parametrize(("scrambles", "seed"), [(0, 1), (8, -1)])
def test_nonsense_is_refused(scrambles: int, seed: int) -> None:
    with pytest.raises(ValueError, match=rf"scrambles must be .*, got {scrambles}, {seed}$"):
        sobol_scores(2, scrambles=scrambles, seed=seed)
