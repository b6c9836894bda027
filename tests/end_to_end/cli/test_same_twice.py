"""The same file gives the same words and figures, whatever order a process keeps its sets in."""

import os
import subprocess
import sys
from pathlib import Path

from tests.unit.checks.small_build import text

SEEDS = ("0", "20011")
PROGRAM = (
    "import sys\n"
    "from importlib import import_module\n"
    "from trimwright.cli import main\n"
    "drawn = import_module('trimwright.fit.verdict')\n"
    "drawn.EACH = drawn.MOST_EACH = 32\n"
    "main(['check', sys.argv[1]])\n"
    "main(['why', sys.argv[1], 'nose to dash'])\n"
    "main(['figures', sys.argv[1], '--json'])\n"
)


def printed(path: Path, seed: str) -> bytes:
    """Return what a process of its own says about a build."""
    told = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONIOENCODING": "utf-8"}
    command = [sys.executable, "-c", PROGRAM, str(path)]
    return subprocess.run(command, capture_output=True, check=True, env=told).stdout  # noqa: S603  a fixed command


def test_two_processes_with_two_hash_seeds_say_the_same(tmp_path: Path) -> None:
    path = tmp_path / "build.yaml"
    path.write_text(text("Same twice", dash=214), encoding="utf-8")
    first, second = (printed(path, seed) for seed in SEEDS)
    assert first == second
    assert b"Limit from" in first
    assert first.endswith(b"}\n")
