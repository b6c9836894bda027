"""The builds of a file or a folder, each on its bench, by the name its address carries."""

from pathlib import Path

from trimwright.app.bench import Bench
from trimwright.app.beside import ENDING


def shelf(path: Path) -> dict[str, Bench]:
    """Return the builds of a file or folder by name, in the order of their names.

    A folder holds build files, or folders with a `build.yaml` each and other ways of it; what
    begins with a dot is none of them.
    """
    if path.is_dir():
        within = (*path.glob("*/build.yaml"), *path.glob(f"*/build{ENDING}*.yaml"))
        found = sorted({*path.glob("*.yaml"), *within})
        found = [one for one in found if one.is_file() and not _hidden(one.relative_to(path))]
    else:
        found = [path]
    benches: dict[str, Bench] = {}
    for one in found:
        stand(benches, Bench(one))
    return benches


def stand(benches: dict[str, Bench], bench: Bench) -> None:
    """Put a build on the shelf, under a name that no other has there."""
    name, count = bench.name, 1
    while bench.name in benches:
        count += 1
        bench.name = f"{name}-{count}"
    benches[bench.name] = bench


def _hidden(path: Path) -> bool:
    """Return whether any part of a path begins with a dot."""
    return any(part.startswith(".") for part in path.parts)
