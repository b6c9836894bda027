"""What a small invented wiring asks for, counted by hand."""

from math import ceil

from tests.invented_loom import loom_cabin
from trimwright.wiring import SPARE_SHARE, Buying, End, WiringOutcome, buying, crimp, made_of


def _found() -> WiringOutcome:
    found = loom_cabin().wiring
    assert found is not None
    return found


def _buying() -> Buying:
    return buying(_found(), "mm")


def test_wire_to_buy_is_what_the_loom_is_cut_from() -> None:
    bought = _buying().wires
    cuts = [one.cut_mm for one in _found().loom.wires]
    assert sum(one.cut_mm for one in bought) == sum(cut for cut in cuts if cut is not None)
    assert sum(one.pieces for one in bought) == len(cuts)
    assert sum(one.unknown for one in bought) == cuts.count(None) == 2


def test_metres_are_rounded_up_with_a_tenth_to_spare() -> None:
    white = next(one for one in _buying().wires if one.colour == "WH")
    # 200 + 1230 + 1848 mm, and a tenth more, is 3.6 m
    assert (white.cut_mm, white.pieces, white.lengths) == (3278.0, 3, 4)
    feet = next(one for one in buying(_found(), "in").wires if one.colour == "WH")
    assert feet.lengths == ceil(3278.0 * (1 + SPARE_SHARE) / 304.8) == 12


def test_a_size_that_is_not_written_is_chosen_and_marked() -> None:
    made = made_of(_found())
    assert {name for name, own in made.items() if own.chosen} == {f"pump {n}" for n in range(1, 8)}
    assert made["lamp 1"].size == "2.5 mm2"
    # no wire of 9 mm2 in the stock table: its size is kept, its outside is not known
    assert (made["clock 1"].size, made["clock 1"].stock) == ("9 mm2", None)


def test_every_end_is_crimped_once() -> None:
    found = _found()
    ends = [end for one in found.loom.wires for end in (one.start, one.end)]
    joints = [end for end in ends if crimp(end, found.wiring) == "joint"]
    assert len(joints) == 3
    assert sum(one.count for one in _buying().crimps) == len(ends) - len(joints)
    # battery +, always, and the stud three times
    rings = [(one.size, one.count) for one in _buying().crimps if one.crimp == "ring"]
    assert rings == [("0.75 mm2", 1), ("1 mm2", 1), ("2.5 mm2", 1), ("6 mm2", 2)]


def test_wires_that_share_a_terminal_are_told() -> None:
    own = _buying()
    assert [(one.end.node, one.wires) for one in own.shared] == [
        ("fuse 2 out", ("lamp worked 1", "pump 1")),
        ("fuse 3 out", ("clock 1", "boot lamp 1")),
    ]
    assert [(one.end.device, len(one.wires)) for one in own.joints] == [("dash joint", 3)]


def test_fuses_come_with_a_spare_of_each_kind() -> None:
    own = _buying()
    assert [(one.type, one.rated_a, one.count, one.spare) for one in own.fuses] == [
        ("blade", 15.0, 2, 1),
        ("glass", 5.0, 1, 1),
    ]
    assert own.relays == (("diode", 30.0, 1),)
    assert [one.name for one in own.plugs] == ["tunnel plug", "door plug"]
    assert [one.name for one in own.cables] == ["aerial lead"]
    assert [one.number for one in own.wraps] == [0, 1, 2]


def test_a_bolted_fuse_takes_rings_and_others_push_on_blades() -> None:
    wiring = _found().wiring
    for kind, crimped in (("glass", "blade"), ("blade", "blade"), ("bolted", "ring")):
        fuses = tuple(one.model_copy(update={"type": kind}) for one in wiring.fuses)
        own = wiring.model_copy(update={"fuses": fuses})
        assert crimp(End("fuse 3", "in", "fuse box"), own) == crimped
