"""The papers of a build as the server keeps them: drawn once for a text and a size of paper."""

from functools import cached_property, lru_cache
from pathlib import Path
from typing import Literal

from msgspec import Struct

from trimwright.app.standing import NotDoneError
from trimwright.build import Loaded, Version, album, parse
from trimwright.cabin import Cabin, cabin
from trimwright.checks import all_findings
from trimwright.drawing import Document, Page, pdf
from trimwright.findings import Finding
from trimwright.papers import Beside, files, listed, packet

Paper = Literal["A4", "Letter"]
Seen = tuple[tuple[str, int, int], ...]
Steps = tuple[tuple[Version, ...], int]  # the history, and which of it the text is
KEPT = 4  # texts and sizes that a session prints


@lru_cache(maxsize=KEPT)
def shop_paper(text: str, size: Paper, steps: Steps, path: Path, seen: Seen) -> "ShopPaper":
    """Return the papers of a text, those kept if it was printed before with the same pictures."""
    return ShopPaper(text, size, steps, path, seen)


class ShopPaper(Struct, frozen=True, dict=True):
    """Every paper of one text on one size, each drawn when first asked for.

    The same text written elsewise is another paper: sheets show figures as typed. `path` is its
    file, beside which its pictures lie; `seen` is what they were when it was asked for.
    """

    text: str
    size: Paper
    steps: Steps
    path: Path
    seen: Seen

    @cached_property
    def _loaded(self) -> Loaded:
        return parse(self.text)

    @cached_property
    def _cabin(self) -> Cabin:
        return cabin(self._loaded.build)

    @cached_property
    def _findings(self) -> tuple[Finding, ...]:
        return all_findings(self._cabin)

    @cached_property
    def _beside(self) -> Beside:
        versions, at = self.steps
        last = versions[at] if at < len(versions) else None
        return Beside(versions, album(self._loaded, self.path), last)

    @cached_property
    def documents(self) -> dict[str, Document]:
        """The sheets that have pages, by name."""
        return packet(self._cabin, self._findings, self.size, last=self._beside.last)

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The names of the files that the verb 'print' writes, in the order of the work."""
        return listed(self._cabin, self.documents)

    @cached_property
    def files(self) -> dict[str, bytes]:
        """Those files by name."""
        one, found = self._cabin, self._findings
        return files(one, found, self.documents, self.size, self._beside)

    @property
    def pages(self) -> tuple[Page, ...]:
        """Every page of the packet in order."""
        return tuple(page for one in self.documents.values() for page in one.pages)

    def together(self, names: tuple[str, ...]) -> bytes:
        """Return some sheets as one PDF, pages numbered as in the whole packet.

        Raises
        ------
        NotDoneError
            If a name is no sheet that has pages, or none is given.
        """
        unknown = [name for name in names if name not in self.documents]
        if unknown or not names:
            told = ", ".join(self.documents)
            raise NotDoneError(f"Choose of the sheets that have pages: {told}.")
        chosen = [one for name, one in self.documents.items() if name in names]
        pages = tuple(page for one in chosen for page in one.pages)
        return pdf(Document(pages, chosen[0].name.split(":")[0], ""))
