"""Makes the fonts that papers are set in.

They are not kept in this repository: two npm packages (SIL Open Font License 1.1) are fetched,
opened, merged and written to `src/trimwright/drawing/fonts/`. Without them papers are set in the
two Helvetica faces that every PDF reader has, and `trimwright.drawing.fonts_used()` says so.
"""

import shutil
import tarfile
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from making.npm import CannotMakeError, npm

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

FOLDER = "src/trimwright/drawing/fonts"
PACKAGES = {"bitter": "5.3.0", "sofia-sans": "5.3.0"}
TABLES = ("OS/2", "cmap", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "name", "post")
STAMP_S = 3_786_912_000  # 2024-01-01 in seconds since 1904: the fonts carry no build time
THIN_SPACE, PRIMES, OHM = 0x2009, (0x2032, 0x2033), (0x03A9,)
THIN_EM = 0.2  # a thin space is a fifth of the size


@dataclass(frozen=True)
class Face:
    """A font to make: its file, the package and weight it comes from, and its alphabets."""

    file: str
    package: str
    weight: int
    subsets: tuple[str, ...]


SAY = Face("say.ttf", "bitter", 600, ("latin", "latin-ext"))
COUNT = Face("count.ttf", "sofia-sans", 400, ("latin", "latin-ext", "greek"))
BOLD = Face("count-bold.ttf", "sofia-sans", 600, ("latin", "latin-ext", "greek"))
FACES = (SAY, COUNT, BOLD)


def edition() -> str:
    """Return the line that tells which fonts a folder holds."""
    packages = ", ".join(f"{name} {version}" for name, version in PACKAGES.items())
    return f"{packages}; made by edition 1 of the build hook\n"


def fetch(folder: Path) -> None:
    """Fetch and unpack the font packages into subfolders of a folder; nothing of them is run.

    Raises
    ------
    CannotMakeError
        If npm is missing, cannot be reached or fails.
    """
    specs = [f"@fontsource/{name}@{version}" for name, version in PACKAGES.items()]
    npm(["pack", *specs], folder)
    for name, version in PACKAGES.items():
        archive = folder / f"fontsource-{name}-{version}.tgz"
        if not archive.is_file():
            raise CannotMakeError(f"npm brought no {archive.name}")
        with tarfile.open(archive) as packed:
            _unpack(packed, folder / name)


def _unpack(packed: tarfile.TarFile, folder: Path) -> None:
    """Write an archive's plain files into a folder; nothing leaves it.

    The safe filter of `extractall` came with Python 3.11.4, and 3.11.2 is what some carry.
    """
    inside = folder.resolve()
    for member in packed.getmembers():
        target = (folder / member.name).resolve()
        content = packed.extractfile(member) if member.isfile() else None
        if content is None or not target.is_relative_to(inside):
            continue
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content.read())


def _opened(folder: Path, face: Face, subset: str) -> "TTFont":
    from fontTools.ttLib import TTFont  # noqa: PLC0415  only a build environment needs it

    name = f"{face.package}-{subset}-{face.weight}-normal.woff2"
    return TTFont(folder / face.package / "package" / "files" / name, recalcTimestamp=False)


def _tabular(font: "TTFont", cmap: dict[int, str]) -> None:
    """Let the digits be those of equal width, which the font keeps under its feature tnum."""
    table = font["GSUB"].table
    lookups = {
        index
        for record in table.FeatureList.FeatureRecord
        if record.FeatureTag == "tnum"
        for index in record.Feature.LookupListIndex
    }
    swaps: dict[str, str] = {}
    for index in sorted(lookups):
        for part in table.LookupList.Lookup[index].SubTable:
            swaps.update(getattr(part, "ExtSubTable", part).mapping)
    for code in range(ord("0"), ord("9") + 1):
        cmap[code] = swaps.get(cmap[code], cmap[code])


def _graft(font: "TTFont", cmap: dict[int, str], donor: "TTFont", codes: Iterable[int]) -> None:
    """Copy the donor's glyphs for some code points that the font lacks."""
    from fontTools.pens.recordingPen import DecomposingRecordingPen  # noqa: PLC0415  as above
    from fontTools.pens.ttGlyphPen import TTGlyphPen  # noqa: PLC0415  as above

    glyphs, names, table = donor.getGlyphSet(), donor.getBestCmap(), font["glyf"]
    for code in sorted(set(codes) & set(names) - set(cmap)):
        record = DecomposingRecordingPen(glyphs)
        glyphs[names[code]].draw(record)
        pen = TTGlyphPen(None)
        record.replay(pen)
        glyph, name = pen.glyph(), f"grafted{code:04X}"
        table[name] = glyph
        glyph.recalcBounds(table)
        font["hmtx"][name] = (donor["hmtx"][names[code]][0], getattr(glyph, "xMin", 0))
        cmap[code] = name


def _thin_space(font: "TTFont", cmap: dict[int, str]) -> None:
    from fontTools.pens.ttGlyphPen import TTGlyphPen  # noqa: PLC0415  as above

    if THIN_SPACE not in cmap:
        font["glyf"]["thinspace"] = TTGlyphPen(None).glyph()
        font["hmtx"]["thinspace"] = (round(THIN_EM * font["head"].unitsPerEm), 0)
        cmap[THIN_SPACE] = "thinspace"


def font_file(folder: Path, face: Face) -> "TTFont":
    """Return a face as one plain TrueType font: its alphabets merged, tabular digits, primes."""
    from fontTools.fontBuilder import FontBuilder  # noqa: PLC0415  as above

    font = _opened(folder, face, face.subsets[0])
    cmap = dict(font.getBestCmap())
    _tabular(font, cmap)
    for subset in face.subsets[1:]:
        donor = _opened(folder, face, subset)
        _graft(font, cmap, donor, donor.getBestCmap())
    _graft(font, cmap, _opened(folder, SAY, "latin"), PRIMES)
    _graft(font, cmap, _opened(folder, BOLD, "greek"), OHM)
    _thin_space(font, cmap)
    for tag in [tag for tag in font.keys() if tag not in (*TABLES, "GlyphOrder")]:  # noqa: SIM118  a TTFont is no dict
        del font[tag]
    for name in font.getGlyphOrder():
        font["glyf"][name].removeHinting()  # the program that hints call is not kept
    font.flavor = None
    font["head"].created = font["head"].modified = STAMP_S
    font.setGlyphOrder(font["glyf"].glyphOrder)
    FontBuilder(font=font).setupCharacterMap(cmap)
    return font


def make_fonts(root: Path) -> str:
    """Write the fonts and their licences below the repository's root and return what was done.

    Raises
    ------
    CannotMakeError
        If they are not there yet and cannot be fetched.
    """
    target = root / FOLDER
    stamp = target / "edition.txt"
    if stamp.is_file() and stamp.read_text("utf-8") == edition():
        return "the fonts of the papers are already there"
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        fetch(folder)
        fonts = [font_file(folder, face) for face in FACES]
        shutil.rmtree(target, ignore_errors=True)
        target.mkdir(parents=True)
        for face, font in zip(FACES, fonts, strict=True):
            font.save(target / face.file, reorderTables=True)
        for package in PACKAGES:
            shutil.copyfile(folder / package / "package" / "LICENSE", target / f"{package}-OFL.txt")
    stamp.write_text(edition(), "utf-8")
    return "the fonts of the papers were fetched and merged"
