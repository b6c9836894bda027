"""What the pages quote of the command line is what it prints.

A block fenced as `console` holds lines that open with `$ trimwright`, each followed by what it
prints, 80 columns wide and without colour. The blocks of a page run in order, in one copy of the
examples. A line that is only `...` stands for lines left out.
"""

import re
import shlex
import shutil
import sys
from pathlib import Path

import pytest

from trimwright.cli import main

ROOT = Path(__file__).resolve().parents[2]
PAGES = sorted([ROOT / "README.md", *(ROOT / "docs").rglob("*.md")])
BLOCK = re.compile(r"^```console\n(.*?)^```$", re.MULTILINE | re.DOTALL)
PROMPT = "$ "
Quote = tuple[str, str]  # a command, and the text that follows it


def quotes(page: str) -> list[Quote]:
    """Return the commands of a page and what it says that each prints."""
    found: list[Quote] = []
    for block in BLOCK.findall(page):
        if not block.startswith(PROMPT):
            raise ValueError(f"a console block opens with a command, not with {block[:30]!r}")
        for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, _, printed = part.partition("\n")
            found.append((command, printed))
    return found


def agrees(quoted: str, printed: str) -> bool:
    """Return whether what was printed is what is quoted, but for the lines left out."""
    runs = re.split(r"^\.\.\.\n", quoted, flags=re.MULTILINE)
    pattern = r"(?:.*\n)+".join(re.escape(run) for run in runs)
    return re.fullmatch(pattern, printed) is not None


@pytest.mark.parametrize(
    ("quoted", "agreeing"),
    [
        ("one\ntwo\nthree\n", True),
        ("one\n...\nthree\n", True),
        ("one\n...\n", True),
        ("one\nthree\n", False),
        ("one\ntwo\n...\nthree\n", False),  # nothing is left out there
        ("one\ntwo\n", False),
        ("one\n...\nthre\n", False),
        ("", False),
    ],
)
def test_a_quote_is_compared_line_by_line(quoted: str, *, agreeing: bool) -> None:
    assert agrees(quoted, "one\ntwo\nthree\n") is agreeing


def test_commands_are_found_with_what_they_print() -> None:
    page = "Say\n```console\n$ trimwright a\nx\n\ny\n$ trimwright b\n```\n```sh\n$ other\n```\n"
    assert quotes(page) == [("trimwright a", "x\n\ny\n"), ("trimwright b", "")]
    with pytest.raises(ValueError, match=r"opens with a command, not with 'x"):
        quotes("```console\nx\n```\n")


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(ROOT).as_posix())
def test_quoted_output(
    page: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    monkeypatch.chdir(tmp_path)
    for command, quoted in quotes(page.read_text("utf-8")):
        program, *arguments = shlex.split(command)
        assert program == "trimwright"
        monkeypatch.setattr(sys, "argv", ["trimwright", *arguments])
        main()
        out, errors = capsys.readouterr()
        # what is being done is said only on a slow machine, so no page quotes it
        told = [line for line in errors.splitlines(keepends=True) if not line.startswith("... ")]
        printed = out + "".join(told)
        assert agrees(quoted, printed), f"$ {command}\n{printed}"
