"""A small build in a folder of its own, judged on few draws."""

from pathlib import Path

import pytest

from tests.unit.checks.small_build import fewer_draws, text


@pytest.fixture
def file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the path of a build whose nose comes too close to the dash."""
    fewer_draws(monkeypatch)
    monkeypatch.setattr("trimwright.cli.progress.PATIENCE_S", 600.0)
    monkeypatch.chdir(tmp_path)
    path = Path("build.yaml")
    path.write_text(text("Command line", dash=214), encoding="utf-8")
    return path
