"""Laws of a wire rubbed through, whatever the wiring."""

from itertools import pairwise
from math import inf

import pytest

from tests.invented_wiring import wiring_text
from tests.small_wiring import wiring
from trimwright.build import parse
from trimwright.wiring import Rub, shorted

SIZES = ("0.5", "0.75", "1", "1.5", "2.5", "4", "6")
FAR = ("from: box, to: boot, long: 3000", "from: box, to: boot, long: 12000")


def rubs(*swaps: tuple[str, str]) -> dict[str, Rub]:
    return {one.wire: one for one in shorted(wiring(*swaps), "mm")}


def test_thicker_wire_never_passes_less_nor_has_its_fuse_open_later() -> None:
    found = [
        rubs(FAR, ("tail stud], size: 4 mm2", f"tail stud], size: {one} mm2")) for one in SIZES
    ]
    for name in ("heater 1", "heater 2"):
        some = [one[name] for one in found]
        for thin, thick in pairwise(some):
            assert thin.most_a < thick.most_a or name == "heater 1"
            assert thin.least_a < thick.least_a
            assert thin.latest_s >= thick.latest_s


def test_a_longer_way_passes_less_and_its_near_end_as_much() -> None:
    near, far = rubs()["heater 2"], rubs(FAR)["heater 2"]
    assert far.least_a < near.least_a
    assert far.most_a == pytest.approx(near.most_a, rel=1e-9)


def test_a_path_written_the_other_way_round_is_the_same_wire() -> None:
    away = ("alternator: {at: bay", "alternator: {at: box")
    there, back = (
        rubs(away, ("[alternator B+, battery +]", goes))["charging 1"]
        for goes in ("[alternator B+, battery +]", "[battery +, alternator B+]")
    )
    assert (there.from_end, back.from_end) == (True, False)
    assert there.most_a == pytest.approx(back.most_a, rel=1e-9)
    assert there.least_a == pytest.approx(back.least_a, rel=1e-9)


@pytest.mark.parametrize("seed", range(12))
def test_whatever_is_wired_the_least_is_no_more_than_the_most(seed: int) -> None:
    text = wiring_text(seed, 5).replace("holds: 60 Ah", "holds: 60 Ah, cranks: 480 A")
    own = parse(text).build.wiring
    assert own is not None
    found = shorted(own, "mm")
    assert found
    for one in found:
        assert one.solved
        assert one.least_a <= one.most_a * (1 + 1e-9)
        assert one.soonest_s <= one.latest_s
        assert not (one.fed and one.loads)
        if one.fuses:
            assert one.fuse_a <= one.broken_a
        else:
            assert one.latest_s == inf
        if not one.fed and not one.loads:
            assert one.most_a < 0.01
