"""The limits of this project that no other tool watches."""

import ast
import importlib
import inspect
import json
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterable, Iterator
from functools import cache
from importlib import metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from docs.pages import PAGES, UNSOURCED, stock_rows
from start import DEMO

ROOT = Path(__file__).resolve().parent.parent
ROOMS = sorted(path.parent.name for path in (ROOT / "src" / "trimwright").glob("*/__init__.py"))
KINDS = {"added", "fixed", "removed", "numbers"}
VAGUE = {"utils", "util", "helpers", "helper", "common", "core", "misc", "base", "manager"}
LONGEST_MODULE, LONGEST_README = 400, 120  # lines
COMMON_PRACTICE_AT_MOST = 0.20  # of the rows of all stock tables
DRAWING = {"scipy", "shapely", "reportlab", "ezdxf", "fontTools", "PIL"}  # slow to load
# in pieces, so that this file does not hold what it looks for
REGISTRIES = [
    ".".join(name)
    for name in (("pypi", "org"), ("pythonhosted", "org"), ("npmjs", "org"), ("debian", "org"))
]
MACHINE_PATH = re.compile(r"(?<![\w.<>-])/(?:tmp|root|home|work|opt|Users)/\w|\b[A-Z]:\\\w")
INLINE_STYLE = re.compile(r"\bstyle=|\.style\b|<style")
EXACT = re.compile(r"\d+\.\d+\.\d+")
SILENCED = re.compile(r"\b(?:skip|skipif|skipTest|xfail|importorskip)\b")
EXCEPTION = re.compile(r"# (?:noqa|type: ignore)")
EXPLAINED = re.compile(r"# (?:noqa: [A-Z]+\d+(?:, [A-Z]+\d+)*|type: ignore\[[\w, -]+\]  #)\s+\S")
TEXT = {
    ".py",
    ".md",
    ".toml",
    ".txt",
    ".csv",
    ".yaml",
    ".yml",
    ".json",
    ".svg",
    ".html",
    ".css",
    ".ts",
    ".tsx",
    "",
}


@cache
def tracked() -> tuple[Path, ...]:
    """Return the project's files: those that git knows or would take, all if there is no git."""
    if not (ROOT / ".git").exists():
        ignored = (ROOT / ".gitignore").read_text("utf-8").splitlines()
        hidden = {"fonts", *(name.rstrip("/") for name in ignored)}
        inside = {path: set(path.relative_to(ROOT).parts) for path in ROOT.rglob("*")}
        files = {path for path, parts in inside.items() if not parts & hidden}
        return tuple(sorted(path for path in files if path.is_file()))
    listing = [
        "git",
        "ls-files",
        "-z",
        "--cached",
        "--others",
        "--exclude-standard",
        "--deduplicate",
    ]
    names = subprocess.run(listing, cwd=ROOT, capture_output=True, check=True).stdout  # noqa: S603  a fixed command
    files = {ROOT / name for name in names.decode("utf-8").split("\0") if name}
    return tuple(sorted(path for path in files if path.is_file()))


def modules(*folders: str) -> list[Path]:
    """Return the project's Python files below some folders, all if none is named."""
    found = [path for path in tracked() if path.suffix == ".py"]
    return [p for p in found if not folders or p.relative_to(ROOT).parts[0] in folders]


def lines() -> Iterator[tuple[str, str]]:
    """Yield every line of every text file, with its place."""
    for path in tracked():
        if path.suffix in TEXT:
            for number, line in enumerate(path.read_text("utf-8").splitlines(), 1):
                yield f"{path.relative_to(ROOT)}:{number}", line


def page_files(*kinds: str) -> list[Path]:
    """Return the files of the page's source of some kinds."""
    found = [path for path in tracked() if path.relative_to(ROOT).parts[0] == "web"]
    return [path for path in found if path.suffix in kinds]


def calls(path: Path) -> Iterator[tuple[str, ast.Call]]:
    """Yield every call in a Python file, with what is called, as it is written."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Call):
            yield ast.unparse(node.func), node


def imports(path: Path) -> Iterator[str]:
    """Yield the full name of every module that a Python file imports from, wherever it does."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module or ""


def test_this_file_looks_at_the_project() -> None:
    seen = {path.relative_to(ROOT).as_posix() for path in tracked()}
    assert {"start.py", "pyproject.toml", "tests/test_repository.py", ".ci/run"} <= seen
    assert {"quantities", "findings", "build", "cli"} <= set(ROOMS)


def test_modules_are_short() -> None:
    long = {
        str(path.relative_to(ROOT)): count
        for path in modules()
        if (count := len(path.read_text("utf-8").splitlines())) > LONGEST_MODULE
    }
    assert long == {}


