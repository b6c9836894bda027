"""Setting the project up: what start.py does, and what it says when it cannot."""

import ast
import doctest
import importlib.util
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest

import start
from start import Environment, SetupError

NEEDED = (
    "pyproject.toml",
    "constraints.txt",
    "hatch_build.py",
    "making/page.py",
    "web/package-lock.json",
    "web/src/slip/slip.tsx",
)


class Recorded(Environment):
    """An environment in which nothing is installed, but which remembers what was asked."""

    def __init__(self, root: Path) -> None:
        super().__init__(root)
        self.asked: list[str] = []
        self.broken = False
        self.whole = True

    def make(self) -> None:
        """Make nothing but the Python that would be there."""
        self.asked.append("make")
        self.program("python").parent.mkdir(parents=True, exist_ok=True)
        self.program("python").touch()

    def install(self, *arguments: str) -> bool:
        """Remember what would be installed, or fail as without a network."""
        self.asked.append(arguments[-1])
        if self.broken:
            raise SetupError("no network")
        return self.whole

    def asked_since(self) -> list[str]:
        """Return what was asked since the last call."""
        asked, self.asked = self.asked, []
        return asked


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """Return a project of a few files."""
    for name in (*NEEDED, "src/trimwright/room.py", start.DEMO):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("1\n")
    return tmp_path


@pytest.fixture
def recorded(project: Path) -> Recorded:
    """Return its environment, not made yet."""
    return Recorded(project)


def test_examples_in_the_docstrings_hold() -> None:
    assert doctest.testmod(start).failed == 0
    assert doctest.testmod(start).attempted >= 5


def test_an_old_python_gets_one_line_and_exit_code_2(root: Path) -> None:
    lines = (
        "import runpy, sys",
        "sys.version_info = (3, 9, 18)",
        f"runpy.run_path({str(root / 'start.py')!r}, run_name='__main__')",
    )
    done = subprocess.run(  # noqa: S603  our own lines
        [sys.executable, "-c", "\n".join(lines)], capture_output=True, text=True, check=False
    )
    said = "Trimwright needs Python 3.11 or newer; this is Python 3.9.\n"
    assert (done.returncode, done.stdout, done.stderr) == (2, "", said)


def test_an_old_python_can_read_the_file(root: Path) -> None:
    tree = ast.parse((root / "start.py").read_text("utf-8"), feature_version=(3, 7))
    refusal = next(node for node in tree.body if isinstance(node, ast.If))
    before = tree.body[: tree.body.index(refusal)]
    notes = [n for node in before for n in ast.walk(node) if isinstance(n, ast.arg)]
    # list[str] in an annotation is worked out when the function is made, and fails before 3.9
    assert [note.arg for note in notes if not isinstance(note.annotation, ast.Constant)] == []


def test_an_incomplete_venv_module_is_named(
    recorded: Recorded, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: name != "ensurepip" or None)
    with pytest.raises(SetupError, match=r"^This Python has no complete venv .* python3-venv$"):
        Environment.make(recorded)


def test_an_environment_that_cannot_be_made_says_why(project: Path) -> None:
    (project / ".trimwright-env").write_text("a file in the way")
    with pytest.raises(SetupError, match=r"^Could not make \.trimwright-env: .*trimwright-env"):
        Environment(project).make()


