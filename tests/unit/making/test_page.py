"""The built page: made once for a source, taken away when it cannot be made, with its licences."""

from collections.abc import Sequence
from pathlib import Path
from subprocess import CompletedProcess

import pytest

from making import CannotMakeError, npm, page


class Tools:
    """Stands for npm and node: brings a library's licence, builds a page of one file."""

    def __init__(self) -> None:
        self.ran: list[str] = []
        self.ends = 0
        self.network = True

    def npm(self, arguments: Sequence[str], folder: Path) -> None:
        """Bring what the lock file names, if there is a network."""
        self.ran.append(f"npm {' '.join(arguments)}")
        if not self.network:
            raise CannotMakeError("npm error code ENOTFOUND")
        library = folder / "node_modules" / "glue"
        library.mkdir(parents=True, exist_ok=True)
        (library / "LICENSE").write_text("Use it.\n", "utf-8")

    def node(self, arguments: Sequence[str], folder: Path) -> "CompletedProcess[str]":
        """Build the page, or say what is wrong with its source."""
        self.ran.append(f"node {arguments[0]}")
        if self.ends == 0:
            built = folder.parent / page.FOLDER
            built.mkdir(parents=True)
            (built / "index.html").write_text("a page", "utf-8")
        return CompletedProcess([], self.ends, stdout="\nerror: no such file\n  at line 3\n")


@pytest.fixture
def tools(monkeypatch: pytest.MonkeyPatch) -> Tools:
    """Return the tools in place of npm and node."""
    made = Tools()
    monkeypatch.setattr(page, "npm", made.npm)
    monkeypatch.setattr(page, "node", made.node)
    return made


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """Return a project with the source of a page."""
    web = tmp_path / "web"
    (web / "src").mkdir(parents=True)
    (web / "package.json").write_text('{"dependencies": {"glue": "1.2.0"}}', "utf-8")
    (web / "package-lock.json").write_text("{}", "utf-8")
    (web / "src" / "main.ts").write_text("1\n", "utf-8")
    return tmp_path


def test_a_page_is_built_once_for_a_source(tools: Tools, project: Path) -> None:
    assert page.make_page(project) == "the page was built"
    assert page.make_page(project) == "the page is already built"
    assert tools.ran == ["npm ci", "node node_modules/vite/bin/vite.js"]
    assert (project / page.FOLDER / "licences.txt").read_text("utf-8") == "glue 1.2.0\n\nUse it.\n"


def test_a_changed_source_is_built_with_the_tools_that_are_there(
    tools: Tools, project: Path
) -> None:
    page.make_page(project)
    tools.ran.clear()
    (project / "web" / "src" / "main.ts").write_text("2\n", "utf-8")
    assert page.make_page(project) == "the page was built"
    assert tools.ran == ["node node_modules/vite/bin/vite.js"]


def test_other_tools_in_the_lock_file_are_fetched(tools: Tools, project: Path) -> None:
    page.make_page(project)
    tools.ran.clear()
    (project / "web" / "package-lock.json").write_text('{"packages": {}}', "utf-8")
    page.make_page(project)
    assert tools.ran == ["npm ci", "node node_modules/vite/bin/vite.js"]


def test_without_a_network_there_is_no_page_and_the_reason_is_one_line(
    tools: Tools, project: Path
) -> None:
    page.make_page(project)
    (project / "web" / "package-lock.json").write_text('{"packages": {}}', "utf-8")
    tools.network = False
    with pytest.raises(CannotMakeError, match=r"^npm error code ENOTFOUND$"):
        page.make_page(project)
    assert not (project / page.FOLDER).exists()  # the old page would not fit the new server


def test_tools_of_which_some_may_be_gone_are_fetched_again(tools: Tools, project: Path) -> None:
    page.make_page(project)
    lock = project / "web" / "package-lock.json"
    tools.network = False
    for text in ('{"packages": {}}', "{}"):  # another release and back: nothing says what is left
        lock.write_text(text, "utf-8")
        with pytest.raises(CannotMakeError, match=r"^npm error"):
            page.make_page(project)


def test_a_source_that_cannot_be_built_is_told_in_one_line(tools: Tools, project: Path) -> None:
    tools.ends = 1
    with pytest.raises(CannotMakeError, match=r"^error: no such file$"):
        page.make_page(project)
    assert not (project / page.FOLDER).exists()


def test_npm_that_nobody_answers_is_told_in_one_line(
    project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("npm_config_registry", "http://127.0.0.1:9/")  # nobody listens there
    monkeypatch.setenv("npm_config_cache", str(project / "cache"))
    monkeypatch.setenv("npm_config_fetch_retry_mintimeout", "1")
    with pytest.raises(CannotMakeError, match=r"^npm error code ECONNREFUSED$"):
        npm.npm(["pack", "glue@1.2.0"], project)
