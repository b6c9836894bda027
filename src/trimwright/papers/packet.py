"""The packet: every sheet in the order of the work."""

from collections.abc import Callable

from trimwright.build import Version
from trimwright.cabin import Cabin
from trimwright.drawing import Document, Size
from trimwright.findings import Finding
from trimwright.papers import (
    before_trimmer,
    card_gauge,
    cut_list,
    findings_sheet,
    measuring_sheet,
    meter_sheet,
    mock_up,
    probe_sheet,
    template,
    view,
    wiring_diagram,
)
from trimwright.papers.leaf import Leaf, pages
from trimwright.papers.wiring import (
    buying_list,
    harness_board,
    label_sheet,
    plug_sheet,
    short_sheet,
    trunk_sheet,
    wire_list,
)

Leaves = Callable[[Cabin, tuple[Finding, ...], Size], tuple[Leaf, ...]]

# in the order of the work: what is offered up in the car comes before what is cut
SHEETS: dict[str, Leaves] = {
    "findings": findings_sheet.leaves,
    "views": view.leaves,
    "measuring": lambda cabin, _, size: measuring_sheet.leaves(cabin, size),
    "gauges": lambda cabin, _, size: card_gauge.leaves(cabin, size),
    "cut-list": lambda cabin, _, size: cut_list.leaves(cabin, size),
    "mock-up": lambda cabin, _, size: mock_up.leaves(cabin, size),
    "templates": template.leaves,
    "test-fit": lambda cabin, _, size: probe_sheet.leaves(cabin, size),
    "wiring": lambda cabin, _, size: wiring_diagram.leaves(cabin, size),
    "meter": lambda cabin, _, size: meter_sheet.leaves(cabin, size),
    "before-covering": before_trimmer.leaves,
    # the wiring's own, in the order they are used; none where no wiring is written
    "to-buy": lambda cabin, _, size: buying_list.leaves(cabin, size),
    "wire-list": lambda cabin, _, size: wire_list.leaves(cabin, size),
    "labels": lambda cabin, _, size: label_sheet.leaves(cabin, size),
    "plugs": lambda cabin, _, size: plug_sheet.leaves(cabin, size),
    "trunks": lambda cabin, _, size: trunk_sheet.leaves(cabin, size),
    "rubbed-through": lambda cabin, _, size: short_sheet.leaves(cabin, size),
    "harness-board": lambda cabin, _, size: harness_board.leaves(cabin, size),
}


def packet(
    cabin: Cabin,
    findings: tuple[Finding, ...],
    size: Size,
    only: str = "",
    last: Version | None = None,
) -> dict[str, Document]:
    """Return the sheets as documents by name, their pages numbered through the whole packet.

    Parameters
    ----------
    cabin : Cabin
        With its results.
    findings : tuple of Finding
        In the order of the sheet.
    size : Size
        Paper.
    only : str
        One of `SHEETS`, or empty for all; numbers are those of the whole packet either way.
    last : Version, optional
        What was changed last, where a history was kept.

    Raises
    ------
    ValueError
        If `only` is no sheet.
    """
    if only and only not in SHEETS:
        raise ValueError(f"only must be one of {', '.join(SHEETS)}, got {only!r}")
    made = {name: leaves(cabin, findings, size) for name, leaves in SHEETS.items()}
    every = pages(tuple(leaf for some in made.values() for leaf in some), cabin.build, last)
    documents, start = {}, 0
    for name, some in made.items():
        mine = every[start : start + len(some)]
        start += len(some)
        if mine and (not only or only == name):
            documents[name] = Document(mine, f"{cabin.build.name}: {name}", "")
    return documents
