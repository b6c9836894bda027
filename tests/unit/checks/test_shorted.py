"""Rule 'rubbed through': what is said of a small wiring whose shorts are not ended in time."""

from math import inf

import pytest

from tests.small_wiring import changed, told
from trimwright.build import edited, parse
from trimwright.findings import Finding
from trimwright.wiring import Rub, shorted

FAR = (
    ("from: box, to: boot, long: 3000", "from: box, to: boot, long: 20000"),
    ("from: box, to: dash, long: 500", "from: box, to: dash, long: 8000"),
    ("name: fuse 1, at: box, rated: 10 A", "name: fuse 1, at: box, rated: 7.5 A"),
    ("takes: 6 A, measured", "takes: 1 A, measured"),
    ("tail stud], size: 4 mm2", "tail stud], size: 0.75 mm2"),
)


def rubs(text: str) -> dict[str, Rub]:
    own = parse(text).build.wiring
    assert own is not None
    return {one.wire: one for one in shorted(own, "mm")}


def said(text: str) -> list[Finding]:
    return [one for one in told(text).values() if one.rule == "rubbed through"]


def test_a_sound_wiring_is_told_with_the_wire_that_has_the_least_to_spare() -> None:
    (one,) = said(changed())
    assert (one.grade, one.place, one.lock) == ("good", "any wire rubbed through", "carpet")
    assert one.figure is not None
    assert one.limit == pytest.approx(80.0)  # twice 40 A: within 5 s for sure
    assert one.figure == pytest.approx(rubs(changed())["keyed 1"].fuse_a)


def test_a_long_thin_wire_may_hold_its_fuse_for_ever_and_each_remedy_ends_that() -> None:
    text = changed(*FAR)
    found = told(text)["heater rubbed through"]
    assert found.grade == "stop"
    assert "fuse 1 may never open" in found.says
    assert found.figure is not None
    assert found.limit == pytest.approx(15.0)
    assert found.figure < 1.35 * 7.5
    assert [one.edits[0].path[1] for one in found.remedies] == ["fuses", "paths"]
    for remedy in found.remedies:
        after = edited(text, remedy.edits)
        assert rubs(after)["heater 2"].latest_s <= 5.0
        assert "heater rubbed through" not in told(after)


def test_a_fuse_that_takes_its_time_is_to_be_changed() -> None:
    text = changed(*FAR, ("size: 0.75 mm2", "size: 1 mm2"))
    found = told(text)["heater rubbed through"]
    assert 5.0 < rubs(text)["heater 2"].latest_s < inf
    assert found.grade == "change"
    assert "may take" in found.says


def test_what_the_rule_of_sizes_says_is_not_said_again() -> None:
    text = changed(*FAR, ("rated: 7.5 A", "rated: 30 A"))
    found = told(text)
    assert found["wires of heater"].grade == "stop"
    assert "heater rubbed through" not in found
    assert "any wire rubbed through" not in found


def test_a_wire_to_the_battery_without_a_fuse_is_a_stop_and_a_fuse_goes_in_as_one_edit() -> None:
    text = changed(("[battery +, main fuse, always]", "[battery +, always]"))
    found = told(text)["no fuse ahead of main"]
    assert found.grade == "stop"
    assert found.limit == pytest.approx(300.0)
    after = edited(text, found.remedies[0].edits)
    own = parse(after).build.wiring
    assert own is not None
    assert own.paths[0].goes == ("battery +", "main fuse 2", "always")
    assert (own.fuses[-1].name, own.fuses[-1].at) == ("main fuse 2", "bay")
    assert "no fuse ahead of main" not in told(after)


def test_a_wire_that_the_alternator_feeds_gets_a_fuse_for_all_it_gives_at_the_battery() -> None:
    away = (
        ("alternator: {at: bay", "alternator: {at: box"),
        ("[alternator B+, battery +]", "[alternator B+, joint, battery +]"),
    )
    text = changed(*away, more="  splices:\n    - {name: joint, at: box}\n")
    found = told(text)["no fuse ahead of charging"]
    assert found.grade == "stop"
    after = parse(edited(text, found.remedies[0].edits)).build.wiring
    assert after is not None
    assert after.paths[2].goes == ("alternator B+", "joint", "charging fuse", "battery +")
    assert after.fuses[-1].at == "bay"
    assert after.fuses[-1].rated.value * 0.8 >= 55.0


CHARGED = (
    (", zone: engine bay", ""),
    ("alternator: {at: bay", "alternator: {at: box"),
    ("    - {name: fuse 1, at: box,", "    - {name: charging fuse, at: bay, rated: 70 A}\n    - {name: fuse 1, at: box,"),
    ("[alternator B+, battery +], size: 10 mm2", "[alternator B+, charging fuse, battery +], size: 1.5 mm2"),
)  # fmt: skip