def test_no_network_is_one_line(
    recorded: Recorded, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    recorded.make()
    monkeypatch.setattr(recorded, "program", lambda name: Path(sys.executable) if name else None)
    monkeypatch.setenv("PIP_INDEX_URL", "http://127.0.0.1:9/simple")  # nobody listens there
    monkeypatch.setenv("PIP_RETRIES", "1")
    with pytest.raises(SetupError, match=r"^Could not install: the package index cannot be rea"):
        Environment.install(recorded, "--target", str(tmp_path / "to"), "trimwright-is-not-there")


def test_the_second_time_nothing_is_installed(recorded: Recorded) -> None:
    start.set_up(recorded, testing=False)
    assert recorded.asked_since() == ["make", "."]
    start.set_up(recorded, testing=False)
    assert recorded.asked_since() == []


def test_a_changed_source_is_installed_for_the_demo(recorded: Recorded) -> None:
    start.set_up(recorded, testing=False)
    (recorded.root / "src/trimwright/room.py").write_text("2\n")
    recorded.asked_since()
    start.set_up(recorded, testing=False)
    assert recorded.asked_since() == ["."]


def test_tests_run_on_the_source_in_place(recorded: Recorded) -> None:
    start.set_up(recorded, testing=True)
    (recorded.root / "src/trimwright/room.py").write_text("2\n")
    assert recorded.asked_since() == ["make", ".[test]"]
    start.set_up(recorded, testing=True)
    start.set_up(recorded, testing=False)  # what the tests use serves the demo
    assert recorded.asked_since() == []


@pytest.mark.parametrize("name", NEEDED)
def test_changed_needs_are_installed(recorded: Recorded, name: str) -> None:
    start.set_up(recorded, testing=True)
    (recorded.root / name).write_text("2\n")
    recorded.asked_since()
    start.set_up(recorded, testing=True)
    assert recorded.asked_since() == [".[test]"]


def test_what_the_page_is_not_built_from_is_not_looked_at(recorded: Recorded) -> None:
    start.set_up(recorded, testing=True)
    (recorded.root / "web/node_modules/glue").mkdir(parents=True)
    (recorded.root / "web/node_modules/glue/index.js").write_text("1\n")
    recorded.asked_since()
    start.set_up(recorded, testing=True)
    assert recorded.asked_since() == []


def test_what_was_lacking_is_tried_again(recorded: Recorded) -> None:
    recorded.whole = False
    start.set_up(recorded, testing=False)
    recorded.whole = True
    recorded.asked_since()
    start.set_up(recorded, testing=False)
    start.set_up(recorded, testing=False)
    assert recorded.asked_since() == ["."]  # once, and into the environment that is there


def test_what_the_build_did_without_is_said(
    recorded: Recorded, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    recorded.make()
    monkeypatch.setattr(recorded, "program", lambda _name: Path(sys.executable))
    (recorded.root / "pip.py").write_text("print('  page not built (no network): no page')\n")
    assert not Environment.install(recorded, ".")
    assert capsys.readouterr().out == "page not built (no network): no page\n"
    (recorded.root / "pip.py").write_text("print('the page was built')\n")
    assert Environment.install(recorded, ".")


def test_tests_after_a_demo_install_what_they_need(recorded: Recorded) -> None:
    start.set_up(recorded, testing=False)
    recorded.asked_since()
    start.set_up(recorded, testing=True)
    assert recorded.asked_since() == [".[test]"]


def test_an_install_broken_off_is_made_anew(recorded: Recorded) -> None:
    recorded.broken = True
    with pytest.raises(SetupError, match=r"^no network$"):
        start.set_up(recorded, testing=False)
    recorded.broken = False
    recorded.asked_since()
    start.set_up(recorded, testing=False)
    assert recorded.asked_since() == ["make", "."]


def test_another_python_makes_the_environment_anew(
    recorded: Recorded, monkeypatch: pytest.MonkeyPatch
) -> None:
    start.set_up(recorded, testing=True)
    recorded.asked_since()
    monkeypatch.setattr(sys, "version", "3.99.0 (of some day)")
    start.set_up(recorded, testing=True)
    assert recorded.asked_since() == ["make", ".[test]"]


def _codes(**by_program: int) -> Callable[..., int]:
    """Return a stand-in for `run` that prints what is run and returns given exit codes."""

    def run(_environment: Environment, program: str, *arguments: str) -> int:
        start.say(f"ran {' '.join((program, *arguments))}")
        return by_program.get(arguments[0] if program == "trimwright" else program, 0)

    return run


def _aside(code: int) -> Callable[..., tuple[int, str]]:
    """Return the same for `run_aside`."""
    return lambda _environment, *words: (code, f"ran {' '.join(words)}\n")


def test_a_demo_that_finds_something_has_not_failed(
    recorded: Recorded, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (recorded.root / start.PAPER).mkdir()
    (recorded.root / start.PAPER / "left wall.pdf").touch()
    monkeypatch.chdir(recorded.root)
    monkeypatch.setattr(start, "run", _codes(check=1))
    assert start.demo(recorded) == 0
    said = capsys.readouterr().out
    assert "ran trimwright check examples/" in said
    assert said.endswith(f" open {start.BENCH}\n")
    copy = recorded.root / start.BENCH / Path(start.DEMO).name
    copy.write_text("worked on\n")
    assert start.demo(recorded) == 0
    assert copy.read_text() == "worked on\n"
    assert f"Open these:\n  {Path(start.PAPER) / 'left wall.pdf'}\n" in said


@pytest.mark.parametrize("verb", ["check", "print"])
def test_a_demo_that_breaks_has_failed(
    recorded: Recorded, monkeypatch: pytest.MonkeyPatch, verb: str
) -> None:
    monkeypatch.setattr(start, "run", _codes(**{verb: 2}))
    assert start.demo(recorded) == 2


def test_every_check_runs_and_all_that_failed_are_named(
    recorded: Recorded, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(start, "get_programs", lambda _environment: None)
    monkeypatch.setattr(start, "run_aside", _aside(1))
    monkeypatch.setattr(start, "run", _codes(ruff=1, pytest=3))
    assert start.test(recorded) == 1
    ran = [line for line in capsys.readouterr().out.splitlines() if line]
    assert [(name, said.split()[1]) for name, said in pairwise(ran[:-1]) if name[0] == "="] == [
        ("== ruff check", "ruff"),
        ("== ruff format --check", "ruff"),
        ("== import-linter", "lint-imports"),
        ("== tsc --noEmit", "python"),
        ("== vitest", "python"),
        ("== mypy --strict", "mypy"),
        ("== pytest", "pytest"),
    ]
    assert ran[-1] == "Failed: ruff check, ruff format --check, mypy --strict, pytest"


def test_what_runs_beside_others_keeps_what_it_says_and_its_exit_code(recorded: Recorded) -> None:
    recorded.program("python").parent.mkdir(parents=True)
    recorded.program("python").symlink_to(sys.executable)
    lines = "import sys; print('one'); print('two', file=sys.stderr); raise SystemExit(3)"
    code, said = start.run_aside(recorded, "python", "-c", lines)
    assert code == 3
    assert sorted(said.split()) == ["one", "two"]


def test_pytest_has_the_last_word_when_all_is_well(
    recorded: Recorded, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(start, "get_programs", lambda _environment: None)
    monkeypatch.setattr(start, "run_aside", _aside(0))
    monkeypatch.setattr(start, "run", _codes())
    assert start.test(recorded) == 0
    assert capsys.readouterr().out.splitlines()[-1].startswith("ran pytest ")


def test_every_missing_program_is_named_with_its_package(
    recorded: Recorded, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(shutil, "which", lambda _name: None)
    said = r"^Missing here: pdftoppm \(package poppler-utils\) for .*; chromium \(package chromium\) for .*; ngspice "
    with pytest.raises(SetupError, match=said):
        start.get_programs(recorded)


def test_a_program_that_apt_does_not_bring_is_named(
    recorded: Recorded, monkeypatch: pytest.MonkeyPatch
) -> None:
    recorded.make()
    there = {"apt-get": shutil.which("true"), "pdftoppm": "there", "ngspice": "there"}
    monkeypatch.setattr(shutil, "which", there.get)
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    with pytest.raises(SetupError, match=r"^apt-get could not install chromium: chromium \(pack"):
        start.get_programs(recorded)


@pytest.mark.parametrize("asked", [[], ["everything"]])
def test_an_unknown_verb_is_refused(
    asked: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "argv", ["start.py", *asked])
    with pytest.raises(SystemExit, match=r"^2$"):
        start.main()
    assert "demo|test" in capsys.readouterr().err
