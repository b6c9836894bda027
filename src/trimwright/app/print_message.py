"""What the sheet 'print' is told: the papers of a version, their pages, and the files they make."""

from trimwright.app.message import Message


class PageMessage(Message):
    """One page of the packet: its number, what it is called, its size [mm]."""

    number: int
    title: str
    width_mm: float
    height_mm: float


class SheetMessage(Message):
    """One paper: its name, what it is for, its file, its pages; none where it has nothing to say."""

    name: str
    title: str
    says: str
    file: str
    pages: tuple[PageMessage, ...]


class FileMessage(Message):
    """A file that can be fetched: its name, what it is called, what it is for."""

    name: str
    title: str
    says: str


class PanelMessage(Message):
    """A panel with the files that hold its outline at 1:1."""

    title: str
    dxf: str
    svg: str


class PrintMessage(Message):
    """The papers of a version on one size of paper."""

    version: str
    paper: str
    pages: int
    sheets: tuple[SheetMessage, ...]
    files: tuple[FileMessage, ...]
    panels: tuple[PanelMessage, ...]
