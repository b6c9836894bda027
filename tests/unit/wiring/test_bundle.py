import numpy as np
import pytest

from trimwright.wiring.bundle import bundle, passage, tightest_bend


def test_a_wire_alone_is_a_bundle_of_its_own_diameter() -> None:
    found = bundle((2.6,), wrap_mm=0.5)
    assert found.diameter_mm == pytest.approx(3.6)
    assert found.centres_mm.tolist() == [[0.0, 0.0]]


def test_a_thin_wire_hides_beside_two_thick_ones() -> None:
    # radii 2 and 3 leave room for 1.579 beside them in a circle of 5 (Descartes' theorem)
    assert bundle((4.0, 6.0, 2.0)).diameter_mm == pytest.approx(10.0, abs=1e-6)
    assert bundle((4.0, 6.0, 3.15)).diameter_mm == pytest.approx(10.0, abs=1e-3)
    assert bundle((4.0, 6.0, 3.30)).diameter_mm > 10.001


def test_wires_stay_in_the_order_given() -> None:
    found = bundle((1.0, 5.0, 2.0, 5.0))
    reach = np.hypot(*found.centres_mm.T) + np.array(found.diameters_mm) / 2
    assert np.all(reach <= found.bare_mm / 2 + 1e-9)
    assert np.hypot(*(found.centres_mm[1] - found.centres_mm[3])) == pytest.approx(5.0, abs=1e-6)


def test_the_order_given_does_not_change_the_diameter() -> None:
    assert bundle((1.0, 5.0, 2.0)).bare_mm == bundle((5.0, 2.0, 1.0)).bare_mm


def test_what_is_packed_cannot_be_changed() -> None:
    with pytest.raises(ValueError, match="read-only"):
        bundle((1.0, 2.0)).centres_mm[0, 0] = 1.0


def test_the_wrap_counts_on_both_sides() -> None:
    bare, wrapped = (bundle((2.0, 2.0), wrap_mm=wrap) for wrap in (0.0, 0.4))
    assert wrapped.diameter_mm - bare.diameter_mm == pytest.approx(0.8)
    assert wrapped.bare_mm == bare.bare_mm


def test_a_hole_is_filled_by_area_and_by_diameter() -> None:
    found = passage(bundle((3.0, 3.0)), 6.0)
    assert found.by_area == pytest.approx(0.5)
    assert found.by_diameter == pytest.approx(1.0)
    assert found.goes_through
    assert not passage(bundle((3.0, 3.0), wrap_mm=0.1), 6.0).goes_through


def test_a_bundle_bends_less_than_a_wire() -> None:
    wire, pair = (tightest_bend(bundle((2.0,) * count)) for count in (1, 2))
    assert (wire.times, pair.times) == (4.0, 10.0)
    assert (wire.radius_mm, pair.radius_mm) == pytest.approx((8.0, 40.0))


@pytest.mark.parametrize("diameters", [(), (1.0, 0.0), (1.0, -2.0), (float("nan"),)])
def test_wires_of_no_diameter_are_refused(diameters: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="diameters_mm must be one or more above 0"):
        bundle(diameters)


def test_a_wrap_below_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="wrap_mm must be 0 or more, got -1"):
        bundle((1.0,), wrap_mm=-1.0)


def test_a_hole_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="hole_mm must be above 0, got 0"):
        passage(bundle((1.0,)), 0.0)
