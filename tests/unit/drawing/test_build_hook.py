"""The build hook: with fonts of our own making in place of the fetched ones, and without any."""

import importlib.util
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from fontTools.feaLib.builder import addOpenTypeFeaturesFromString
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

DIGITS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
ALPHABETS = {
    "latin": {ord("A"): "A", **{ord("0") + n: name for n, name in enumerate(DIGITS)}},
    "latin-ext": {0x0141: "Lslash"},
    "greek": {0x03A9: "Omega"},
}


@pytest.fixture
def hook(root: Path) -> ModuleType:
    """Return the build hook's module, which is no part of the package."""
    spec = importlib.util.spec_from_file_location("hatch_build", root / "hatch_build.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def woff2(path: Path, cmap: dict[int, str], *, tabular: bool) -> None:
    """Write a small font of squares: digits of every width, and of one width under tnum."""
    tnum = [f"{name}.tnum" for name in DIGITS] if tabular else []
    names = [".notdef", *cmap.values(), *tnum]
    pen = TTGlyphPen(None)
    for at in ((0, 0), (0, 500), (300, 500), (300, 0)):
        pen.lineTo(at) if at != (0, 0) else pen.moveTo(at)
    pen.closePath()
    square = pen.glyph()
    widths = {name: (400 + 10 * index, 0) for index, name in enumerate(names)}
    widths.update(dict.fromkeys(tnum, (555, 0)))
    builder = FontBuilder(1000, isTTF=True)
    builder.setupGlyphOrder(names)
    builder.setupCharacterMap(cmap)
    builder.setupGlyf(dict.fromkeys(names, square))
    builder.setupHorizontalMetrics(widths)
    builder.setupHorizontalHeader(ascent=900, descent=-300)
    builder.setupNameTable({"familyName": "Square", "styleName": "Plain"})
    builder.setupOS2()
    builder.setupPost()
    if tabular:
        swaps = " ".join(f"sub {name} by {name}.tnum;" for name in DIGITS)
        addOpenTypeFeaturesFromString(builder.font, f"feature tnum {{ {swaps} }} tnum;")
    builder.font.flavor = "woff2"
    path.parent.mkdir(parents=True, exist_ok=True)
    builder.font.save(path)


def packages(folder: Path) -> None:
    """Lay out font packages as npm does."""
    for package, weights in (("bitter", (600,)), ("sofia-sans", (400, 600))):
        below = folder / package / "package"
        for weight in weights:
            for subset, cmap in ALPHABETS.items():
                primes = {0x2032: "minute", 0x2033: "second"} if package == "bitter" else {}
                more = primes if subset == "latin" else {}
                name = f"{package}-{subset}-{weight}-normal.woff2"
                woff2(below / "files" / name, {**cmap, **more}, tabular=subset == "latin")
        (below / "LICENSE").write_text("a licence", "utf-8")


class Words:
    """Stands for the builder's terminal and keeps what it is told."""

    def __init__(self) -> None:
        self.said: list[str] = []

    def display_info(self, words: str) -> None:
        """Keep a line of information."""
        self.said.append(words)

    def display_warning(self, words: str) -> None:
        """Keep a line of warning."""
        self.said.append(words)


def run(hook: ModuleType, root: Path) -> tuple[list[str], dict[str, Any]]:
    """Run the hook as a build of a project in a folder does."""
    words = Words()
    data: dict[str, Any] = {"artifacts": []}
    made = hook.CustomBuildHook(str(root), {}, None, None, str(root), "wheel", words)
    made.initialize("standard", data)
    return words.said, data


def test_fonts_are_merged_with_even_figures_primes_and_licences(
    hook: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(hook, "fetch", packages)
    said, data = run(hook, tmp_path)
    folder = tmp_path / hook.FOLDER
    assert said == ["the fonts of the papers were fetched and merged"]
    assert data["artifacts"] == ["/src/trimwright/drawing/fonts/*"]
    assert (folder / "bitter-OFL.txt").read_text("utf-8") == "a licence"
    for name in ("say.ttf", "count.ttf", "count-bold.ttf"):
        font = TTFont(folder / name)
        cmap = font.getBestCmap()
        assert {0x41, 0x141, 0x3A9, 0x2009, 0x2032, 0x2033} <= set(cmap)
        assert {font["hmtx"][cmap[ord(digit)]][0] for digit in "0123456789"} == {555}
        assert font.flavor is None


def test_fonts_have_the_same_bytes_each_time(
    hook: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(hook, "fetch", packages)
    for name in ("one", "two"):
        hook.make_fonts(tmp_path / name)
    one, two = (sorted((tmp_path / name / hook.FOLDER).iterdir()) for name in ("one", "two"))
    assert [file.read_bytes() for file in one] == [file.read_bytes() for file in two]


def test_fonts_that_are_there_are_not_fetched_again(
    hook: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(hook, "fetch", packages)
    hook.make_fonts(tmp_path)
    monkeypatch.setattr(hook, "fetch", None)
    assert run(hook, tmp_path)[0] == ["the fonts of the papers are already there"]


def test_build_without_npm_says_so_in_one_line_and_goes_on(
    hook: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def npm(arguments: list[str], folder: Path) -> None:
        del arguments, folder
        raise hook.CannotFetchError("npm error network request failed")

    monkeypatch.setattr(hook, "_npm", npm)
    said, data = run(hook, tmp_path)
    (line,) = said
    assert line.startswith("fonts not fetched (npm error network request failed): papers will be ")
    assert data["artifacts"] == []
    assert not (tmp_path / hook.FOLDER).exists()


def test_package_that_npm_did_not_bring_is_named(
    hook: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(hook, "_npm", lambda *_: None)
    with pytest.raises(hook.CannotFetchError, match=r"npm brought no fontsource-bitter-.*\.tgz"):
        hook.fetch(tmp_path)
