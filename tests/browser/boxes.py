"""Where every word and mark of a page stands, as the browser set it."""

from collections.abc import Sequence
from pathlib import Path
from typing import TypedDict

import numpy as np
from playwright.sync_api import Page

READ = (Path(__file__).parent / "boxes.js").read_text("utf-8")
# what may lie over others, with a ground of its own, and goes again
COVERS = ".field, .history, .live, [role=dialog], .title.opened, .slip.up, .note-sheet"
# words that may be shortened where there is no room for them, as another place holds them whole
SHORTENED = {".slip-foot span": "the whole list of edits, which 'All' opens"}
# words of a drawing that may stand over a line, with a halo
HALOED = ".label, .size, .zones, .round, .tag-figure, .tag-sure, .handle-figure, .walk-label, .walk-figure"
TOUCH_PX = 1.0  # boxes that share no more than this do not overlap


class Shown(TypedDict):
    """One line of words, or one mark (no words): left, top, right, bottom [px of the screen]."""

    words: str
    box: list[float]
    where: str
    wrong: str
    halo: bool
    layer: bool


def shown(page: Page) -> list[Shown]:
    """Return every line of words and every mark that can be seen on a page."""
    found: list[Shown] = page.evaluate(
        READ, {"covers": COVERS, "shortened": ", ".join(SHORTENED), "haloed": HALOED}
    )
    return found


def overlaps(all_shown: Sequence[Shown]) -> list[tuple[Shown, Shown]]:
    """Return which two stand in each other's way; a mark's own number stands inside it."""
    boxes = np.array([one["box"] for one in all_shown]).reshape(-1, 4)
    low, high = boxes[:, :2], boxes[:, 2:]
    shared = np.minimum(high[:, None], high[None]) - np.maximum(low[:, None], low[None])
    layer = np.array(
        [one["layer"] for one in all_shown]
    )  # what lies over others meets only its own
    meets = np.triu((shared > TOUCH_PX).all(axis=2) & (layer[:, None] == layer[None]), k=1)
    pairs = [(all_shown[i], all_shown[j]) for i, j in np.argwhere(meets)]
    return [
        (a, b)
        for a, b in pairs
        if not _number_of_a_mark(a, b) and not _number_of_a_mark(b, a) and not _both_drag(a, b)
    ]


def _both_drag(a: Shown, b: Shown) -> bool:
    """Return whether two are handles: where a build is small on the screen, its corners come near."""
    return all("handle-mark" in one["where"] for one in (a, b))


def _number_of_a_mark(words: Shown, mark: Shown) -> bool:
    """Return whether words are the number, or the letter, that a mark holds."""
    inside = [
        words["box"][k] > mark["box"][k] - 2 and words["box"][k + 2] < mark["box"][k + 2] + 2
        for k in (0, 1)
    ]
    return mark["words"] == "" and words["words"] != "" and all(inside)


def faults(page: Page) -> list[str]:
    """Return in words what is wrong with where the words of a page stand; nothing if all is well."""
    every = shown(page)
    found = [f"'{one['words']}' ({one['where']}) {one['wrong']}" for one in every if one["wrong"]]
    found += [
        f"'{a['words']}' ({a['where']}) meets '{b['words']}' ({b['where']})"
        for a, b in overlaps(every)
    ]
    found += [f"'{one['words']}' ({one['where']}) has no halo" for one in every if not one["halo"]]
    return sorted(set(found))
