"""What the page knows of the server's messages is what the server's schema says."""

from pathlib import Path

import pytest

from making.schema import SCHEMA, TYPES, write_schema


@pytest.fixture(scope="module")
def anew(tmp_path_factory: pytest.TempPathFactory, root: Path) -> Path:
    """Return a folder with the schema and the types as they are now."""
    folder = tmp_path_factory.mktemp("web")
    write_schema(root, folder)
    return folder


@pytest.mark.parametrize("name", [SCHEMA, TYPES])
def test_what_is_written_is_what_the_server_says(root: Path, anew: Path, name: str) -> None:
    written = (root / "web" / name).read_text("utf-8")
    assert written == (anew / name).read_text("utf-8"), "run: python -m making.schema"
