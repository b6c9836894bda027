"""The lower edge of a panel: how it is cut to follow the covered tunnel."""

from typing import Literal

import numpy as np
from msgspec import Struct, field

from trimwright.parts.frame import Array, Flags, fixed

LEVELS = 5  # planes through the thickness that are compared with the surface
SQUARE_BELOW_DEG = 8.0  # flatter than this stays square: 12 mm leaves 1.7 mm, which pile closes
# (common practice, no source)
TOO_SMALL = 1e-6  # mm

EdgeForm = Literal["bevelled", "square"]


class Line(Struct, frozen=True, eq=False):
    """A lower edge along one panel, straight from the outer to the inner face.

    `outer` and `inner` are the heights of the edge's two lines at `run` (x of a wall, y of a
    bulkhead) on the two faces. The gaps are measured up the panel.
    """

    form: EdgeForm
    why: str
    thickness: float
    run: Array  # (m,) rising [mm]
    outer: Array  # (m,) z [mm]
    inner: Array  # (m,) z [mm]
    slope_deg: Array  # (m,) surface against square through the sheet
    gap: Array  # (m,) open at the outer, visible face [mm]
    longer: Literal["outer", "inner", "neither"] = "neither"
    missed: Flags = field(default_factory=lambda: np.zeros(0, dtype=np.bool_))

    def height(self, run: Array, depth_mm: Array | float) -> Array:
        """Return heights of the edge at depths below the outer face.

        Parameters
        ----------
        run : ndarray
            Places along the edge [mm].
        depth_mm : float or ndarray
            Depths [mm], broadcast against the places.

        Returns
        -------
        ndarray
            z [mm].
        """
        share = depth_mm / self.thickness
        low = np.interp(run, self.run, self.outer)
        return np.asarray(low * (1 - share) + np.interp(run, self.run, self.inner) * share)


class Levels(Struct, frozen=True, eq=False):
    """The covered tunnel as several planes through one sheet see it.

    `skew` is how far (run, z) of a point move per mm of depth when it sinks square into the sheet.
    """

    thickness: float
    skew: tuple[float, float]
    run: Array  # (levels, m), each rising [mm]
    height: Array  # (levels, m) z of the surface [mm]
    slope_deg: Array  # (m,)
    missed: Flags  # (m,) bool

    def at(self, level: int, run: Array) -> Array:
        """Heights of the surface in one plane."""
        return np.asarray(np.interp(run, self.run[level], self.height[level]))


def bite(curvature: float, thickness_mm: float, slope_deg: float) -> float:
    """Return how far a straight bevel cuts into a round tunnel half way through the sheet.

    Parameters
    ----------
    curvature : float
        1/radius of the surface across the edge [1/mm], above 0 where it bulges.
    thickness_mm, slope_deg : float
        Of the sheet [mm]; of the surface against square [degrees], below 90.

    Returns
    -------
    float
        Depth of the bite, up the panel [mm]: curvature t^2/(8 cos^3 slope), first order in
        t times curvature.

    Examples
    --------
    >>> round(bite(1 / 130, 12.0, 30.0), 3)
    0.213
    """
    return float(curvature * thickness_mm**2 / (8 * np.cos(np.radians(slope_deg)) ** 3))


def edge_line(levels: Levels, wanted: str, tilt_deg: float) -> Line:
    """Return the lower edge that rests on the surface and nowhere passes under it.

    Parameters
    ----------
    levels : Levels
        The surface in `LEVELS` planes, outer face first.
    wanted : {'bevelled', 'square', 'as suits'}
        What the builder asked for. A bevel the saw cannot tilt to is cut square, and 'as suits'
        is square where the surface is nearly square to the sheet; `why` says so.
    tilt_deg : float
        Largest tilt of the saw [degrees].

    Returns
    -------
    Line
        A bevel is raised until its middle clears a bulging surface.
    """
    form, why = _form(levels, wanted, tilt_deg)
    line = _bevelled(levels) if form == "bevelled" else _square(levels)
    run, outer, inner = line
    seen = levels.at(0, run)
    far = levels.at(LEVELS - 1, run) - seen
    lean = float(np.median(far)) if far.size else 0.0
    longer: Literal["outer", "inner", "neither"] = "outer" if lean > 0 else "inner"
    near = np.interp(run, levels.run[LEVELS // 2], levels.missed.astype(np.float64))
    return Line(
        form,
        why,
        levels.thickness,
        fixed(run),
        fixed(outer),
        fixed(inner),
        fixed(np.interp(run, levels.run[LEVELS // 2], levels.slope_deg)),
        fixed(np.maximum(outer - seen, 0.0)),
        longer if form == "bevelled" and abs(lean) > TOO_SMALL else "neither",
        fixed(near > 0.5),  # noqa: PLR2004  nearer row
    )


def _form(levels: Levels, wanted: str, tilt_deg: float) -> tuple[EdgeForm, str]:
    """Return how the edge is cut and why."""
    met = ~levels.missed
    steepest = float(levels.slope_deg[met].max()) if met.any() else 0.0
    if not met.any():
        return "square", "it meets no tunnel"
    if wanted == "square":
        return "square", "asked for"
    if steepest > tilt_deg:
        return "square", f"{steepest:.0f} degrees is beyond the saw's tilt of {tilt_deg:.0f}"
    if wanted == "as suits" and steepest < SQUARE_BELOW_DEG:
        gap = levels.thickness * float(np.tan(np.radians(steepest)))
        return "square", f"the surface is within {steepest:.0f} degrees of square: {gap:.1f} mm"
    return "bevelled", f"follows the surface, {steepest:.0f} degrees at most"


def _bevelled(levels: Levels) -> tuple[Array, Array, Array]:
    """Both lines on the surface, raised by what a straight edge between them would bite."""
    run = levels.run[LEVELS // 2]
    heights = np.stack([levels.at(k, run) for k in range(LEVELS)])
    share = np.linspace(0.0, 1.0, LEVELS)[:, None]
    straight = heights[0] * (1 - share) + heights[-1] * share
    raised = (heights - straight).max(axis=0)
    return run, heights[0] + raised, heights[-1] + raised


def _square(levels: Levels) -> tuple[Array, Array, Array]:
    """One line square through the sheet, as high as the highest plane asks."""
    depth = np.linspace(0.0, levels.thickness, LEVELS)
    skew_run, skew_z = levels.skew
    run = levels.run[0]
    asked = [levels.at(k, run + skew_run * w) - skew_z * w for k, w in enumerate(depth)]
    edge = np.max(asked, axis=0)
    t = levels.thickness
    inner = np.interp(run - skew_run * t, run, edge) + skew_z * t
    return run, edge, inner
