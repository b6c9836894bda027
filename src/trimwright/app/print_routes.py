"""What the sheet 'print' asks: the papers with their pages, previews, and the files to keep.

Nothing is written into the builder's folder: files go to the browser, byte for byte as the verb
'print' writes them.
"""

from pathlib import PurePosixPath
from typing import Annotated

from fastapi import APIRouter, Depends, HTTPException, Query, Response

from trimwright.app.asked import Good, OneBench
from trimwright.app.print_message import (
    FileMessage,
    PageMessage,
    PanelMessage,
    PrintMessage,
    SheetMessage,
)
from trimwright.app.shop_paper import Paper, ShopPaper, shop_paper
from trimwright.build import seen
from trimwright.drawing import svg
from trimwright.papers import SHEETS

router = APIRouter(prefix="/api/builds/{name}/print/{size}")

# sheet: what it is called on the bench, what it is for
TOLD: dict[str, tuple[str, str]] = {
    "findings": ("Findings", "What needs a hand, in the order of the work, with boxes to tick."),
    "views": ("Views", "Side, plan and the worst section, every gap tagged."),
    "measuring": ("Measuring sheet", "Every reading with a line to write it again."),
    "gauges": ("Card gauges", "The tunnel's sections at 1:1, to cut from card and offer up."),
    "cut-list": ("Cut list", "One row a piece: size, sheet, grain, edges."),
    "mock-up": ("Mock-up", "The console at 1:1 in card, to try it in the car before wood is cut."),
    "templates": ("Templates", "Every panel at 1:1, to paste on the sheet and saw along."),
    "test-fit": ("Test fit", "Where to probe with the console in the car, and what to expect."),
    "wiring": (
        "Wiring diagram",
        "Current paths from feed to ground, rules and faults at the foot.",
    ),
    "meter": ("Meter sheet", "Where to read volts before the console closes, and what to expect."),
    "before-covering": ("Before covering", "The last look before leather goes on."),
    "to-buy": ("Wiring to buy", "Wire by size and colour, terminals, fuses, relays, plugs, wrap."),
    "wire-list": ("Wire list", "One row a wire: both ends, size, colour, length to cut, way."),
    "labels": ("Wire labels", "One flag for each end of each wire, to cut out and wrap round it."),
    "plugs": ("Plugs, fuses, relays", "Each cavity from the wire side, and what each fuse is for."),
    "trunks": ("Trunks in section", "Every bundle to scale in its hole, its wires by number."),
    "rubbed-through": (
        "If a wire is rubbed through",
        "What flows, which fuse opens and how soon, how warm it gets, what goes dead.",
    ),
    "harness-board": ("Harness board", "The loom laid flat at 1:1, to nail along and tie up."),
}
FILES: dict[str, tuple[str, str]] = {
    "packet.pdf": ("The whole packet", "Every page, in the order of the work."),
    "book.pdf": ("Build book", "Everything about this build, to read and to keep."),
    "plotter.pdf": ("Plotter page", "Every panel at 1:1 on one page of a roll."),
    "findings.csv": ("Findings as a list", "For a spreadsheet."),
    "cut-list.csv": ("Cut list as a list", "For a spreadsheet."),
    "wire-list.csv": ("Wire list as a list", "For a spreadsheet."),
    "rubbed-through.csv": ("If a wire is rubbed through, as a list", "For a spreadsheet."),
    "to-buy.csv": ("Wiring to buy as a list", "For a spreadsheet."),
}
KINDS = {
    ".pdf": "application/pdf",
    ".csv": "text/csv; charset=utf-8",
    ".dxf": "image/vnd.dxf",
    ".svg": "image/svg+xml",
}


def _asked(bench: OneBench, good: Good, size: Paper, version: str = "") -> ShopPaper:
    """Return the papers of a build; of another version than is on the bench there are none."""
    if version and version != good[0].version:
        raise HTTPException(409, "The build was changed since. Look at the pages again.")
    pictures = seen(good[1].build, bench.path)
    return shop_paper(good[1].text, size, bench.steps(), bench.path, pictures)


Printed = Annotated[ShopPaper, Depends(_asked)]


@router.get("")
def papers(good: Good, printed: Printed) -> PrintMessage:
    """Return every sheet with its pages, and every file."""
    sheets, number = [], 1
    for place, name in enumerate(SHEETS, start=1):
        found = printed.documents.get(name)
        pages = found.pages if found else ()
        title, says = TOLD[name]
        told = tuple(
            PageMessage(
                number=n, title=page.title, width_mm=page.width_mm, height_mm=page.height_mm
            )
            for n, page in enumerate(pages, start=number)
        )
        number += len(pages)
        file = f"{place}-{name}.pdf" if pages else ""
        sheets.append(SheetMessage(name=name, title=title, says=says, file=file, pages=told))
    names = printed.names
    return PrintMessage(
        version=good[0].version,
        paper=printed.size,
        pages=number - 1,
        sheets=tuple(sheets),
        files=tuple(
            FileMessage(name=name, title=title, says=says)
            for name, (title, says) in FILES.items()
            if name in names
        ),
        panels=tuple(
            PanelMessage(
                title=PurePosixPath(name).stem.replace("-", " "),
                dxf=name,
                svg=str(PurePosixPath(name).with_suffix(".svg")),
            )
            for name in names
            if name.endswith(".dxf")
        ),
    )


@router.get("/pages/{number}.svg", response_class=Response)
def page(printed: Printed, number: int) -> Response:
    """Return one page of the packet as it will be printed."""
    if not 1 <= number <= len(printed.pages):
        raise HTTPException(404, "There is no such page.")
    drawn = svg(printed.pages[number - 1])
    return Response(drawn, media_type=KINDS[".svg"], headers={"cache-control": "no-cache"})


@router.get("/chosen.pdf", response_class=Response)
def chosen(
    bench: OneBench, printed: Printed, sheet: Annotated[list[str], Query(max_length=20)]
) -> Response:
    """Return some sheets as one PDF."""
    return _file(f"{bench.name}-{'-'.join(sheet)}.pdf", printed.together(tuple(sheet)))


@router.get("/files/{path:path}", response_class=Response)
def file(bench: OneBench, printed: Printed, path: str) -> Response:
    """Return one file, byte for byte as the verb 'print' writes it."""
    if path not in printed.names:
        raise HTTPException(404, "There is no such file.")
    return _file(f"{bench.name}-{PurePosixPath(path).name}", printed.files[path])


def _file(name: str, content: bytes) -> Response:
    """Return bytes as a file to keep."""
    plain = "".join(
        one if one.isascii() and (one.isalnum() or one in "-_.") else "-" for one in name
    )
    headers = {
        "content-disposition": f'attachment; filename="{plain}"',
        "cache-control": "no-cache",
    }
    return Response(content, media_type=KINDS[PurePosixPath(name).suffix], headers=headers)
