"""How a build begins: what is in the file, and that it can be read at every step."""

from typing import get_args

import pytest

from trimwright.build import beginning, edited, filled_in, first_readings, parse, readings, written
from trimwright.findings import Edit
from trimwright.quantities import Unit

UNITS = get_args(Unit)


@pytest.mark.parametrize("unit", UNITS)
def test_a_new_build_holds_no_figure(unit: Unit) -> None:
    text = beginning("A: 'new' car # 2", unit, "left")
    build = parse(text).build
    assert (build.name, build.unit, build.driver) == ("A: 'new' car # 2", unit, "left")
    assert all(one.assumed for one in readings(build))
    assert set(written(text)) == {("build",), ("unit",), ("driver",)}


@pytest.mark.parametrize("unit", UNITS)
def test_every_first_reading_stands_alone_with_what_it_needs(unit: Unit) -> None:
    first = {one.path: one for one in first_readings(unit)}
    for one in first.values():
        edits = [Edit(path, first[path].example(unit)) for path in (*one.needs, one.path)]
        said = written(parse(edited(beginning("x", unit, "left"), edits)).text)
        assert said[one.path] == one.example(unit)


def test_examples_in_both_units_are_of_one_car() -> None:
    mm, inch = (
        {
            one.key: one.quantity.value
            for one in readings(parse(text).build)
            if "ahead" not in one.key
        }
        for text in (filled_in(beginning("x", unit, "left"), unit) for unit in UNITS)
    )
    assert set(mm) == set(inch)
    assert all(abs(mm[key] - inch[key]) <= 8.0 for key in mm)  # mm: the nearest half inch
