"""Joe and Kuo (2008): the numbers, and the points they make, against scipy.stats.qmc."""

import csv
from importlib.resources import files

import numpy as np
import pytest
from scipy.stats import qmc

from trimwright.chance import sobol_points

BITS = 30


@pytest.mark.parametrize("dimensions", [1, 2, 37, 300, 1111])
def test_points_are_scipys_exactly(dimensions: int) -> None:
    theirs = qmc.Sobol(d=dimensions, scramble=False, bits=BITS).random(1024)
    assert np.array_equal(sobol_points(dimensions, 1024), theirs)


def test_rows_as_the_authors_print_them() -> None:
    # the head of the authors' list: dimension, degree, coefficients, initial numbers
    printed = """
        2 1 0 1
        3 2 1 1 3
        4 3 1 1 3 1
        5 3 2 1 1 1
        6 4 1 1 1 3 3
        7 4 4 1 3 5 13
        8 5 2 1 1 5 5 17
        9 5 4 1 1 5 5 5
        10 5 7 1 1 7 11 19
    """
    text = (files("trimwright.chance") / "sobol_numbers.csv").read_text("utf-8")
    rows = list(csv.DictReader(text.splitlines()))[1:10]
    found = [
        f"{row['dimension']} {row['degree']} {row['coefficients']} {row['initial']}" for row in rows
    ]
    assert found == [line.strip() for line in printed.strip().splitlines()]
