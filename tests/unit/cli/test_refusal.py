"""Whatever is typed or lies in the folder ends in words and exit code 2, never in a traceback."""

from pathlib import Path

import pytest

from trimwright.cli import main

FILE_VERBS = ("check", "why", "apply", "undo", "redo", "enter", "print", "figures")
MORE = {"why": ["1"], "apply": ["1"], "enter": ["nose left: 2"]}
HOSTILE = {
    "empty": b"",
    "spaces": b"   \n\n",
    "binary": bytes(range(256)) * 8,
    "nul": b"\x00" * 64,
    "no utf-8": b"build: caf\xe9\n",
    "broken": b"car: {carpet: [\n",
    "list": b"- 1\n- 2\n",
    "word": b"hello\n",
    "tab": b"car:\n\tcarpet: 1\n",
    "anchor": b"a: &a [*a]\n",
    "two documents": b"a: 1\n---\nb: 2\n",
    "tag": b"!!python/object/apply:os.getcwd []\n",
    "huge figure": b"build: x\nunit: mm\ncar:\n  carpet: {loose: 1e999}\n",
    "nan": b"build: x\nunit: mm\ncar:\n  carpet: {loose: nan}\n",
    "key twice": b"build: x\nbuild: y\n",
    "deep": b"[" * 3000,
}


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """Run a verb that must be refused; return what it said on the error stream, in one line."""
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.strip()
    assert "Traceback" not in err
    assert "fault of the program" not in err
    assert max(map(len, err.splitlines())) <= 80
    return " ".join(err.split())


@pytest.mark.parametrize("verb", FILE_VERBS)
def test_no_file(verb: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    refused(capsys, verb, str(tmp_path / "none.yaml"), *MORE.get(verb, []))
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("verb", FILE_VERBS)
def test_a_folder(verb: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    refused(capsys, verb, str(tmp_path), *MORE.get(verb, []))


@pytest.mark.parametrize("verb", ["check", "apply", "enter", "figures"])
@pytest.mark.parametrize("kind", HOSTILE)
def test_what_is_no_build(
    kind: str, verb: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "build.yaml"
    path.write_bytes(HOSTILE[kind])
    refused(capsys, verb, str(path), *MORE.get(verb, []))
    assert path.read_bytes() == HOSTILE[kind]
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["frobnicate", "x.yaml"],
        ["check"],
        ["check", "a", "b"],
        ["begin", "x.yaml", "--unit", "cubit"],
        ["print", "x.yaml", "--on", "vellum"],
        ["apply", "x.yaml", "1", "--way", "many"],
        ["enter", "x.yaml"],
    ],
)
def test_what_is_not_asked_rightly(
    arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert "usage: trimwright" in refused(capsys, *arguments)


def test_a_finding_that_is_not_there(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = file.read_bytes()
    for verb in ("why", "apply"):
        for asked in ("999", "spaceship", "", "-"):
            said = refused(capsys, verb, str(file), "--", asked)
            assert "there is: 1 " in said
    assert file.read_bytes() == before


def test_a_way_that_is_not_there(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = file.read_bytes()
    for way in ("0", "-1", "99"):
        refused(capsys, "apply", str(file), "nose", f"--way={way}")
    assert "nothing here can be written" in refused(capsys, "apply", str(file), "assumed")
    assert file.read_bytes() == before


@pytest.mark.parametrize(
    "reading",
    [
        "nose left",
        "nose left:",
        ": 2",
        "nose left: two",
        "nose left: 2 parsecs",
        "spaceship: 2",
        "left wall daylight at 410: 3",
        "left wall daylight at 4100 behind: 3",
        "left wall daylight at 410 ± 2 behind: 3",
        "left wall at 410 behind: 3",
        "left wal daylight at 410 behind: 3",
        "left wall daylight at 410 behind: touches the dash",
        "",
    ],
)
def test_a_reading_that_means_nothing(
    reading: str, file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = file.read_bytes()
    refused(capsys, "enter", str(file), reading)
    assert file.read_bytes() == before


def test_a_figure_that_is_not_there(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "such as: all, console, cut, gap, panel" in refused(
        capsys, "figures", str(file), "nothing.of.the.kind"
    )


def test_a_file_is_never_begun_over_another(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = file.read_bytes()
    assert "is there already" in refused(capsys, "begin", str(file))
    assert file.read_bytes() == before
