"""Builds the page of the bench from its source in `web/`.

The tools and libraries that the lock file names are fetched into `web/node_modules/`, then the page
is built into `src/trimwright/app/page/`; neither is kept in this repository. Without it
`trimwright open` answers that the page was not built.
"""

import hashlib
import json
import shutil
from pathlib import Path

from making.npm import CannotMakeError, node, npm

SOURCE = "web"
FOLDER = "src/trimwright/app/page"
LOCK = ("package.json", "package-lock.json")
TOOLS = {
    "tsc": "typescript/bin/tsc",
    "vite": "vite/bin/vite.js",
    "vitest": "vitest/vitest.mjs",
    "openapi-typescript": "openapi-typescript/bin/cli.js",
}


def digest(files: list[Path], below: Path) -> str:
    """Return a hash of some files' names and contents."""
    total = hashlib.sha256()
    for file in sorted(files):
        content = file.read_bytes()
        total.update(f"{file.relative_to(below).as_posix()} {len(content)}\n".encode())
        total.update(content)
    return f"{total.hexdigest()}\n"


def sources(web: Path) -> list[Path]:
    """Return the files that the page is built from, the lock file among them."""
    found = [*web.glob("*"), *(web / "src").rglob("*"), *(web / "public").rglob("*")]
    return [path for path in found if path.is_file()]


def fetch_tools(root: Path) -> None:
    """Fetch what the lock file names into the page's `node_modules`, if it is not there.

    Raises
    ------
    CannotMakeError
        If it cannot be fetched.
    """
    web = root / SOURCE
    stamp = web / "node_modules" / "lock.txt"
    wanted = digest([web / name for name in LOCK], web)
    if stamp.is_file() and stamp.read_text("utf-8") == wanted:
        return
    stamp.unlink(missing_ok=True)
    npm(["ci"], web)
    stamp.write_text(wanted, "utf-8")


def run_tool(root: Path, name: str, *arguments: str) -> tuple[int, str]:
    """Run one of the page's tools in its folder; return its exit code and what it said.

    Raises
    ------
    CannotMakeError
        If the tools are not there and cannot be fetched.
    """
    fetch_tools(root)
    ended = node([f"node_modules/{TOOLS[name]}", *arguments], root / SOURCE)
    return ended.returncode, ended.stdout


def licences(web: Path) -> str:
    """Return the licences of the libraries that the built page carries."""
    carried = json.loads((web / "package.json").read_text("utf-8"))["dependencies"]
    texts = []
    for name in sorted(carried):
        text = (web / "node_modules" / name / "LICENSE").read_text("utf-8")
        texts.append(f"{name} {carried[name]}\n\n{text.strip()}\n")
    return "\n\n".join(texts)


def make_page(root: Path) -> str:
    """Build the page below the repository's root and return what was done.

    A page that cannot be built anew is taken away: an old one would not fit its server.

    Raises
    ------
    CannotMakeError
        If its tools cannot be fetched, or its source is wrong.
    """
    web, target = root / SOURCE, root / FOLDER
    stamp = target / "source.txt"
    wanted = digest(sources(web), web)
    if stamp.is_file() and stamp.read_text("utf-8") == wanted:
        return "the page is already built"
    shutil.rmtree(target, ignore_errors=True)
    code, said = run_tool(root, "vite", "build", "--logLevel", "error")
    if code != 0:
        reasons = [line.strip() for line in said.splitlines() if line.strip()]
        raise CannotMakeError(reasons[0] if reasons else f"vite ended with {code}")
    (target / "licences.txt").write_text(licences(web), "utf-8")
    stamp.write_text(wanted, "utf-8")
    return "the page was built"
