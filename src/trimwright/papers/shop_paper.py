"""Shop paper as files in a folder: a PDF a sheet, lists, a plotter page, a DXF and SVG a panel."""

import re
from collections.abc import Callable
from pathlib import Path

from trimwright.cabin import Cabin
from trimwright.drawing import Document, Page, Size, dxf, pdf, pdfs, svg
from trimwright.findings import Finding
from trimwright.papers.beside import NOTHING, Beside
from trimwright.papers.build_book import build_book
from trimwright.papers.csv_list import cut_list_csv, findings_csv
from trimwright.papers.packet import SHEETS, packet
from trimwright.papers.panel_drawing import panel_drawing
from trimwright.papers.plotter import plotter
from trimwright.papers.wiring.wiring_csv import buying_csv, rubbed_csv, wire_list_csv
from trimwright.parts import Panel

BOOK, BOOK_FILE = "book", "book.pdf"


def listed(cabin: Cabin, documents: dict[str, Document]) -> tuple[str, ...]:
    """Return the names of all files of a build in the order of the work, drawing none."""
    names = [*_sheet_files(documents)]
    names += ["packet.pdf"] if documents else []
    names += [BOOK_FILE, "findings.csv"]
    names += _wiring_lists(cabin)
    panels = _panels(cabin)
    if panels:
        names += ["cut-list.csv", "plotter.pdf"]
    for name in panels:
        names += [f"panels/{name}.dxf", f"panels/{name}.svg"]
    return tuple(names)


def files(
    cabin: Cabin,
    findings: tuple[Finding, ...],
    documents: dict[str, Document],
    size: Size,
    beside: Beside,
) -> dict[str, bytes]:
    """Return all files by name; the same build with the same beside it gives the same bytes.

    Parameters
    ----------
    cabin, findings, size
        As the documents were made from.
    documents : dict of str to Document
        The packet.
    beside : Beside
        History, notes and photos, for the title blocks and the build book.
    """
    sheets = _sheet_files(documents)
    if documents:
        whole = tuple(page for document in documents.values() for page in document.pages)
        sheets["packet.pdf"] = Document(whole, cabin.build.name, "")
    made = pdfs(sheets)
    made[BOOK_FILE] = build_book(cabin, findings, size, beside)
    made["findings.csv"] = findings_csv(cabin, findings)
    for name, list_csv in _wiring_lists(cabin).items():
        made[name] = list_csv(cabin)
    panels = _panels(cabin)
    if panels:
        made["cut-list.csv"] = cut_list_csv(cabin)
        made["plotter.pdf"] = pdf(plotter(cabin, beside.last))
    for name, panel in panels.items():
        drawing = panel_drawing(cabin, panel)
        made[f"panels/{name}.dxf"] = dxf(drawing)
        page = Page((drawing.width_mm, drawing.height_mm), drawing, panel.name)
        made[f"panels/{name}.svg"] = svg(page).encode()
    return made


def _sheet_files(documents: dict[str, Document]) -> dict[str, Document]:
    """Return the sheets by the names of their files."""
    order = list(SHEETS)
    return {f"{order.index(name) + 1}-{name}.pdf": one for name, one in documents.items()}


def _wiring_lists(cabin: Cabin) -> dict[str, Callable[[Cabin], bytes]]:
    """Return what makes the wiring's lists, by the names of their files; none without a wiring."""
    if cabin.build.wiring is None:
        return {}
    return {
        "wire-list.csv": wire_list_csv,
        "to-buy.csv": buying_csv,
        "rubbed-through.csv": rubbed_csv,
    }


def _panels(cabin: Cabin) -> dict[str, Panel]:
    """Return the panels by the names of their files; none where there is no console."""
    panels = cabin.carcass.panels if cabin.carcass else ()
    return dict(zip(file_names(tuple(one.name for one in panels)), panels, strict=True))


def file_names(names: tuple[str, ...]) -> tuple[str, ...]:
    """Return a file name for each panel, whatever it is called: all different, none a path.

    Examples
    --------
    >>> file_names(("left wall", "box", "../box", "box"))
    ('left-wall', 'box', 'box-2', 'box-3')
    """
    found: list[str] = []
    for name in names:
        plain = re.sub(r"[^\w.]+", "-", name).strip("-.").lower() or "panel"
        tried, count = plain, 1
        while tried in found:
            count += 1
            tried = f"{plain}-{count}"
        found.append(tried)
    return tuple(found)


def write(
    cabin: Cabin,
    findings: tuple[Finding, ...],
    folder: Path,
    size: Size,
    only: str = "",
    beside: Beside = NOTHING,
) -> tuple[Path, ...]:
    """Write the shop paper, or one sheet or the book of it, into a folder; return the paths."""
    paths = []
    if only == BOOK:
        made = {BOOK_FILE: build_book(cabin, findings, size, beside)}
    else:
        documents = packet(cabin, findings, size, only, beside.last)
        made = (
            pdfs(_sheet_files(documents))
            if only
            else files(cabin, findings, documents, size, beside)
        )
    for name, content in made.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
        paths.append(path)
    return tuple(paths)
