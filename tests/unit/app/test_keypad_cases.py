"""What the page's keys make is read by the server as the figure that was meant."""

import json
from pathlib import Path
from typing import Any

import pytest

from trimwright.quantities import QuantityError, along, length

CASES = json.loads(
    (Path(__file__).parents[3] / "web/src/measure/typed.cases.json").read_text("utf-8")
)


@pytest.mark.parametrize("one", CASES, ids=lambda one: one["written"])
def test_what_the_keys_make_is_read_as_meant(one: dict[str, Any]) -> None:
    unit = one.get("build", one["unit"])
    read = along if "side" in one else length
    if "readings" in one:
        with pytest.raises(QuantityError, match="it could mean") as refused:
            read(one["written"], unit)
        assert list(refused.value.readings) == one["readings"]
        return
    found = read(one["written"], unit)
    assert found.value == pytest.approx(one["mm"], abs=1e-9)
    doubt = None if found.doubt is None else found.doubt.plus
    assert doubt == (None if one["doubt_mm"] is None else pytest.approx(one["doubt_mm"], abs=1e-9))
