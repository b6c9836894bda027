"""The pages 1:1 before anything is drawn: their window, and small pieces side by side in it."""

from msgspec import Struct
from msgspec.structs import replace

from trimwright.build import Build
from trimwright.drawing import Box, Size, frame_box, size_mm
from trimwright.papers.leaf import TRUE_SIZE, Leaf, title_area
from trimwright.papers.piece import Piece

RULE_MM, RIM_MM = 4.0, 4.0  # from the frame to the window: above and left, with the check rules
GAP_MM = 6.0  # between what stands on a page


class Paper(Struct, frozen=True):
    """What pages 1:1 are filed as: kind of paper, its size, the build, what to do with a page."""

    kind: str
    size: Size
    build: Build
    says: str


def blank(part: str, size: Size, paper: Paper) -> Leaf:
    """Return a page 1:1 of a part with nothing on it yet."""
    return Leaf(size, (), part, paper.kind, scale=TRUE_SIZE)


def blanks(part: str, paper: Paper) -> tuple[Leaf, Leaf]:
    """Return a blank page of a part upright and lying."""
    width, height = size_mm(paper.size)
    return blank(part, paper.size, paper), blank(part, (height, width), paper)


def window_box(page: Leaf, build: Build) -> Box:
    """Return the rectangle of a page through which a piece is seen [mm]."""
    box, title = frame_box(page.size), title_area(page, build)
    x, y = box.x + RULE_MM, box.y + RULE_MM
    return Box(x, y, box.right - RIM_MM - x, title.y - y)


class SharedPage(Struct):
    """One page with whole pieces in rows, as it fills up."""

    paper: Paper
    page: Leaf
    placed: list[tuple[Piece, Box]]

    @staticmethod
    def starting_with(piece: Piece, paper: Paper) -> "SharedPage | None":
        """Return a page with its first piece, turned only if it must be; None if it does not fit."""
        for one in (piece, piece.turned):
            for page in blanks("", paper):
                made = SharedPage(paper, page, [])
                if made.takes(one):
                    return made
        return None

    def takes(self, piece: Piece) -> bool:
        """Put a piece on the page if there is room, and say whether there was."""
        names = ", ".join(one.part for one in (*(other for other, _ in self.placed), piece))
        page = replace(self.page, part=names)
        window = window_box(page, self.paper.build)  # a longer list of names leaves less
        boxes = [box for _, box in self.placed]
        place = _place(boxes, (piece.width_mm, piece.height_mm), window)
        if place is None or any(box.bottom > window.bottom for box in boxes):
            return False
        self.page = page
        self.placed.append((piece, place))
        return True


def _place(boxes: list[Box], size: tuple[float, float], window: Box) -> Box | None:
    """Return where a rectangle goes: at the end of the first row with room, or below the last."""
    rows = sorted({box.y for box in boxes})
    for k, top in enumerate(rows):
        row = [box for box in boxes if box.y == top]
        right = max(box.right for box in row) + GAP_MM
        last = k == len(rows) - 1
        foot = window.bottom if last else max(box.bottom for box in row)
        if right + size[0] <= window.right and top + size[1] <= foot:
            return Box(right, top, *size)
    below = max((box.bottom + GAP_MM for box in boxes), default=window.y)
    if size[0] > window.width or below + size[1] > window.bottom:
        return None
    return Box(window.x, below, *size)
