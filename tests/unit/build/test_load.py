"""A build file is read whole, or refused with every fault at once."""

import re
from pathlib import Path

import pytest

from trimwright.build import Build, InputError, load, parse, said, value
from trimwright.build.compose import MOST_NODES
from trimwright.build.source import MOST_BYTES

HERE = Path(__file__).parent
EVERY_KEY = HERE / "every_key.yaml"
QUARTER = HERE / "quarter_hour.yaml"
LEAST = "build: Larkspur estate\nunit: {0}\ncar:\n  carpet:\n    loose: {1}\n"


def test_every_fault_is_named_at_once_with_line_key_and_example() -> None:
    text = EVERY_KEY.read_text("utf-8")
    for right, wrong in (
        ("sheet: birch plywood 12 ± 0.3", "sheet: birch 12 volts"),
        ("loose: 15 ± 1", "loose: 15 ± lots"),
        ("nose to dash: 6", "nose to dahs: 6"),
        ("driver: right", "driver: middle"),
        ("at: 300 behind ± 2", "at: 300"),
    ):
        assert right in text
        text = text.replace(right, wrong)
    with pytest.raises(InputError, match="5 entries need a look") as refused:
        parse(text)
    assert str(refused.value).splitlines() == [
        "build.yaml cannot be used: 5 entries need a look",
        '  line 5, driver: found "middle"; expected left or right, such as: right',
        (
            '  line 10, wanted: found the key "nose to dahs"; expected certainty | nose to dash | '
            "walls to seats | lever to opening | handbrake | other bodies | daylight at most, "
            "such as: nose to dash"
        ),
        (
            '  line 25, car > carpet > loose: found "15 ± lots"; expected a length, '
            "such as: 3/4 in, or 12.5 mm"
        ),
        (
            '  line 47, car > tunnel > 2nd > at: found "300"; expected a place along the car that '
            "says which way, such as: 80 behind (it could mean 300 behind or 300 ahead)"
        ),
        (
            '  line 118, console > sheet: found "birch 12 volts"; expected a sheet and its '
            "thickness, such as: birch plywood 12 mm"
        ),
    ]


def test_a_bare_length_is_in_the_unit_of_the_build() -> None:
    inches, millimetres = parse(LEAST.format("in", "1/2")), parse(LEAST.format("mm", "1/2 in"))
    assert value(inches.build, "car.carpet.loose").value == 12.7
    assert inches.build.car == millimetres.build.car


def test_a_missing_name_and_unit_are_named() -> None:
    with pytest.raises(InputError, match=r"no build; expected the key build.*\n.*no unit"):
        parse("driver: left\n")


def test_a_sign_is_no_direction() -> None:
    text = EVERY_KEY.read_text("utf-8").replace("at: 600 behind", "at: -600")
    with pytest.raises(InputError, match=r'line 57, .* found "-600"; expected a place along'):
        parse(text)


def test_a_chosen_figure_carries_no_doubt() -> None:
    text = QUARTER.read_text("utf-8").replace("width: 236", "width: 236 ± 2")
    says = 'line 31, console > width: found "236 ± 2"; expected a figure you choose, which carries'
    with pytest.raises(InputError, match=re.escape(says)):
        parse(text)


def test_equal_files_are_equal_and_hash_alike() -> None:
    builds: set[Build] = {load(EVERY_KEY).build, load(EVERY_KEY).build, load(QUARTER).build}
    assert len(builds) == 2


def test_short_forms_come_in_the_long_form_under_their_own_keys() -> None:
    build = load(QUARTER).build
    assert build.console is not None
    assert [(p.at.value, p.height.value) for p in build.console.deck] == [(-70, 205), (690, 205)]
    assert [(w.left.value, w.right.value) for w in build.console.widths] == [(118, 118)] * 2
    assert said(build.console.widths[1], "left") == ("console.width", 0.5)
    assert build.car.seats is not None
    assert build.car.seats.left is not None
    out = build.car.seats.left.low.out
    assert (out.value, out.doubt.plus if out.doubt else None) == (131, 2)
    assert said(build.car.seats.left.low, "out") == ("car.between seats.at hip", 0.5)
    assert build.car.lever is not None
    assert [(m.gear, m.off_middle.value) for m in build.car.lever.moves] == [
        ("neutral", 0),
        ("furthest left", -62),
        ("furthest right", 58),
        ("furthest rear", 0),
    ]
    assert said(build.car.lever.moves[1], "off_middle") == ("car.lever knob.furthest left", -1.0)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("x" * (MOST_BYTES + 1), f"line 1: found more than {MOST_BYTES // 1024} KiB; expected"),
        ("[" + "x, " * (MOST_NODES + 1) + "]", f"line 1: found more than {MOST_NODES} entries"),
        ("build: a\nunit: mm\ndriver: " + " " * 250_000, "line 3, driver: found nothing"),
        ("build: " + "x" * 1000 + "\nunit: mm\n", "build: found"),
    ],
)
def test_a_file_without_end_is_refused(text: str, says: str) -> None:
    with pytest.raises(InputError, match=re.escape(says)):
        parse(text)


def test_a_thousand_faults_are_counted_and_the_first_forty_said() -> None:
    text = LEAST.format("mm", "15") + "".join(f"key {number}: 1\n" for number in range(1000))
    with pytest.raises(InputError, match="1000 entries need a look") as refused:
        parse(text)
    assert len(refused.value.faults) == 1000
    assert str(refused.value).endswith("\n  and 960 more")
    assert str(refused.value).count("\n") == 41


def test_no_file_a_folder_and_another_encoding_are_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match=r"none.yaml cannot be used: .*\n  line 1: found no such"):
        load(tmp_path / "none.yaml")
    with pytest.raises(InputError, match="line 1: found a folder; expected a build file in it"):
        load(tmp_path)
    latin = tmp_path / "latin.yaml"
    latin.write_bytes(b"build: Larkspur\nunit: mm # 5 \xb1 1\n")
    with pytest.raises(InputError, match="line 2: found byte 0xb1; expected text saved as UTF-8"):
        load(latin)
    utf_16 = tmp_path / "utf16.yaml"
    utf_16.write_bytes("build: x".encode("utf-16"))
    with pytest.raises(InputError, match="line 1: found byte 0xff; expected text saved as UTF-8"):
        load(utf_16)
    large = tmp_path / "large.yaml"
    large.write_bytes(b"#" * (MOST_BYTES + 1))
    with pytest.raises(InputError, match="found more than 256 KiB"):
        load(large)


def test_a_copy_with_another_figure_does_not_keep_the_hash() -> None:
    one, other = (parse("build: One\nunit: mm\n").build for _ in range(2))
    assert hash(one) == hash(other)
    changed = one.model_copy(update={"seed": one.seed + 1})
    assert hash(changed) == hash(other.model_copy(update={"seed": one.seed + 1}))
    assert hash(changed) != hash(one)
