"""Loads over and beside what carries them."""

import numpy as np

from trimwright.fit.footprint import carries, outline_of


def test_outline_equals_a_square_with_points_inside_and_on_it() -> None:
    points = np.array([[0.0, 0], [4, 0], [4, 4], [0, 4], [2, 0], [2, 2], [4, 1]])
    assert outline_of(points).tolist() == [[0, 0], [4, 0], [4, 4], [0, 4]]


def test_points_on_one_line_carry_nothing() -> None:
    line = np.array([[0.0, 0], [1, 1], [2, 2]])
    assert not carries(line, np.array([[1.0, 1.0], [0.5, 0]])).any()


def test_the_edge_itself_does_not_carry() -> None:
    square = np.array([[0.0, 0], [4, 0], [4, 4], [0, 4]])
    loads = np.array([[4.0, 2], [3.999, 2], [4.001, 2]])
    assert carries(square, loads).tolist() == [False, True, False]
