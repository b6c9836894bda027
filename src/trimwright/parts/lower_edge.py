"""The lower edge of a panel as the resting console and the paper need it."""

from typing import Literal

import numpy as np
from msgspec import Struct

from trimwright.parts.frame import Array, Flags, fixed
from trimwright.parts.scribe import EdgeForm, Line


class LowerEdge(Struct, frozen=True, eq=False):
    """A lower edge in car axes: its lines on both faces, and how they meet the covered tunnel."""

    panel: str
    thickness: float
    form: EdgeForm
    why: str
    longer: Literal["outer", "inner", "neither"]
    outer: Array  # (n, 3) [mm]
    inner: Array  # (n, 3) [mm]
    slope_deg: Array  # (n,) surface against square through the sheet
    visible_gap: Array  # (n,) open at the outer face, up the panel [mm]
    missed: Flags  # (n,) bool: no tunnel under it

    @property
    def points(self) -> Array:
        """Middle of the edge, shape (n, 3) [mm]."""
        return np.asarray((self.outer + self.inner) / 2)


def lower_edge(panel: str, line: Line, outer: Array, inner: Array) -> LowerEdge:
    """Return the lower edge of a finished panel.

    Parameters
    ----------
    panel : str
        Its name.
    line : Line
        The line it was cut to.
    outer, inner : ndarray, shape (n, 3)
        The edge on both faces at matching places, front to rear or left to right [mm].

    Returns
    -------
    LowerEdge
    """
    span = np.ptp(outer, axis=0)
    run = outer[:, 0] if span[0] > span[1] else outer[:, 1]
    return LowerEdge(
        panel,
        line.thickness,
        line.form,
        line.why,
        line.longer,
        fixed(outer),
        fixed(inner),
        fixed(np.interp(run, line.run, line.slope_deg)),
        fixed(np.interp(run, line.run, line.gap)),
        fixed(np.interp(run, line.run, line.missed.astype(np.float64)) > 0.5),  # noqa: PLR2004  nearer row
    )
