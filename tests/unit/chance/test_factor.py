import numpy as np
import pytest

from trimwright.chance import Factor, Ledger
from trimwright.quantities import Doubt


def factor(key: str, doubt: Doubt) -> Factor:
    """Return a reading with this doubt."""
    return Factor(key, "a height", doubt, "reading", 2.0, 1.0)


NORMAL = factor("car.a", Doubt("normal", 2.0, 2.0))
UNIFORM = factor("car.b", Doubt("uniform", 3.0, 3.0))
LOPSIDED = factor("car.c", Doubt("split", 1.0, 3.0))


def test_deviations() -> None:
    found = Ledger((NORMAL, UNIFORM)).deviations(np.array([[1.0, 0.0], [-2.0, 9.0]]))
    assert found == pytest.approx(np.array([[1.0, 0.0], [-2.0, 3.0]]))


def test_a_row_of_noughts_is_the_figures_as_written() -> None:
    found = Ledger((NORMAL, LOPSIDED)).deviations(np.array([[0.0, 0.0], [0.1, 0.0]]))
    assert found[0].tolist() == [0.0, 0.0]
    assert found[1, 1] > 0  # the median of +3/-1 lies above the written figure


def test_equal_ledgers_are_one_key() -> None:
    assert hash(Ledger((NORMAL, UNIFORM))) == hash(Ledger((NORMAL, UNIFORM)))
    assert len(Ledger((NORMAL, UNIFORM))) == 2


def test_index() -> None:
    assert Ledger((NORMAL, UNIFORM)).index("car.b") == 1
    with pytest.raises(ValueError, match=r"key must be one of the ledger's, got 'car\.x'"):
        Ledger((NORMAL,)).index("car.x")


def test_one_cause_is_never_counted_twice() -> None:
    with pytest.raises(ValueError, match=r"different keys, got 'car\.a' twice"):
        Ledger((NORMAL, UNIFORM, NORMAL))


def test_wrong_columns_are_refused() -> None:
    with pytest.raises(ValueError, match=r"scores must have 1 columns, got shape \(4, 2\)"):
        Ledger((NORMAL,)).deviations(np.zeros((4, 2)))


def test_nonsense_factors_are_refused() -> None:
    doubt = Doubt("normal", 1.0, 1.0)
    with pytest.raises(ValueError, match="key must not be empty"):
        Factor("", "a height", doubt, "reading", 2.0, 1.0)
    with pytest.raises(ValueError, match="minutes must be 0 or more, got -1"):
        Factor("a", "a height", doubt, "reading", -1.0, 1.0)
    with pytest.raises(ValueError, match="again must be 0 or more, got -2"):
        Factor("a", "a height", doubt, "reading", 1.0, -2.0)
