"""Places and slopes with their way in words."""

from collections.abc import Callable

import pytest

from trimwright.quantities import (
    Doubt,
    Quantity,
    QuantityError,
    Unit,
    across,
    along,
    length_saying,
    slope,
    upward,
)

Parser = Callable[[str, Unit], Quantity]


@pytest.mark.parametrize(
    ("parser", "written", "value"),
    [
        (along, "300 behind", 300.0),
        (along, "300 behind the datum", 300.0),
        (along, "60 ahead", -60.0),
        (along, "60 ahead of the datum", -60.0),
        (along, "60 mm Ahead", -60.0),
        (along, "2 in ahead", -50.8),
        (along, "at datum", 0.0),
        (along, "at the datum", 0.0),
        (along, "0", 0.0),
        (across, "80 left", -80.0),
        (across, "80 left of middle", -80.0),
        (across, "80 right of the middle", 80.0),
        (across, "on middle", 0.0),
        (across, "0 mm", 0.0),
        (upward, "40 above", 40.0),
        (upward, "40 up", 40.0),
        (upward, "40 below", -40.0),
        (upward, "40 down", -40.0),
        (upward, "level", 0.0),
    ],
)
def test_the_word_gives_the_side(parser: Parser, written: str, value: float) -> None:
    assert parser(written, "mm").value == value


@pytest.mark.parametrize("written", ["300 ± 2 behind", "300 behind ± 2", "300 mm ± 2 mm behind"])
def test_a_doubt_stands_on_either_side_of_the_word(written: str) -> None:
    assert along(written, "mm") == Quantity(300.0, Doubt("normal", 2.0, 2.0))


@pytest.mark.parametrize("written", ["at datum ± 2", "at the datum ± 2", "0 ± 2"])
def test_nothing_may_be_doubtful_too(written: str) -> None:
    assert along(written, "mm") == Quantity(0.0, Doubt("normal", 2.0, 2.0))


def test_a_doubt_turns_round_with_its_figure() -> None:
    # 60 to 63 ahead of the datum lies at -60 to -63
    assert along("60 +3/-1 ahead", "mm").doubt == Doubt("split", minus=3.0, plus=1.0)
    assert along("60 +3/-1 behind", "mm").doubt == Doubt("split", minus=1.0, plus=3.0)


@pytest.mark.parametrize(
    ("parser", "written", "readings"),
    [
        (along, "-300", ("300 behind", "300 ahead")),
        (along, "300", ("300 behind", "300 ahead")),
        (along, "\u2212300 mm", ("300 mm behind", "300 mm ahead")),
        (across, "-80", ("80 right", "80 left")),
        (upward, "+40", ("40 above", "40 below")),
    ],
)
def test_a_place_without_a_way_is_refused(
    parser: Parser, written: str, readings: tuple[str, ...]
) -> None:
    with pytest.raises(QuantityError, match="says which way") as refused:
        parser(written, "mm")
    assert refused.value.readings == readings


@pytest.mark.parametrize(
    "written", ["-300 behind", "300 behind ahead", "at datum 3/4", "300 left", "behind", "0 3/4"]
)
def test_a_muddled_place_is_refused(written: str) -> None:
    with pytest.raises(QuantityError, match="found"):
        along(written, "mm")


@pytest.mark.parametrize(
    ("written", "value"), [("2 deg nose up", 2.0), ("2° nose down", -2.0), ("level", 0.0)]
)
def test_a_slope_says_which_end_is_up(written: str, value: float) -> None:
    assert slope(written).value == value


def test_level_may_be_doubtful() -> None:
    assert slope("level ± 1 deg") == Quantity(0.0, Doubt("normal", 1.0, 1.0))


def test_a_slope_without_a_way_is_refused() -> None:
    with pytest.raises(QuantityError, match="2 deg nose up or 2 deg nose down"):
        slope("2 deg")


def test_a_length_says_where_from() -> None:
    ways = ("below string", "above floor")
    assert length_saying("149 ± 2 below string", "mm", ways) == (
        Quantity(149.0, Doubt("normal", 2.0, 2.0)),
        "below string",
    )
    assert length_saying("180 above floor", "mm", ways)[1] == "above floor"
    with pytest.raises(QuantityError, match="149 below string or 149 above floor"):
        length_saying("149", "mm", ways)
