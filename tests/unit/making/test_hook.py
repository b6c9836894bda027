"""The build hook: what it tells the build to carry, and what it says when something is lacking."""

import importlib.util
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from making import CannotMakeError


@pytest.fixture
def hook(root: Path) -> ModuleType:
    """Return the build hook's module, which is no part of the package."""
    spec = importlib.util.spec_from_file_location("hatch_build", root / "hatch_build.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


class Words:
    """Stands for the builder's terminal and keeps what it is told."""

    def __init__(self) -> None:
        self.said: list[str] = []

    def display_info(self, words: str) -> None:
        """Keep a line of information."""
        self.said.append(words)

    def display_warning(self, words: str) -> None:
        """Keep a line of warning."""
        self.said.append(words)


def run(hook: ModuleType, root: Path, make: Callable[[Path], str]) -> tuple[list[str], list[str]]:
    """Run the hook, all being made in one way; return what it says and what the wheel carries."""
    made_so = [(folder, make, *words) for folder, _, *words in hook.MADE]
    vars(hook)["MADE"] = made_so
    words = Words()
    data: dict[str, Any] = {"artifacts": []}
    made = hook.CustomBuildHook(str(root), {}, None, None, str(root), "wheel", words)
    made.initialize("standard", data)
    return words.said, data["artifacts"]


def test_fonts_and_page_go_into_the_wheel(hook: ModuleType, tmp_path: Path) -> None:
    said, carried = run(hook, tmp_path, lambda _: "made")
    assert said == ["made", "made"]
    assert carried == ["/src/trimwright/drawing/fonts/**", "/src/trimwright/app/page/**"]


def test_build_without_a_network_says_so_in_a_line_each_and_goes_on(
    hook: ModuleType, tmp_path: Path
) -> None:
    def make(_: Path) -> str:
        raise CannotMakeError("npm error network request failed")

    said, carried = run(hook, tmp_path, make)
    lacking = ["fonts not fetched", "page not built"]
    assert [line.split(" (npm error network request failed): ")[0] for line in said] == lacking
    assert [line.count("\n") for line in said] == [0, 0]
    assert carried == []


def test_the_hook_finds_what_lies_beside_it_from_anywhere(root: Path, tmp_path: Path) -> None:
    code = f"import runpy; print(runpy.run_path({str(root / 'hatch_build.py')!r})['PAGE'])"
    done = subprocess.run(  # noqa: S603  our own line
        [sys.executable, "-I", "-c", code],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stdout) == (0, "src/trimwright/app/page\n"), done.stderr
