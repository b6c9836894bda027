"""What every test stands on: the project's folder, a plain terminal, the same draws each time."""

import os
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

ROOT = Path(__file__).resolve().parent.parent
WALKS = 40  # of 200; what a gate that takes minutes has room for

# before numpy is loaded: sums then come out the same however many cores there are
os.environ["OPENBLAS_NUM_THREADS"] = "1"

settings.register_profile(
    "gate",
    derandomize=True,
    database=None,
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow],  # the only one that looks at the clock
)
settings.load_profile("gate")


def pytest_addoption(parser: pytest.Parser) -> None:
    """Let it be chosen how many invented builds are followed, and whether pictures are kept."""
    says = "how many invented builds are followed from remedy to remedy"
    parser.addoption("--walks", type=int, default=WALKS, help=says)
    says = "keep the pictures taken of the page as those of the docs"
    parser.addoption("--pictures", action="store_true", help=says)


@pytest.fixture(scope="session")
def root() -> Path:
    """Return the project's folder."""
    return ROOT


@pytest.fixture(autouse=True)
def _plain_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let whatever a test prints be 80 columns wide and without colour."""
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.delenv("FORCE_COLOR", raising=False)


from tests.invented_car import half_round, write  # noqa: F401  fixtures; after the threads
