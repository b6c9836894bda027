"""Shop paper as files in a folder: a PDF a sheet, a plotter page, and a DXF and SVG a panel."""

import re
from pathlib import Path

from trimwright.cabin import Cabin
from trimwright.drawing import Document, Page, Size, dxf, pdf, pdfs, svg
from trimwright.findings import Finding
from trimwright.papers.packet import SHEETS, packet
from trimwright.papers.panel_drawing import panel_drawing
from trimwright.papers.plotter import plotter


def files(
    cabin: Cabin, findings: tuple[Finding, ...], size: Size, only: str = ""
) -> dict[str, bytes]:
    """Return the files by name, in the order of the work; the same build gives the same bytes."""
    documents = packet(cabin, findings, size, only)
    order = list(SHEETS)
    sheets = {f"{order.index(name) + 1}-{name}.pdf": one for name, one in documents.items()}
    if documents and not only:
        whole = tuple(page for document in documents.values() for page in document.pages)
        sheets["packet.pdf"] = Document(whole, cabin.build.name, "")
    made = pdfs(sheets)
    if only:
        return made
    carcass = cabin.carcass
    if carcass is not None and carcass.panels:
        made["plotter.pdf"] = pdf(plotter(cabin))
        names = file_names(tuple(panel.name for panel in carcass.panels))
        for panel, name in zip(carcass.panels, names, strict=True):
            drawing = panel_drawing(cabin, panel)
            made[f"panels/{name}.dxf"] = dxf(drawing)
            page = Page((drawing.width_mm, drawing.height_mm), drawing, panel.name)
            made[f"panels/{name}.svg"] = svg(page).encode()
    return made


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
    cabin: Cabin, findings: tuple[Finding, ...], folder: Path, size: Size, only: str = ""
) -> tuple[Path, ...]:
    """Write the shop paper into a folder and return the files' paths in order."""
    paths = []
    for name, content in files(cabin, findings, size, only).items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
        paths.append(path)
    return tuple(paths)
