"""The builds of a file or a folder, each on its bench, by the name its address carries."""

from pathlib import Path

from trimwright.app.bench import Bench


def shelf(path: Path) -> dict[str, Bench]:
    """Return the builds of a file or folder by name, in the order of their names.

    A folder holds build files, or folders with a `build.yaml` each; what begins with a dot is
    none of them.
    """
    if path.is_dir():
        found = sorted({*path.glob("*.yaml"), *path.glob("*/build.yaml")})
        found = [one for one in found if one.is_file() and not _hidden(one.relative_to(path))]
    else:
        found = [path]
    benches: dict[str, Bench] = {}
    for one in found:
        bench = Bench(one)
        name, count = bench.name, 1
        while bench.name in benches:
            count += 1
            bench.name = f"{name}-{count}"
        benches[bench.name] = bench
    return benches


def _hidden(path: Path) -> bool:
    """Return whether any part of a path begins with a dot."""
    return any(part.startswith(".") for part in path.parts)
