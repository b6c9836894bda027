from math import inf

import pytest

from trimwright.stock import fuse_class, load_kind, wire, wires
from trimwright.wiring.copper import Ask, Fuse, Laid, copper_c, thinnest, thinnest_of_each

METRIC = wires("metric")
BLADE = fuse_class("mini blade")


def test_a_short_wire_is_decided_by_what_it_carries() -> None:
    found = thinnest(Ask(15.0, 0.1, 60.0, drop_v=1.0), METRIC)
    assert found.wire == wire("1 mm2")  # 0.75 mm2 bears 14.1 A, 1 mm2 16.8 A
    assert found.decides == "carries"


def test_a_long_wire_is_decided_by_what_it_loses() -> None:
    found = thinnest(Ask(2.0, 8.0, 20.0, drop_v=load_kind("driving lamp").drop * 12), METRIC)
    assert (found.wire, found.decides) == (wire("1 mm2"), "drop")  # 0.36 V; 0.75 mm2 loses 0.42


def test_the_drop_is_that_of_the_warm_wire() -> None:
    ask = Ask(16.0, 1.0, 60.0, drop_v=5.0)
    found = thinnest(ask, METRIC)
    lost = next(one for one in found.margins if one.criterion == "drop")
    assert found.wire is not None
    cold = ask.current_a * found.wire.conductor.ohm_per_m
    assert lost.found / cold == pytest.approx(1 + 0.00393 * (found.settles_c - 20))
    assert found.settles_c > 95


def test_strength_decides_where_nothing_flows() -> None:
    found = thinnest(Ask(0.0, 5.0, 20.0, drop_v=0.1, least_mm2=0.75), METRIC)
    assert (found.wire, found.decides) == (wire("0.75 mm2"), "strength")
    assert {one.criterion: one.margin for one in found.margins} == {
        "carries": inf,
        "strength": 0.0,
        "drop": inf,
    }


def test_what_decides_is_what_stands_worst_at_the_next_thinner_wire() -> None:
    # 0.5 mm2 bears 11.1 A of 14, a fifth short, and is a third short of 0.74 mm2; 0.75 bears 14.1 A
    found = thinnest(Ask(14.0, 0.1, 60.0, least_mm2=0.74), METRIC)
    assert (found.wire, found.decides) == (wire("0.75 mm2"), "strength")
    assert min(found.margins, key=lambda one: one.margin).criterion == "carries"


def test_a_wire_settles_as_warm_as_its_bundle_makes_it() -> None:
    ask = Ask(6.0, 1.0, 60.0, 0.4125)
    found = thinnest(ask, METRIC)
    assert found.wire is not None
    laid = Laid(found.wire, ask.ambient_c, ask.share)
    assert found.settles_c == pytest.approx(float(copper_c(laid, ask.current_a)))
    assert found.settles_c > 85


def test_the_fuse_decides_for_a_small_load_behind_a_large_fuse() -> None:
    fused = Ask(1.0, 1.0, 40.0, drop_v=0.5, fuse=Fuse(BLADE, 20.0), prospective_a=300.0)
    found = thinnest(fused, METRIC)
    assert (found.wire, found.decides) == (wire("2.5 mm2"), "fuse")
    bare = thinnest(Ask(1.0, 1.0, 40.0, drop_v=0.5), METRIC)
    assert bare.wire == wire("0.35 mm2")


def test_a_bundle_asks_for_more() -> None:
    alone, together = (thinnest(Ask(12.0, 0.2, 60.0, share), METRIC) for share in (1.0, 0.4125))
    assert (alone.wire, together.wire) == (wire("0.75 mm2"), wire("2.5 mm2"))


def test_where_no_wire_will_do_the_thickest_says_why() -> None:
    found = thinnest(Ask(200.0, 1.0, 60.0, drop_v=5.0), METRIC)
    assert (found.wire, found.decides) == (None, "carries")
    assert found.settles_c > 105


def test_air_hotter_than_the_insulation_bears_is_no_choice() -> None:
    found = thinnest(Ask(1.0, 1.0, 110.0, fuse=Fuse(BLADE, 5.0), prospective_a=99.0), METRIC)
    assert found.wire is None
    assert min(one.margin for one in found.margins) == -1.0


def test_many_wires_are_chosen_as_each_alone() -> None:
    asks = [Ask(amperes, 3.0, 50.0, 0.65, drop_v=0.4) for amperes in (0.5, 3.0, 9.0, 20.0, 90.0)]
    together = thinnest_of_each(asks, METRIC)
    alone = [thinnest(one, METRIC) for one in asks]
    assert [one.wire for one in together] == [one.wire for one in alone]
    assert [one.decides for one in together] == [one.decides for one in alone]
    assert [one.settles_c for one in together] == pytest.approx([one.settles_c for one in alone])


def test_the_order_of_the_wires_does_not_count() -> None:
    ask = Ask(10.0, 2.0, 50.0, drop_v=0.4)
    assert thinnest(ask, METRIC[::-1]) == thinnest(ask, METRIC)


def test_a_fuse_without_a_short_is_refused() -> None:
    with pytest.raises(ValueError, match="fuse and prospective_a go together"):
        Ask(1.0, 1.0, 20.0, fuse=Fuse(BLADE, 5.0))


def test_no_wires_to_choose_from_is_refused() -> None:
    with pytest.raises(ValueError, match="wires must hold at least one"):
        thinnest(Ask(1.0, 1.0, 20.0), ())
