"""Which wires are in which cavity of which half of a plug."""

from tests.invented_loom import loom_cabin
from trimwright.wiring import PlugFace, fuse_duties, plug_faces, relay_duties


def _face(name: str) -> PlugFace:
    found = loom_cabin().wiring
    assert found is not None
    return next(one for one in plug_faces(found) if one.plug.name == name)


def test_the_wires_of_a_cavity_are_on_different_halves() -> None:
    halves = _face("tunnel plug").halves
    names = [[[wire.name for wire in some] for some in half.cavities] for half in halves]
    assert names == [
        [["lamp worked 1"], ["lamp worked 4"], ["pump 1"], ["pump 4"], ["clock 1"], []],
        [
            ["lamp worked 2"],
            ["lamp worked 3", "clock 3"],
            ["pump 2"],
            ["pump 3"],
            ["clock 2"],
            [],
        ],
    ]
    assert halves[0].towards == ("dash", "door")


def test_empty_and_crowded_cavities_are_told() -> None:
    face = _face("tunnel plug")
    assert (face.empty, face.crowded, face.one_sided) == ((6,), (2,), ())


def test_every_wire_at_a_plug_is_in_a_cavity_once() -> None:
    found = loom_cabin().wiring
    assert found is not None
    for face in plug_faces(found):
        there = [wire for half in face.halves for some in half.cavities for wire in some]
        own = face.plug.name
        ends = [one for one in found.loom.wires if own in (one.start.device, one.end.device)]
        assert sorted(one.name for one in there) == sorted(one.name for one in ends)


def test_a_fuse_feeds_what_lies_behind_it() -> None:
    found = loom_cabin().wiring
    assert found is not None
    first, second, third = fuse_duties(found)
    assert first.feeds == ("lamp",)
    assert first.wires == ("lamp 1", "lamp 2")
    assert first.lasting_a is not None
    # 55 W at 13.5 V is 4.1 A
    assert 3.5 < first.lasting_a < 4.5
    assert second.feeds == ("pump", "lamp relay")
    # the clock's way back is by the relay's coil, so that nothing sets it to work
    assert third.feeds == ("boot lamp",)


def test_a_relay_has_its_wires_by_terminal() -> None:
    found = loom_cabin().wiring
    assert found is not None
    (relay,) = relay_duties(found)
    named = [(terminal, [one.name for one in wires]) for terminal, wires in relay.wires]
    assert named == [
        ("30", ["lamp 1"]),
        ("87", ["lamp 2"]),
        ("85", ["lamp worked 5"]),
        ("86", ["lamp worked 4"]),
    ]