def test_a_thin_wire_that_only_a_short_feeds_is_told_with_wire_that_bears_it() -> None:
    text = changed(*CHARGED)
    warm = told(text)["warmth of charging 1 rubbed through"]
    assert warm.grade == "stop"
    held = told(text)["charging half rubbed through"]
    assert held.grade == "change"
    assert held.limit == pytest.approx(94.5)
    bears = edited(text, warm.remedies[0].edits)
    assert "warmth of charging 1 rubbed through" not in told(bears)
    assert "charging half rubbed through" in told(bears)
    after = told(edited(bears, held.remedies[0].edits))
    assert "charging half rubbed through" not in after
    assert after["any wire rubbed through"].grade == "good"


def test_a_starters_lead_without_a_fuse_is_usual_and_only_looked_at() -> None:
    starter = "    - {name: lamp, at: dash, kind: LED, takes: 6 W}\n"
    swap = (starter, starter + "    - {name: starter motor, at: box, kind: motor, takes: 150 A}\n")
    path = "    - {name: starting, goes: [battery +, starter motor, bay stud], size: 25 mm2}\n"
    found = told(changed(swap, more=path))["no fuse ahead of starting"]
    assert (found.grade, found.figure) == ("look", None)
    assert "as is usual for a starter" in found.says


def test_a_fuse_that_breaks_less_than_a_short_drives_is_a_stop_until_another_is_written() -> None:
    strong = ("inside: 10 mohm", "inside: 3 mohm")
    found = told(changed(strong))["what main fuse breaks"]
    assert (found.grade, found.limit) == ("stop", 1000.0)
    assert found.figure is not None
    assert found.figure > 1000.0
    bolted = ("at: bay, rated: 40 A", "at: bay, rated: 40 A, breaks: 2000 A")
    assert "what main fuse breaks" not in told(changed(strong, bolted))


def test_a_bolted_fuse_takes_the_place_of_a_blade_that_breaks_too_little() -> None:
    text = changed(("inside: 10 mohm", "inside: 4 mohm"))
    found = told(text)["what main fuse breaks"]
    # the next as sold above 40 A, by its makers' 2000 A
    assert found.remedies[0].says.startswith("Take a bolted fuse of 60 A for main fuse, with wire")
    after = edited(text, found.remedies[0].edits)
    assert "type: bolted" in after
    assert "what main fuse breaks" not in told(after)
    same = told(changed(("inside: 10 mohm", "inside: 4 mohm"), ("rated: 40 A", "rated: 80 A")))
    (edit,) = same["what main fuse breaks"].remedies[0].edits
    assert (edit.path[-1], edit.value) == ("type", "bolted")


def test_a_larger_fuse_resists_less_and_is_held_to_what_then_flows() -> None:
    # 1804 A as it is; through a bolted fuse of 60 A it would be 2044 A, more than the 2000 it breaks
    found = told(changed(("inside: 10 mohm", "inside: 3 mohm")))["what main fuse breaks"]
    assert found.figure == pytest.approx(1804, abs=1.0)
    assert [one.edits for one in found.remedies] == [()]


def test_no_kind_is_offered_that_breaks_too_little_itself() -> None:
    text = changed(("inside: 10 mohm", "inside: 0.3 mohm"))
    found = told(text)["what main fuse breaks"]
    assert found.figure is not None
    assert found.figure > 2000.0
    assert [one.edits for one in found.remedies] == [()]


def test_a_kind_that_would_open_too_late_is_not_offered() -> None:
    # a bolted fuse is sure to open within 5 s from 3.5 times 60 A on only
    far = ("from: bay, to: box, long: 1000", "from: bay, to: box, long: 20000")
    thin = ("main fuse, always], size: 16 mm2", "main fuse, always], size: 4 mm2")
    strong = ("inside: 10 mohm", "inside: 4 mohm")
    found = told(changed(strong, far, thin))["what main fuse breaks"]
    assert not any(one.edits for one in found.remedies)


GLASS = ("name: fuse 2, at: box, rated: 5 A", "name: fuse 2, at: box, rated: 5 A, type: glass")


def test_a_glass_fuse_is_held_to_what_it_is_tested_to_at_ac() -> None:
    text = changed(GLASS)
    found = told(text)["what fuse 2 breaks"]
    assert (found.grade, found.limit) == ("change", 50.0)  # 10 times 5 A, more than 35 A
    assert found.figure is not None
    assert found.figure > 50.0
    (edit,) = found.remedies[0].edits
    assert (edit.path[-1], edit.value) == ("type", "blade")
    assert "what fuse 2 breaks" not in told(edited(text, found.remedies[0].edits))
    written = (GLASS[0], GLASS[1] + ", breaks: 1000 A")
    assert "what fuse 2 breaks" not in told(changed(written))


def test_a_glass_fuse_that_is_asked_for_less_is_not_checked_at_dc() -> None:
    thin = ("main fuse, always], size: 16 mm2", "main fuse, always], size: 0.75 mm2")
    far = ("from: bay, to: box, long: 1000", "from: bay, to: box, long: 20000")
    found = told(changed(GLASS, thin, far))["what glass fuses break"]
    assert (found.grade, found.figure, found.missing) == ("look", None, ("breaks of fuse 2",))
    assert "only at AC" in found.says


def test_nothing_is_said_of_a_wiring_that_is_not_solved() -> None:
    assert said(changed((", inside: 10 mohm", ""))) == []
