import pytest

from trimwright.wiring.copper import contact_rating


def test_a_current_backwards_is_refused() -> None:
    with pytest.raises(ValueError, match="current_a must be 0 or more, got -1"):
        contact_rating(-1.0, "lamp")


def test_a_load_that_nobody_printed_is_refused() -> None:
    with pytest.raises(ValueError, match="contact load 'lamp at 24 V' is not in the table"):
        contact_rating(5.0, "lamp", system_v=24.0)
