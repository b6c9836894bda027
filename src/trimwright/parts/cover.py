"""What a cover adds to a face, and takes from an opening it is turned into."""

from typing import Literal

from msgspec import Struct

from trimwright.build import Build
from trimwright.quantities import Quantity

CoveredFace = Literal["deck", "walls"]


class CoverStack(Struct, frozen=True):
    """The cover of a face: foam on the wood, leather (vinyl, cloth) over it [mm].

    Only the leather turns round an edge or into an opening; foam stops at it.
    """

    face: CoveredFace
    foam: Quantity
    leather: Quantity

    @property
    def thickness_mm(self) -> float:
        """What the cover adds on the face [mm]."""
        return self.foam.value + self.leather.value

    @property
    def turned_in_mm(self) -> float:
        """What one layer of leather adds on an edge it is turned round [mm]."""
        return self.leather.value


def cover_stack(build: Build, face: CoveredFace) -> CoverStack:
    """Return the cover of a face of the console.

    Parameters
    ----------
    build : Build
        The build.
    face : {'deck', 'walls'}
        Which face.

    Returns
    -------
    CoverStack
    """
    cover = build.covers.deck if face == "deck" else build.covers.walls
    return CoverStack(face, cover.foam, cover.leather)


def bare_opening(wanted_mm: float, turned_in_mm: float) -> float:
    """Return what an opening must measure in bare wood, so that it is right once covered.

    Parameters
    ----------
    wanted_mm : float
        Size wanted after covering [mm].
    turned_in_mm : float
        Thickness of what is turned in at each of both edges [mm].

    Returns
    -------
    float
        Size before covering [mm].

    Examples
    --------
    >>> round(bare_opening(22.3, 1.2), 3)
    24.7
    """
    return wanted_mm + 2 * turned_in_mm
