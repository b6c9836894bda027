"""What may be off, and by how much at a given score."""

from typing import Literal

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.quantities import Doubt

Kind = Literal["reading", "set-up", "between sections", "assumed", "model"]


class Factor(Struct, frozen=True):
    """One independent source of doubt.

    Parameters
    ----------
    key : str
        Dotted path in the build, or 'set-up:...', 'between sections:...', 'model:...'.
    says : str
        The factor in the builder's words: 'dash height at the datum'.
    doubt : Doubt
        How far off it may be, in the unit of the figure, here and throughout mm unless it says.
    kind : {'reading', 'set-up', 'between sections', 'assumed', 'model'}
        Where the doubt comes from.
    minutes : float
        Effort of reading it again [min]; 0 where it cannot be read.
    again : float
        19-to-1 half width of a second, independent reading, in the unit of the figure.

    Raises
    ------
    ValueError
        If the key is empty, or `minutes` or `again` is negative.
    """

    key: str
    says: str
    doubt: Doubt
    kind: Kind
    minutes: float
    again: float

    def __post_init__(self) -> None:
        """Refuse a factor that cannot be found or has a negative effort or width."""
        if not self.key:
            raise ValueError("key must not be empty")
        for name, figure in (("minutes", self.minutes), ("again", self.again)):
            if not figure >= 0:
                raise ValueError(f"{name} must be 0 or more, got {figure:g}")


class Ledger(Struct, frozen=True):
    """All factors of a build, in the order of the columns of its score rows.

    Raises
    ------
    ValueError
        If two factors share a key: one cause must not be counted as two independent ones.

    Examples
    --------
    >>> doubt = Doubt("normal", 2.0, 2.0)
    >>> ledger = Ledger((Factor("car.deck", "deck height", doubt, "reading", 2.0, 1.0),))
    >>> ledger.index("car.deck"), len(ledger)
    (0, 1)
    >>> ledger.deviations(np.array([[0.0], [1.5]]))
    array([[0. ],
           [1.5]])
    """

    factors: tuple[Factor, ...]

    def __post_init__(self) -> None:
        """Refuse a key that stands twice."""
        seen: set[str] = set()
        for factor in self.factors:
            if factor.key in seen:
                raise ValueError(f"factors must have different keys, got {factor.key!r} twice")
            seen.add(factor.key)

    def __len__(self) -> int:
        """Return the number of factors."""
        return len(self.factors)

    def index(self, key: str) -> int:
        """Return the column of the factor with this key.

        Raises
        ------
        ValueError
            If no factor has it.
        """
        for column, factor in enumerate(self.factors):
            if factor.key == key:
                return column
        raise ValueError(f"key must be one of the ledger's, got {key!r}")

    def deviations(self, scores: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return how far each factor is off in each row.

        Parameters
        ----------
        scores : ndarray, shape (rows, factors)
            Standard normal scores. A row of zeros stands for the figures as written, so its
            deviations are 0 even for a lopsided doubt, whose median is not the written figure.

        Returns
        -------
        ndarray, shape (rows, factors)
            Deviations, each in its factor's unit.

        Raises
        ------
        ValueError
            If the columns are not the ledger's.
        """
        if scores.ndim != 2 or scores.shape[1] != len(self):  # noqa: PLR2004  rows x factors
            raise ValueError(f"scores must have {len(self)} columns, got shape {scores.shape}")
        off = scores * np.array([factor.doubt.sigma for factor in self.factors])
        for column, factor in enumerate(self.factors):
            if factor.doubt.kind != "normal":
                off[:, column] = factor.doubt.deviation(scores[:, column])
        off[~scores.any(axis=1)] = 0.0
        return np.asarray(off)