def test_files_of_the_page_are_short() -> None:
    long = {
        str(path.relative_to(ROOT)): count
        for path in page_files(".ts", ".tsx", ".css")
        if path.name != "api.d.ts"  # made from the server's schema
        and (count := len(path.read_text("utf-8").splitlines())) > LONGEST_MODULE
    }
    assert long == {}


def test_the_page_carries_its_styles_in_its_style_sheets() -> None:
    inline = [
        f"{path.relative_to(ROOT)}:{number}"
        for path in page_files(".ts", ".tsx", ".html")
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1)
        if INLINE_STYLE.search(line)  # the browser is told to leave those out
    ]
    assert inline == []


def test_the_page_asks_for_exact_releases_from_no_named_place() -> None:
    package = json.loads((ROOT / "web" / "package.json").read_text("utf-8"))
    asked = {**package["dependencies"], **package["devDependencies"]}
    assert [name for name, release in asked.items() if not EXACT.fullmatch(release)] == []
    lock = json.loads((ROOT / "web" / "package-lock.json").read_text("utf-8"))["packages"]
    assert {f"node_modules/{name}" for name in asked} <= set(lock)
    assert [name for name, entry in lock.items() if {"resolved", "funding"} & set(entry)] == []
    assert [name for name, entry in lock.items() if name and "integrity" not in entry] == []


def test_nothing_that_is_built_is_kept() -> None:
    built = {"node_modules", "fonts", "page"}
    kept = [path.relative_to(ROOT) for path in tracked()]
    assert [
        str(path) for path in kept if path.parts[0] in ("src", "web") and built & set(path.parts)
    ] == []


def required(asked: Iterable[str]) -> set[str]:
    """Return what is installed for some requirements, all the way down."""
    found: set[str] = set()
    waiting = [(one, "") for one in asked]
    while waiting:
        said, extra = waiting.pop()
        wanted = Requirement(said)
        name = canonicalize_name(wanted.name)
        if wanted.marker is not None and not wanted.marker.evaluate({"extra": extra}):
            continue
        if name not in found or wanted.extras:
            more = metadata.requires(name) or []
            waiting += [(one, extra) for one in more for extra in ("", *wanted.extras)]
        found.add(name)
    return found


def test_every_release_that_the_checks_run_with_is_written_down() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    lines = (ROOT / "constraints.txt").read_text("utf-8").splitlines()
    pinned = {canonicalize_name(line.split("==")[0]) for line in lines if "==" in line}
    needed = required(project["dependencies"] + project["optional-dependencies"]["test"])
    assert {"starlette", "greenlet"} <= needed  # what fastapi and playwright bring
    assert needed - pinned == set()


def test_the_readme_is_short() -> None:
    assert len((ROOT / "README.md").read_text("utf-8").splitlines()) <= LONGEST_README


def test_names_of_modules_say_something() -> None:
    named = [p for path in modules() for p in (*path.relative_to(ROOT).parts[:-1], path.stem)]
    assert VAGUE & set(named) == set()


def test_no_file_names_a_machine_or_a_registry() -> None:
    assert [place for place, line in lines() if MACHINE_PATH.search(line)] == []
    assert [place for place, line in lines() if any(host in line for host in REGISTRIES)] == []


def test_no_test_is_silenced() -> None:
    silenced = [
        f"{path.relative_to(ROOT)}: {node}"
        for path in modules("tests", "src", "bench", "docs")
        for node in _names(path)
        if SILENCED.fullmatch(node)
    ]
    assert silenced == []


def _names(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Attribute):
            yield node.attr
        elif isinstance(node, ast.Name):
            yield node.id
        elif isinstance(node, ast.alias):
            yield node.name


def test_every_exception_to_a_tool_gives_its_reason() -> None:
    bare = [
        f"{path.relative_to(ROOT)}:{number}"
        for path in modules()
        if path != Path(__file__)
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1)
        if EXCEPTION.search(line) and not EXPLAINED.search(line)
    ]
    assert bare == []


def test_every_expected_error_is_matched() -> None:
    unmatched = [
        f"{path.relative_to(ROOT)}:{call.lineno}"
        for path in modules("tests")
        for name, call in calls(path)
        if name in ("pytest.raises", "pytest.warns")
        and not {"match", "check"} & {keyword.arg for keyword in call.keywords}
    ]
    assert unmatched == []


def test_no_test_looks_at_the_clock() -> None:
    clocks = {"time", "timeit"}
    assert [str(p) for p in modules("tests") if clocks & set(imports(p))] == []


