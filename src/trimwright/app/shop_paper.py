"""The papers of a build as the server keeps them: drawn once for a text and a size of paper."""

from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Literal

from trimwright.app.standing import NotDoneError
from trimwright.build import Version, parse
from trimwright.cabin import Cabin, cabin
from trimwright.checks import all_findings
from trimwright.drawing import Document, Page, pdf
from trimwright.findings import Finding
from trimwright.papers import files, listed, packet

Paper = Literal["A4", "Letter"]
KEPT = 4  # texts and sizes that a session prints


@lru_cache(maxsize=KEPT)
def shop_paper(text: str, size: Paper, versions: tuple[Version, ...]) -> "ShopPaper":
    """Return the papers of a text, those kept if it was printed before."""
    return ShopPaper(text, size, versions)


@dataclass(frozen=True)
class ShopPaper:
    """Every paper of one text on one size, each drawn when first asked for.

    The same text written elsewise is another paper: sheets show figures as typed.
    """

    text: str
    size: Paper
    versions: tuple[Version, ...]

    @cached_property
    def _cabin(self) -> Cabin:
        return cabin(parse(self.text).build)

    @cached_property
    def _findings(self) -> tuple[Finding, ...]:
        return all_findings(self._cabin)

    @cached_property
    def documents(self) -> dict[str, Document]:
        """The sheets that have pages, by name."""
        return packet(self._cabin, self._findings, self.size)

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The names of the files that the verb 'print' writes, in the order of the work."""
        return listed(self._cabin, self.documents)

    @cached_property
    def files(self) -> dict[str, bytes]:
        """Those files by name."""
        one, found = self._cabin, self._findings
        return files(one, found, self.documents, self.size, self.versions)

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
