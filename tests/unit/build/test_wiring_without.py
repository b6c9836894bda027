"""A part taken out: of the paths that go through it, with those it is for, or refused with words."""

from pathlib import Path

import pytest

from tests.small_wiring import SMALL
from trimwright.build import NotRemovedError, Wiring, edited, parse, stop, without

FIRST = (Path(__file__).parents[3] / "examples" / "dunlin" / "first-wired.yaml").read_text("utf-8")


def _wiring(text: str) -> Wiring:
    wiring = parse(text).build.wiring
    assert wiring is not None
    return wiring


def _place(text: str, group: str, name: str) -> tuple[str | int, ...]:
    names = [one.name for one in getattr(_wiring(text), group)]
    return ("wiring", group, names.index(name))


def test_a_fuse_is_taken_out_of_its_paths_and_its_neighbours_are_joined() -> None:
    told = without(SMALL, _place(SMALL, "fuses", "fuse 1"))
    assert told.shortened == ("heater",)
    assert told.gone == ()
    after = edited(SMALL, told.edits)
    (heater,) = (one for one in _wiring(after).paths if one.name == "heater")
    assert heater.goes == ("ignition", "heater switch", "heater", "tail stud")
    before = [line for line in SMALL.splitlines() if "fuse 1" not in line]
    assert [line for line in after.splitlines() if "name: heater, goes" not in line] == before


def test_a_load_takes_its_path_with_it_as_nothing_else_is_between_feed_and_ground() -> None:
    told = without(SMALL, _place(SMALL, "loads", "lamp"))
    assert told.gone == ("lamp",)
    after = _wiring(edited(SMALL, told.edits))
    assert "lamp" not in {one.name for one in after.loads}
    assert "lamp" not in {one.name for one in after.paths}


def test_a_relay_takes_the_path_of_its_coil_and_leaves_that_of_its_contact() -> None:
    told = without(FIRST, _place(FIRST, "relays", "fog relay"))
    assert told.gone == ("fog switch",)
    assert told.shortened == ("fog lamps",)
    after = _wiring(edited(FIRST, told.edits))
    (lamps,) = (one for one in after.paths if one.name == "fog lamps")
    assert lamps.goes == ("ignition feed", "fuse 3", "fog lamps", "nose stud")


@pytest.mark.parametrize(
    ("group", "name", "words"),
    [
        ("places", "tank", "Named by the trunk boot to tank, fuel pump"),
        ("switches", "prime button", "the rule never fuel pump"),
        ("loads", "fuel pump", "Named by a rule: change that first."),
        ("loads", "charger", "Named by audio in"),
    ],
)
def test_what_something_else_has_to_name_is_refused_with_words(
    group: str, name: str, words: str
) -> None:
    with pytest.raises(NotRemovedError, match=words):
        without(FIRST, _place(FIRST, group, name))


def test_every_part_of_the_example_is_taken_out_whole_or_refused() -> None:
    wiring = _wiring(FIRST)
    taken = 0
    for group in (
        "fuses",
        "switches",
        "relays",
        "plugs",
        "splices",
        "loads",
        "grounds",
        "trunks",
        "paths",
        "rules",
    ):
        for number, one in enumerate(getattr(wiring, group)):
            try:
                told = without(FIRST, ("wiring", group, number))
            except NotRemovedError:
                continue
            after = _wiring(edited(FIRST, told.edits))
            taken += 1
            name = getattr(one, "name", None)
            if name is None or group == "paths":
                continue
            assert all(
                stop(text, after).device != name for path in after.paths for text in path.goes
            )
    assert taken > 60


@pytest.mark.parametrize(
    "place", [("wiring",), ("wiring", "fuses", 99), ("wiring", "soup", 0), ("car",)]
)
def test_what_is_not_there_is_refused(place: tuple[str | int, ...]) -> None:
    with pytest.raises(NotRemovedError, match="no such part"):
        without(SMALL, place)


def test_the_battery_goes_with_what_leads_to_nothing_else() -> None:
    told = without(SMALL, ("wiring", "alternator"))
    assert told.gone == ("charging", "alternator ground")
    assert _wiring(edited(SMALL, told.edits)).alternator is None
