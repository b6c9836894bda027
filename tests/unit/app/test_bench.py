"""A file that pages edit, other hands change, and that may be gone."""

import shutil
import threading
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.served_bench import CAR
from trimwright.app import Bench, shelf
from trimwright.app.bench import REMEMBERED
from trimwright.app.standing import ClashError, NotDoneError, Sent, Standing
from trimwright.build import Fault, InputError, load, written
from trimwright.findings import Edit

LOOSE = ("car", "carpet", "loose")
SQUEEZED = ("car", "carpet", "squeezed by hand")
Harm = Callable[[Path], None]
DRAFT = "format: 0\n" + CAR.replace("car:", "vehicle:").replace("carpet:", "pile:").replace(
    "loose:", "free:"
).replace("squeezed by hand:", "squeezed:")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "build.yaml"
    path.write_text(CAR, encoding="utf-8")
    return path


def said(path: Path, at: tuple[str, ...] = LOOSE) -> str | None:
    return written(path.read_text(encoding="utf-8")).get(at)


def test_an_edit_is_on_disk_when_it_returns(file: Path) -> None:
    bench = Bench(file)
    first = bench.standing().version
    after = bench.edit(first, [Edit(LOOSE, "14 ± 1")], "Thinner")
    assert after.version != first
    assert said(file) == "14 ± 1"
    assert bench.account().last == "Thinner"


def test_what_another_hand_wrote_elsewhere_stays(file: Path) -> None:
    bench = Bench(file)
    base = bench.standing().version
    file.write_text(CAR.replace("squeezed by hand: 6", "squeezed by hand: 5"), encoding="utf-8")
    bench.edit(base, [Edit(LOOSE, "14 ± 1")], "Thinner")
    assert (said(file), said(file, SQUEEZED)) == ("14 ± 1", "5")


def test_what_another_hand_wrote_in_the_same_place_clashes(file: Path) -> None:
    bench = Bench(file)
    base = bench.standing().version
    bench.edit(base, [Edit(LOOSE, "12")], "Thinner")
    before = file.read_bytes()
    with pytest.raises(ClashError, match="of the places were changed") as met:
        bench.edit(base, [Edit(LOOSE, "14 ± 1")], "Thinner")
    assert met.value.theirs == {LOOSE: "12"}
    assert file.read_bytes() == before


def test_an_edit_that_is_sent_again_is_made_once(file: Path) -> None:
    bench = Bench(file)
    base = bench.standing().version
    edits = [Edit(LOOSE, "12"), Edit(SQUEEZED, None)]
    first = bench.edit(base, edits, "Thinner")
    again = bench.edit(base, edits, "Thinner")
    assert first.version == again.version
    assert len(bench.steps()[0]) == 2


@pytest.mark.parametrize("base", ["", "0", "a", "0" * 16, "é", "f" * 64])
def test_edits_to_a_version_that_nobody_knows_clash(file: Path, base: str) -> None:
    bench = Bench(file)
    bench.edit(bench.standing().version, [Edit(LOOSE, "12")], "Thinner")
    with pytest.raises(ClashError, match="of the places were changed") as met:
        bench.edit(base, [Edit(SQUEEZED, "5")], "Flatter")
    assert met.value.theirs == {SQUEEZED: "6"}


