"""Writes the pages that are gathered from elsewhere: `python -m docs.pages`."""

import ast
import csv
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
UNSOURCED = "common-practice"
WRITTEN = "This page is written by `python -m docs.pages`; edit {where} instead.\n"
CHECKS = """# What is checked against figures from outside

Every check below compares what Trimwright computes with something printed, published or computed
outside it. The figures stand in `tests/reference`, typed as they are printed, and run with
`python3 start.py test`. A check says what agrees with what; it does not say that a build is fine.

"""
PRACTICE = """# Figures that are common practice

Every figure in the stock tables names the work it is printed in. For the rows below no such work
was found: they are what shops commonly do, and a build may always say something else.

"""


def outside_checks(root: Path) -> str:
    """Return the page of all reference tests: the works, and what is compared with each."""
    rooms: dict[str, list[str]] = {}
    for file in sorted((root / "tests" / "reference").rglob("test_*.py")):
        room = file.relative_to(root / "tests" / "reference").parts[0]
        rooms.setdefault(room, []).append(_work(root, file))
    parts = [f"## {room.removesuffix('.py')}\n\n{''.join(works)}" for room, works in rooms.items()]
    return CHECKS + "".join(parts) + WRITTEN.format(where="the tests")


def _work(root: Path, file: Path) -> str:
    tree = ast.parse(file.read_text("utf-8"))
    title, _, rest = (ast.get_docstring(tree) or "").partition("\n")
    names = [node.name for node in tree.body if isinstance(node, ast.FunctionDef)]
    checks = [_words(name) for name in names if name.startswith("test_")]
    told = "".join(
        f"{paragraph.strip()}\n\n" for paragraph in rest.split("\n\n") if paragraph.strip()
    )
    listed = "".join(f"- {check}\n" for check in checks)
    return f"### {title.rstrip('.')}\n\n{told}{listed}\n`{file.relative_to(root).as_posix()}`\n\n"


def _words(test: str) -> str:
    return re.sub("_+", " ", test.removeprefix("test")).strip()


def stock_rows(root: Path) -> Iterator[tuple[str, dict[str, str]]]:
    """Yield every row of the stock tables with the name of its table."""
    for file in sorted((root / "src" / "trimwright" / "stock").glob("*.csv")):
        if file.stem != "sources":
            with file.open(encoding="utf-8", newline="") as lines:
                yield from ((file.stem, row) for row in csv.DictReader(lines, strict=True))


def common_practice(root: Path) -> str:
    """Return the page of the rows without a source."""
    tables: dict[str, list[dict[str, str]]] = {}
    for table, row in stock_rows(root):
        if row["source"] == UNSOURCED:
            tables.setdefault(table, []).append({k: v for k, v in row.items() if k != "source"})
    parts = [f"## {table.replace('_', ' ')}\n\n{_table(rows)}\n" for table, rows in tables.items()]
    return PRACTICE + "".join(parts) + WRITTEN.format(where="`src/trimwright/stock`")


def _table(rows: list[dict[str, str]]) -> str:
    head = [name.replace("_", " ") for name in rows[0]]
    lines = [head, ["---"] * len(head), *([*row.values()] for row in rows)]
    return "".join(f"| {' | '.join(line)} |\n" for line in lines)


PAGES = {"outside-checks.md": outside_checks, "common-practice.md": common_practice}


def main() -> None:
    """Write all of them."""
    for name, page in PAGES.items():
        (ROOT / "docs" / name).write_text(page(ROOT), "utf-8")


if __name__ == "__main__":
    main()
