"""A figure far from what is usual is asked about; a usual one, or one that is meant, is not."""

from pathlib import Path

import pytest

from trimwright.app.walk.usual import USUAL, refuse_unusual
from trimwright.app.walk.walking import walk
from trimwright.build import InputError, first_readings, parse, written
from trimwright.findings import Edit
from trimwright.quantities import Unit

ROOT = Path(__file__).parents[3]
HIP = ("car", "between seats", "at hip")


@pytest.mark.parametrize(
    ("value", "unit", "readings"),
    [
        ("2620", "mm", ("262", "2620")),
        ("26.2", "mm", ("26.2 in", "262", "26.2")),
        ("10 1/4 ± 1/8", "mm", ("10 1/4 in", "10 1/4")),
        ("262", "in", ("262 mm", "26.2", "2.62", "262")),
        ("105 in ± 1", "mm", ("105 mm", "10.5 in", "105 in")),
        ("26.2.5", "mm", ("262.5",)),
        ("262..5", "mm", ("262.5",)),
    ],
)
def test_what_may_be_meant_is_offered(value: str, unit: Unit, readings: tuple[str, ...]) -> None:
    with pytest.raises(InputError, match="found") as refused:
        refuse_unusual(Edit(HIP, value), unit)
    assert refused.value.faults[0].readings == readings


@pytest.mark.parametrize("value", ["262", "262 ± 4", "10 1/4 in ± 1/8", "1,250", "no figure"])
def test_a_usual_figure_and_what_the_file_itself_refuses_pass(value: str) -> None:
    refuse_unusual(Edit(HIP, value), "mm")


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_every_example_is_usual(unit: Unit) -> None:
    for one in first_readings(unit):
        refuse_unusual(Edit(one.path, one.example(unit)), unit)


@pytest.mark.parametrize(
    "example",
    ["dunlin/first-measured.yaml", "dunlin/after-remedies.yaml", "fifteen-minutes/build.yaml"],
)
def test_every_reading_of_the_examples_is_usual(example: str) -> None:
    text = (ROOT / "examples" / example).read_text("utf-8")
    for path, value in written(text).items():
        refuse_unusual(Edit(path, value), parse(text).build.unit)


def test_every_reading_of_the_walk_has_its_usual_span() -> None:
    text = (ROOT / "examples/fifteen-minutes/build.yaml").read_text("utf-8")
    for step in walk(parse(text), "").steps:
        if not step.words:
            with pytest.raises(InputError, match="found"):
                refuse_unusual(Edit(step.path, "12000"), "mm")
    assert all(low < high for _, low, high in USUAL)