def test_a_version_that_was_never_written_by_us_is_known(file: Path) -> None:
    bench = Bench(file)
    base = bench.standing().version
    for count in range(REMEMBERED // 2):
        file.write_text(CAR.replace("190", str(190 + count)), encoding="utf-8")
        bench.look()
    bench.edit(base, [Edit(LOOSE, "12")], "Thinner")
    assert said(file) == "12"


def test_a_version_of_an_earlier_session_is_known(file: Path) -> None:
    first = Bench(file)
    base = first.edit(first.standing().version, [Edit(LOOSE, "12")], "Thinner").version
    first.edit(base, [Edit(SQUEEZED, "5")], "Flatter")
    Bench(file).edit(base, [Edit(LOOSE, "13")], "Thicker")
    assert (said(file), said(file, SQUEEZED)) == ("13", "5")


def told(standing: Standing | None) -> tuple[str, str]:
    """Return which version stands and what it says."""
    assert standing is not None
    return standing.version, standing.text


def test_an_error_by_hand_keeps_the_last_good_state_and_tells_its_line(file: Path) -> None:
    bench = Bench(file)
    good = bench.standing()
    file.write_text(CAR.replace("6\n", "lots\n"), encoding="utf-8")
    now = bench.standing()
    assert now.version != good.version
    assert now.good is not None
    assert now.good.text == CAR
    assert told(now.usable) == told(good)
    assert now.fault is not None
    assert [one.line for one in now.fault.faults] == [6]
    with pytest.raises(InputError, match="cannot be used"):
        bench.edit(now.version, [Edit(LOOSE, "12")], "Thinner")
    file.write_text(CAR, encoding="utf-8")
    assert told(bench.standing()) == told(good)


def _missing(path: Path) -> None:
    path.unlink()


def _folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


def _no_text(path: Path) -> None:
    path.write_bytes(CAR.encode().replace("±".encode(), b"\xb1"))


def _empty(path: Path) -> None:
    path.write_bytes(b"")


def _long(path: Path) -> None:
    path.write_bytes(CAR.encode() + b"#" * 300_000)


def _loop(path: Path) -> None:
    path.unlink()
    path.symlink_to(path)


def _no_parent(path: Path) -> None:
    shutil.rmtree(path.parent)


HARMS = [_missing, _folder, _no_text, _empty, _long, _loop, _no_parent]


@pytest.mark.parametrize("harm", HARMS)
def test_a_file_that_cannot_be_read_is_said_so_and_nothing_falls_over(
    harm: Harm, file: Path
) -> None:
    bench = Bench(file)
    heard: list[str] = []
    good = bench.edit(bench.standing().version, [Edit(LOOSE, "12")], "Thinner")
    bench.listen(lambda _, version: heard.append(version))
    harm(file)
    assert bench.look()
    assert not bench.look()
    now = bench.standing()
    assert heard == [now.version]
    assert now.fault is not None
    assert told(now.usable) == told(good)
    for base in (now.version, good.version):
        with pytest.raises(InputError, match="cannot be used"):
            bench.edit(base, [Edit(LOOSE, "13")], "Thicker")


@pytest.mark.parametrize("harm", [_missing, _no_text, _empty])
def test_undo_brings_back_what_was_there_before_the_harm(harm: Harm, file: Path) -> None:
    bench = Bench(file)
    good = bench.edit(bench.standing().version, [Edit(LOOSE, "12")], "Thinner")
    harm(file)
    assert bench.account().last == "Changed by hand"
    assert told(bench.undo()) == told(good)
    assert said(file) == "12"


@pytest.mark.parametrize("harm", [_folder, _loop, _no_parent])
def test_what_the_disk_refuses_is_said_in_one_line(harm: Harm, file: Path) -> None:
    bench = Bench(file)
    bench.edit(bench.standing().version, [Edit(LOOSE, "12")], "Thinner")
    harm(file)
    with pytest.raises(NotDoneError, match=r"^[^\n]+$"):
        bench.undo()


def test_a_history_that_cannot_be_kept_leaves_the_file_alone(file: Path) -> None:
    (file.parent / ".build.yaml.history").write_text("in the way", encoding="utf-8")
    bench, before = Bench(file), file.read_bytes()
    with pytest.raises(NotDoneError, match=r"build\.yaml: "):
        bench.edit(bench.standing().version, [Edit(LOOSE, "12")], "Thinner")
    assert file.read_bytes() == before


def test_an_older_file_is_brought_up_to_date_while_open(file: Path) -> None:
    bench = Bench(file)
    base = bench.standing().version
    file.write_text(DRAFT, encoding="utf-8")
    now = bench.standing()
    assert now.fault is None
    assert file.read_text(encoding="utf-8") == now.text
    assert "format: 1" in now.text
    assert not bench.look()
    bench.edit(base, [Edit(LOOSE, "12")], "Thinner")
    assert said(file) == "12"


def test_an_edit_that_would_make_the_file_older_is_made_in_the_newest_format(file: Path) -> None:
    bench = Bench(file)
    now = bench.edit(bench.standing().version, [Edit(("format",), "0")], "Older")
    assert now.text == file.read_text(encoding="utf-8")
    assert "format: 1" in now.text


@pytest.mark.parametrize(
    "path",
    [
        ("car", "tunnel", 9, "at"),
        ("car", "tunnel", -1, "at"),
        ("car", "carpet", "loose", "x"),
        (0,),
        ("car", 0),
    ],
)
@pytest.mark.parametrize("value", ["1", None])
def test_an_edit_that_leads_nowhere_names_its_place(
    file: Path, path: tuple[str | int, ...], value: str | None
) -> None:
    bench, before = Bench(file), file.read_bytes()
    with pytest.raises(InputError, match="cannot be used") as wrong:
        bench.edit(bench.standing().version, [Edit(path, value)], "Nowhere")
    assert wrong.value.faults[0].path == path
    assert file.read_bytes() == before


def test_undo_of_a_version_that_another_hand_changed_clashes(file: Path) -> None:
    bench = Bench(file)
    ours = bench.edit(bench.standing().version, [Edit(LOOSE, "12")], "Thinner").version
    theirs = bench.edit(ours, [Edit(SQUEEZED, "5")], "Flatter").version
    with pytest.raises(ClashError, match="of the places were changed") as met:
        bench.undo(ours)
    assert met.value.theirs == {SQUEEZED: "5"}
    assert bench.undo(theirs).version == ours
    assert bench.redo(ours).version == theirs
    with pytest.raises(NotDoneError, match="nothing to redo"):
        bench.redo()


def test_undo_and_edits_from_many_hands_lose_nothing_that_was_told(file: Path) -> None:
    bench = Bench(file)
    told: list[str] = []

    def work(number: int) -> None:
        for count in range(8):
            try:
                bench.edit(
                    bench.standing().version, [Edit(LOOSE, f"{10 + number}.{count}")], f"{number}"
                )
                bench.undo(bench.standing().version)
            except (ClashError, NotDoneError):
                told.append("refused")

    hands = [threading.Thread(target=work, args=(number,)) for number in range(4)]
    for hand in hands:
        hand.start()
    for hand in hands:
        hand.join()
    versions, at = bench.steps()
    assert load(file).text == bench.standing().text
    assert 0 <= at < len(versions)


def test_a_file_changed_between_reading_and_writing_takes_both(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench = Bench(file)
    base = bench.standing().version
    save = bench.history.save
    other = CAR.replace("squeezed by hand: 6", "squeezed by hand: 5")

    def late(text: str, says: str, *, read: str, stamp: str = "") -> object:
        monkeypatch.setattr(bench.history, "save", save)
        file.write_text(other, encoding="utf-8")
        return save(text, says, read=read, stamp=stamp)

    monkeypatch.setattr(bench.history, "save", late)
    bench.edit(base, [Edit(LOOSE, "12")], "Thinner")
    assert (said(file), said(file, SQUEEZED)) == ("12", "5")
    assert not list(bench.history.folder.glob("not-written-*"))


def test_a_history_damaged_by_another_hand_is_told_in_one_line(file: Path) -> None:
    bench = Bench(file)
    bench.edit(bench.standing().version, [Edit(LOOSE, "12")], "Thinner")
    bench.history.journal.write_text("nonsense\n", encoding="utf-8")
    with pytest.raises(NotDoneError, match="line 1"):
        bench.edit(bench.standing().version, [Edit(LOOSE, "13")], "Thicker")


def test_a_shelf_holds_builds_and_nothing_else(tmp_path: Path) -> None:
    for name in ("a/build.yaml", "b.yaml", "a.yaml", ".hidden.yaml", ".h/build.yaml", "c.yaml/x"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(CAR, encoding="utf-8")
    assert list(shelf(tmp_path)) == ["a", "a-2", "b"]
    assert [bench.path.name for bench in shelf(tmp_path / "b.yaml").values()] == ["b.yaml"]


def test_nothing_is_written_outside_the_builds_folder(tmp_path: Path) -> None:
    mine, other = tmp_path / "mine", tmp_path / "other"
    for folder in (mine, other):
        folder.mkdir()
        (folder / "build.yaml").write_text(CAR, encoding="utf-8")
    bench = Bench(mine / "build.yaml")
    bench.edit(bench.standing().version, [Edit(("build",), "../../other/build")], "../other/x")
    bench.undo()
    bench.redo()
    assert sorted(one.name for one in tmp_path.iterdir()) == ["mine", "other"]
    assert [one.name for one in other.iterdir()] == ["build.yaml"]
    assert sorted(one.name for one in mine.iterdir()) == [".build.yaml.history", "build.yaml"]


def test_a_file_with_two_faults_is_mended_one_by_one(tmp_path: Path) -> None:
    """An edit that mends a fault goes in though another is left; undo brings the fault back."""
    file = tmp_path / "two.yaml"
    file.write_text(
        "build: Two\nunit: mm\ncar:\n  carpet: {loose: 15 mn, squeezed by hand: 6 mk}\n", "utf-8"
    )
    bench = Bench(file)
    loose, squeezed = ("car", "carpet", "loose"), ("car", "carpet", "squeezed by hand")
    assert {one.path for one in faults_of(bench)} >= {loose}
    first = bench.edit(bench.standing().version, [Edit(loose, "15 mm")], "Mended")
    assert loose not in {one.path for one in faults_of(bench)}
    assert first.fault is not None
    second = bench.edit(first.version, [Edit(squeezed, "6 mm")], "Mended")
    assert second.fault is None
    assert bench.undo().text == first.text


def test_an_edit_elsewhere_does_not_go_into_a_file_with_a_fault(tmp_path: Path) -> None:
    file = tmp_path / "one.yaml"
    file.write_text("build: One\nunit: mm\ncar:\n  carpet: {loose: 15 mn}\n", "utf-8")
    bench, before = Bench(file), file.read_bytes()
    for edits in ([Edit(("build",), "Two")], [Edit(("car", "carpet", "loose"), "16 mn")]):
        with pytest.raises(InputError, match="mn"):
            bench.edit(bench.standing().version, edits, "No")
    assert file.read_bytes() == before


def faults_of(bench: Bench) -> tuple[Fault, ...]:
    """Return what is wrong with a bench's file."""
    fault = bench.standing().fault
    return () if fault is None else fault.faults


def test_what_was_sent_and_went_in_is_not_made_again(file: Path) -> None:
    """Two edits of one figure, sent again after a lost answer: the second stays, nothing clashes."""
    bench = Bench(file)
    base = bench.standing().version
    kept = [
        Sent((Edit(LOOSE, "14 ± 1"),), "Thinner", "a-1"),
        Sent((Edit(LOOSE, "12"),), "Thinner still", "a-2"),
    ]
    first = bench.replay(base, kept)
    again = bench.replay(base, kept)
    assert again == first
    assert again[1] == ()
    assert bench.edit(base, [Edit(LOOSE, "14 ± 1")], "Thinner", mark="a-1") == first[0]
    assert [one.says for one in bench.steps()[0]][-2:] == ["Thinner", "Thinner still"]