def test_rooms_import_from_rooms_not_from_their_modules() -> None:
    reaching = [
        f"{path.relative_to(ROOT)}: {name}"
        for path in modules("src")
        for name in imports(path)
        if name.startswith("trimwright.")
        and name.count(".") > 1
        and name.split(".")[1] != path.relative_to(ROOT / "src" / "trimwright").parts[0]
    ]
    assert reaching == []


def test_the_layers_hold() -> None:
    command = [sys.executable, "-c", "from importlinter.cli import lint_imports_command as c; c()"]
    done = subprocess.run(  # noqa: S603  a fixed command
        [*command, "--no-cache"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def loaded(*arguments: str) -> set[str]:
    """Return the packages that are loaded once the command has run, in a process of its own."""
    code = (
        "import sys\nfrom trimwright.cli import main\ntry:\n    main()\nexcept SystemExit:\n    pass\n"
        "print('loaded:', *{name.split('.')[0] for name in sys.modules})"
    )
    done = subprocess.run(  # noqa: S603  a fixed command
        [sys.executable, "-c", code, *arguments],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    said, _, packages = done.stdout.rpartition("loaded: ")
    assert said, done.stderr  # it did something
    return set(packages.split())


def test_saying_how_it_is_used_loads_nothing_heavy() -> None:
    assert {"numpy", "pydantic", "yaml", *DRAWING} & loaded("--help") == set()


def test_a_check_loads_nothing_that_draws() -> None:
    packages = loaded("check", DEMO)
    assert "numpy" in packages
    assert packages & DRAWING == set()


@pytest.mark.parametrize("room", ROOMS)
def test_what_a_room_offers_is_described(room: str) -> None:
    package = importlib.import_module(f"trimwright.{room}")
    assert package.__doc__
    offered = {name: getattr(package, name) for name in package.__all__}
    kinds = {n: o for n, o in offered.items() if inspect.isfunction(o) or inspect.isclass(o)}
    # a dataclass without words of its own is given its signature as its docstring
    assert [n for n, o in kinds.items() if not o.__doc__ or o.__doc__.startswith(f"{n}(")] == []


def test_every_stock_row_has_a_known_source() -> None:
    sources = (ROOT / "src/trimwright/stock/sources.csv").read_text("utf-8").splitlines()[1:]
    known = {line.split(",")[0] for line in sources}
    used = {row["source"] for _, row in stock_rows(ROOT)}
    assert len(known) == len(sources)  # no id stands there twice
    assert used - known == set()
    assert UNSOURCED in known


def test_common_practice_is_the_exception() -> None:
    rows = [row["source"] == UNSOURCED for _, row in stock_rows(ROOT)]
    assert sum(rows) / len(rows) <= COMMON_PRACTICE_AT_MOST


@pytest.mark.parametrize("name", PAGES)
def test_gathered_pages_are_up_to_date(name: str) -> None:
    written = (ROOT / "docs" / name).read_text("utf-8")
    assert written == PAGES[name](ROOT), "run: .trimwright-env/bin/python -m docs.pages"


def test_every_reference_test_names_its_work() -> None:
    files = [path for path in modules("tests") if path.parts[len(ROOT.parts) + 1] == "reference"]
    assert files
    unnamed = [p for p in files if not ast.get_docstring(ast.parse(p.read_text("utf-8")))]
    assert [str(path.relative_to(ROOT)) for path in unnamed] == []


def test_every_page_of_the_docs_is_in_the_index() -> None:
    index = (ROOT / "docs" / "README.md").read_text("utf-8")
    listed = set(re.findall(r"\]\(([\w/-]+\.md)\)", index))
    pages = {path.relative_to(ROOT / "docs").as_posix() for path in (ROOT / "docs").rglob("*.md")}
    assert listed == pages - {"README.md"}


def test_links_between_files_lead_somewhere() -> None:
    broken = [
        f"{path.relative_to(ROOT)}: {target}"
        for path in tracked()
        if path.suffix == ".md"
        for target in re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", path.read_text("utf-8"))
        if not (path.parent / target).exists()
    ]
    assert broken == []


def test_every_change_says_its_kind_and_is_a_sentence() -> None:
    fragments = [path for path in tracked() if path.parent == ROOT / "changes"]
    fragments = [path for path in fragments if path.name != "README.md"]
    assert fragments
    for path in fragments:
        _, kind, suffix = path.name.split(".")
        text = path.read_text("utf-8")
        assert kind in KINDS, path.name
        assert (suffix, text.strip()[-1:], text[-1:]) == ("md", ".", "\n"), path.name
