"""Lengths as people and phones write them."""

import pytest

from trimwright.quantities import Doubt, Quantity, QuantityError, Unit, length


@pytest.mark.parametrize(
    ("written", "mm"),
    [
        ("3/4 in", 19.05),
        ("1 1/2 in", 38.1),
        ('1-1/2"', 38.1),
        ("6' 2 1/2\"", 1892.3),
        ("6 ft 2 in", 1879.6),
        ("6 ft. 2 in.", 1879.6),
        ("6'2", 1879.6),
        ("6'-2\"", 1879.6),
        ("6.5 ft", 1981.2),
        ('½"', 12.7),
        ('1½"', 38.1),
        ("1 ½ in", 38.1),
        ("12,5 mm", 12.5),
        ("0,250", 0.25),
        ("2.5 cm", 25.0),
        ("0.3 m", 300.0),
        (".5 mm", 0.5),
        ("19", 19.0),
        ("1.250", 1.25),
        ("19 MM", 19.0),
        ("30 thou", 0.762),
        ("6\u2032 2\u2033", 1879.6),
        ("6\u2019 2\u201d", 1879.6),
        ("6' 2''", 1879.6),
        ("3\u20444 in", 19.05),
        ("1\u00a01/2\u202fin", 38.1),
        ("1\u20091/2\u2009in", 38.1),
        ("1\u22121/2 in", 38.1),
        ("\ufeff19\u200b mm\u200e", 19.0),
    ],
)
def test_a_length_is_read_as_meant(written: str, mm: float) -> None:
    assert length(written, "mm").value == pytest.approx(mm, rel=1e-15)


@pytest.mark.parametrize(
    ("written", "doubt"),
    [
        ("19 mm ± 2", Doubt("normal", 2.0, 2.0)),
        ("19 ± 2", Doubt("normal", 2.0, 2.0)),
        ("19 +/- 2", Doubt("normal", 2.0, 2.0)),
        ("19 +- 2", Doubt("normal", 2.0, 2.0)),
        ("19+/\u22122", Doubt("normal", 2.0, 2.0)),
        ("19 mm ± 2 mm", Doubt("normal", 2.0, 2.0)),
        ('3/4" ± 1/16', Doubt("normal", 1.5875, 1.5875)),
        ("6' 2\" ± 1/8", Doubt("normal", 3.175, 3.175)),
        ("19 mm ± 1/8 in", Doubt("normal", 3.175, 3.175)),
        ("12 ± at most 2", Doubt("uniform", 2.0, 2.0)),
        ("12 at most 2 off", Doubt("uniform", 2.0, 2.0)),
        ("20 +3/-1", Doubt("split", 1.0, 3.0)),
        ("20 + 3 / \u2212 1", Doubt("split", 1.0, 3.0)),
        ("20 -1/+3", Doubt("split", 1.0, 3.0)),
        ('1 in +1/8/-1/16"', Doubt("split", 1.5875, 3.175)),
    ],
)
def test_a_doubt_is_read_with_its_figure(written: str, doubt: Doubt) -> None:
    assert length(written, "mm").doubt == doubt


@pytest.mark.parametrize(("unit", "mm"), [("mm", 19.0), ("in", 482.6)])
def test_a_bare_figure_is_in_the_unit_of_the_build(unit: Unit, mm: float) -> None:
    assert length("19", unit).value == mm


def test_what_was_written_is_kept_and_not_compared() -> None:
    inch = length(" 3/4 in ", "mm")
    assert inch.text == "3/4 in"
    assert inch == Quantity(19.05, text="nineteen")
    assert hash(inch) == hash(Quantity(19.05))


@pytest.mark.parametrize(
    ("written", "readings"),
    [
        ("1,250 mm", ("1250 mm", "1.25 mm")),
        ("12,500", ("12500", "12.5")),
        ("1.250,5", ("1250.5",)),
        ("1,250.5", ("1250.5",)),
        ("1 250 mm", ("1250 mm",)),
        ("1\u202f250 mm", ("1250 mm",)),
        ("5-6", ("5.5 ± 0.5",)),
        ("5\u20136 mm", ("5.5 mm ± 0.5",)),
        ("19 ± 2 cm", ("19 mm", "19 cm")),
    ],
)
def test_what_can_be_read_in_two_ways_is_refused_with_both(
    written: str, readings: tuple[str, ...]
) -> None:
    with pytest.raises(QuantityError, match="it could mean") as refused:
        length(written, "mm")
    assert refused.value.readings == readings
    assert refused.value.found == written


@pytest.mark.parametrize(
    "written",
    [
        *("", "mm", "lots", "nan", "inf", "-inf", "1e3", "1_000", "0x10", "٣", "+5", "-5"),
        *(
            "\u22125",
            "3/0",
            "1 5/4",
            "1 2/2",
            "1 - 1/2",
            "12.5.3",
            "5 lb",
            "5 kg",
            "12 ± lots",
            ",5",
        ),
        *(
            "19 ± 2 ± 3",
            "19 ± -2",
            "± 2",
            "6 ft 2 mm",
            "6' 2\" 3",
            "1' 0' 2\"",
            "5 mm mm",
            "20 +3",
            "1/2/3",
        ),
    ],
)
def test_what_is_no_length_is_refused(written: str) -> None:
    with pytest.raises(QuantityError, match=r"expected (a length|feet)"):
        length(written, "mm")


def test_an_endless_figure_is_refused_like_any_other() -> None:
    for endless in ("9" * 5000, "1'" * 5000, "9" * 5000 + "' 2\"", "1 ± " * 5000):
        with pytest.raises(QuantityError, match="expected a length"):
            length(endless, "mm")


def test_inches_past_a_foot_are_refused() -> None:
    with pytest.raises(QuantityError, match="inches below 12, such as: 6 ft 2 in"):
        length("6' 12\"", "mm")


@pytest.mark.parametrize("written", ["20001", "20.001 m", "66 ft", "5 mm ± 21 m"])
def test_an_absurd_length_is_refused(written: str) -> None:
    with pytest.raises(QuantityError, match="expected a length of at most 20 m"):
        length(written, "mm")


def test_the_longest_length_is_taken() -> None:
    assert length("20 m", "mm").value == 20_000.0


def test_a_refusal_says_found_expected_and_example() -> None:
    with pytest.raises(QuantityError, match="found") as refused:
        length("12 volts", "mm")
    assert str(refused.value) == (
        'found "12 volts"; expected a length, such as: 3/4 in, or 12.5 mm'
    )
