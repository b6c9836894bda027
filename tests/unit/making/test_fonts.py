"""The fonts of the papers, with fonts of our own making in place of the fetched ones."""

from pathlib import Path

import pytest
from fontTools.feaLib.builder import addOpenTypeFeaturesFromString
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

from making import CannotMakeError, fonts

DIGITS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
ALPHABETS = {
    "latin": {ord("A"): "A", **{ord("0") + n: name for n, name in enumerate(DIGITS)}},
    "latin-ext": {0x0141: "Lslash"},
    "greek": {0x03A9: "Omega"},
}


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


@pytest.fixture
def _square(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the fonts of squares stand for those that npm brings."""
    monkeypatch.setattr(fonts, "fetch", packages)


@pytest.mark.usefixtures("_square")
def test_fonts_are_merged_with_even_figures_primes_and_licences(tmp_path: Path) -> None:
    assert fonts.make_fonts(tmp_path) == "the fonts of the papers were fetched and merged"
    folder = tmp_path / fonts.FOLDER
    assert (folder / "bitter-OFL.txt").read_text("utf-8") == "a licence"
    for name in ("say.ttf", "count.ttf", "count-bold.ttf"):
        font = TTFont(folder / name)
        cmap = font.getBestCmap()
        assert {0x41, 0x141, 0x3A9, 0x2009, 0x2032, 0x2033} <= set(cmap)
        assert {font["hmtx"][cmap[ord(digit)]][0] for digit in "0123456789"} == {555}
        assert font.flavor is None


@pytest.mark.usefixtures("_square")
def test_fonts_have_the_same_bytes_each_time(tmp_path: Path) -> None:
    for name in ("one", "two"):
        fonts.make_fonts(tmp_path / name)
    one, two = (sorted((tmp_path / name / fonts.FOLDER).iterdir()) for name in ("one", "two"))
    assert [file.read_bytes() for file in one] == [file.read_bytes() for file in two]


@pytest.mark.usefixtures("_square")
def test_fonts_that_are_there_are_not_fetched_again(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    fonts.make_fonts(tmp_path)
    monkeypatch.setattr(fonts, "fetch", None)
    assert fonts.make_fonts(tmp_path) == "the fonts of the papers are already there"


def test_package_that_npm_did_not_bring_is_named(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(fonts, "npm", lambda *_: None)
    with pytest.raises(CannotMakeError, match=r"npm brought no fontsource-bitter-.*\.tgz"):
        fonts.fetch(tmp_path)
