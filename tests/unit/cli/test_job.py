"""The whole job by verbs: what each prints, what it leaves in the folder, and its exit code."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.unit.checks.small_build import TIPS, text
from trimwright.build import History
from trimwright.cli import main


def run(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str]:
    """Run a verb; return its exit code and what it printed, 80 columns wide unless JSON."""
    code = main(arguments)
    out, err = capsys.readouterr()
    assert err == ""
    assert "--json" in arguments or max(map(len, out.splitlines()), default=0) <= 80
    return code, out


def test_check_is_1_where_something_stops(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, out = run(capsys, "check", str(file))
    assert ("x stop" in out) == (code == 1)
    file.write_text(text("Stops", console=TIPS), encoding="utf-8")
    code, out = run(capsys, "check", str(file))
    assert code == 1
    assert "x stop  tipping" in out
    assert "\x1b" not in out


def test_colour_only_on_a_terminal_that_wants_it(
    file: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    assert "\x1b" not in run(capsys, "check", str(file))[1]
    monkeypatch.delenv("NO_COLOR")
    code = main(["check", str(file)])
    assert "\x1b[1m" in capsys.readouterr().out
    assert code in (0, 1)


def test_why_gives_physics_and_source(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, out = run(capsys, "why", str(file), "nose to dash")
    assert code == 0
    for word in ("Because", "What can be done", "Limit from", "9 times in 10", "of the spread"):
        assert word in out


def test_apply_undo_and_redo_to_the_byte(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = file.read_bytes()
    code, out = run(capsys, "apply", str(file), "nose to dash")
    after = file.read_bytes()
    assert code == 0
    assert out.startswith("Written: ")
    assert after != before
    assert b"trims:" in after
    assert run(capsys, "undo", str(file))[0] == 0
    assert file.read_bytes() == before
    assert run(capsys, "redo", str(file))[0] == 0
    assert file.read_bytes() == after
    for verb, times in (("undo", 1), ("redo", 1)):
        for _ in range(times):
            assert main([verb, str(file)]) == 0
        assert main([verb, str(file)]) == 2
        assert "nothing to" in capsys.readouterr().err


def test_entering_a_reading_changes_the_answer(
    file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    was = json.loads(run(capsys, "figures", str(file), "--json")[1])["figures"]
    code, out = run(capsys, "enter", str(file), "nose left: 2 ± 0.5")
    assert code == 0
    assert "All together: " in out
    now = json.loads(run(capsys, "figures", str(file), "--json")[1])["figures"]
    low, high = "gap.nose-left-to-dash.low.mm", "gap.nose-left-to-dash.high.mm"
    assert now[high] - now[low] < 0.5 * (was[high] - was[low])
    # 2 mm of room on bare wood are 4.2 less under 3 mm of foam and 1.2 of leather
    assert now[low] < 2 - 4.2 < now[high]
    assert run(capsys, "undo", str(file))[0] == 0
    again = json.loads(run(capsys, "figures", str(file), "--json")[1])["figures"]
    assert again == was


def test_readings_at_free_places_teach_and_are_taken_back_to_the_byte(
    file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = file.read_bytes()
    readings = (
        "left wall daylight at 610 behind: at most 8",
        "right wall to carpet at 420 behind: at least 4",
        "deck to dash at 30 ahead and 40 left: 21 ± 1",
    )
    code, out = run(capsys, "enter", str(file), *readings)
    assert code == 0
    assert "3 readings at the car agree with what was measured before." in out
    cuts = [line for line in out.splitlines() if line.startswith("Least cut ")]
    assert cuts[0].startswith("Least cut before: Cut ")
    assert cuts[1].startswith("Least cut now: ")
    assert cuts[0].split(":")[1] != cuts[1].split(":")[1]
    written = file.read_text("utf-8")
    assert written.startswith(before.decode("utf-8"))
    assert "  - probe: right wall to carpet at 420 behind\n    reads: at least 4\n" in written
    now = json.loads(run(capsys, "figures", str(file), "--json")[1])["figures"]
    # 21 of room there on bare wood, 4.2 of it for the cover: what it was known to 60 mm before
    assert now["gap.nose-to-dash.high.mm"] < 21 - 4.2 + 2
    assert now["gap.nose-to-dash.high.mm"] - now["gap.nose-to-dash.low.mm"] < 15
    assert run(capsys, "undo", str(file))[0] == 0
    assert file.read_bytes() == before


def test_a_cut_after_a_test_fit_keeps_it_true_and_is_taken_back_to_the_byte(
    file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    steps = [file.read_bytes()]
    out = run(capsys, "enter", str(file), "nose left: 5 ± 1")[1]
    assert "hold for the wood as the file has it cut now" in " ".join(out.split())
    assert "cut then: {nose lower by: 0 mm}" in " ".join(out.split())
    steps.append(file.read_bytes())
    assert run(capsys, "apply", str(file), "the whole console")[0] == 0
    written = file.read_text("utf-8")
    assert "    reads: 5 ± 1\n    cut then:\n      nose lower by: 0 mm\n" in written
    assert "  trims:\n    nose lower by: " in written
    out = run(capsys, "check", str(file))[1]
    assert " 0 stop, 0 change, " in f" {' '.join(out.split())}"
    assert "+ readings at the car " in " ".join(out.split())
    for before in reversed(steps):
        assert run(capsys, "undo", str(file))[0] == 0
        assert file.read_bytes() == before


def test_a_touch_that_goes_with_nothing_else_is_named(
    file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    readings = (
        "left wall daylight at 420 behind: 9",
        "right wall at 420 behind: touches the carpet",
    )
    code, out = run(capsys, "enter", str(file), *readings)
    assert code == 0
    assert "'right wall at 420 behind' does not go with the other readings" in out


def test_figures_are_json_of_schema_1(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = run(capsys, "figures", str(file), "--json")[1]

    def refuse(word: str) -> float:
        raise ValueError(f"{word} is no JSON")

    read = json.loads(out, parse_constant=refuse)
    assert set(read) == {"schema", "build", "figures"}
    assert (read["schema"], read["build"]) == (1, "Command line")
    assert {"all.sure", "console.mass.kg", "gap.nose-to-dash.nominal.mm"} <= set(read["figures"])
    one = run(capsys, "figures", str(file), "gap.nose-to-dash.wanted")[1]
    assert one == "gap.nose-to-dash.wanted.mm = 6\n"


def test_figures_of_what_tips_are_none(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file.write_text(text("None", console=TIPS), encoding="utf-8")
    out = run(capsys, "figures", str(file), "--json")[1]
    assert "NaN" not in out
    read = json.loads(out)["figures"]
    assert read["gap.nose-to-dash.nominal.mm"] is None
    assert read["all.sure"] == 0.0


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_what_begin_writes_can_be_checked(
    unit: str, file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = file.with_name(f"new-{unit}.yaml")
    assert run(capsys, "begin", str(path), "--unit", unit, "--name", "A: 'new' car")[0] == 0
    code, out = run(capsys, "check", str(path))
    assert code in (0, 1)
    assert out.startswith("A: 'new' car\n")


def test_two_writers_and_the_first_one_stays(
    file: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    theirs = text("Written by another hand", dash=214)

    def save_late(self: History, *arguments: object, **named: object) -> object:
        file.write_text(theirs, encoding="utf-8")
        return save(self, *arguments, **named)  # type: ignore[arg-type]  # passed on as they came

    save = History.save
    monkeypatch.setattr(History, "save", save_late)
    assert main(["apply", str(file), "nose to dash"]) == 2
    err = capsys.readouterr().err
    assert "was changed since it was read" in err
    assert file.read_text(encoding="utf-8") == theirs
    (kept,) = file.with_name(".build.yaml.history").glob("not-written-*.yaml")
    assert "trims:" in kept.read_text(encoding="utf-8")


def test_help_is_quick_and_says_every_verb() -> None:
    # numpy and pydantic take most of a second: whoever asks for help does not wait for them
    says = (
        "import sys; from trimwright.cli import main; code = main(['--help']);"
        "print(code, sorted({'numpy', 'pydantic', 'yaml', 'reportlab'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", says], capture_output=True, text=True, check=True)  # noqa: S603  a fixed command
    assert done.stderr == ""
    assert done.stdout.endswith("0 []\n")
    for verb in ("begin", "check", "why", "apply", "undo", "redo", "enter", "print", "figures"):
        assert f"  {verb} " in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80


def _as_a_program(*arguments: str, says: str = "pass") -> "subprocess.CompletedProcess[str]":
    """Run the program as its own process, with some Python said before."""
    code = f"import gc, os; from trimwright.cli import program; {says}; program()"
    return subprocess.run(  # noqa: S603  a fixed command
        [sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=False
    )


def test_a_process_that_is_one_verb_goes_without_the_collector(tmp_path: Path) -> None:
    told = "end = os._exit; os._exit = lambda code: (print(gc.isenabled(), flush=True), end(code))"
    done = _as_a_program("begin", str(tmp_path / "new.yaml"), says=told)
    assert (done.returncode, done.stdout.splitlines()[-1]) == (0, "False")


def test_the_program_ends_with_the_code_of_its_verb_and_all_it_said(tmp_path: Path) -> None:
    missing = _as_a_program("check", str(tmp_path / "none.yaml"))
    assert missing.returncode == 2
    assert "found no such file" in missing.stderr
    asked = _as_a_program("--help")
    assert asked.returncode == 0
    assert "  check " in asked.stdout
    assert asked.stdout.endswith("\n")


def test_what_could_not_be_written_is_not_taken_for_said() -> None:
    # a stream that refuses when all is said, as a full disk does
    refuses = "setattr(sys.stdout, 'flush', lambda: os.close(9999))"
    told = f"import sys, trimwright.cli.verb as verb; verb.main = lambda: ({refuses}, 0)[1]"
    done = _as_a_program(says=told)
    assert done.returncode == 2
    assert "could not be written" in done.stderr
