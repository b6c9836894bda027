"""Ways of measuring, and what the tools themselves may be off."""

from msgspec import Struct

from trimwright.quantities import Doubt
from trimwright.stock.table import row, rows


class Way(Struct, frozen=True):
    """A way of measuring, and the doubt it has when none is written.

    Parameters
    ----------
    name : str
        What the builder calls it.
    doubt_mm : float
        19-to-1 half width [mm] of one reading, however often the tool is set up.
    setup_mm : float
        19-to-1 half width [mm] that all readings of one set-up share.
    minutes : float
        Time for one reading [min], set-up included.
    tool : str
        The tool that limits it, in `tool_error`.
    source : str
        Source id.
    """

    name: str
    doubt_mm: float
    setup_mm: float
    minutes: float
    tool: str
    source: str

    @property
    def doubt(self) -> Doubt:
        """Doubt of one reading: normal."""
        return Doubt("normal", self.doubt_mm, self.doubt_mm)

    @property
    def setup(self) -> Doubt:
        """Doubt that all readings of one set-up share: normal."""
        return Doubt("normal", self.setup_mm, self.setup_mm)


def way(name: str) -> Way:
    """Return a way of measuring by name.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    Examples
    --------
    >>> way("contour gauge").doubt_mm
    1.0
    """
    found = row("reading", name)
    return Way(
        found["name"],
        float(found["doubt_mm"]),
        float(found["setup_mm"]),
        float(found["minutes"]),
        found["tool"],
        found["source"],
    )


def ways() -> tuple[Way, ...]:
    """Return every way of measuring, as the table orders them.

    Examples
    --------
    >>> ways()[0].name
    'tape'
    """
    return tuple(way(one["name"]) for one in rows("reading"))


def tool_error(name: str, length_mm: float) -> float:
    """Return the largest error [mm] that a tool of its class may have over a length.

    Parameters
    ----------
    name : str
        Tool, as 'class II tape'.
    length_mm : float
        Length measured [mm], from 0 to the tool's own; counted in whole metres, rounded up.

    Raises
    ------
    ValueError
        If the tool is not in the table, or is too short.

    References
    ----------
    measures-2014-32-eu, din-862

    Examples
    --------
    >>> tool_error("class II tape", 4200.0)
    1.3
    """
    found = row("tool", name)
    longest = float(found["longest_mm"])
    if not 0 <= length_mm <= longest:
        raise ValueError(f"length_mm must be from 0 to {longest:g}, got {length_mm:g}")
    # a + b L: a, b by class [mm, mm/m]; L rounded up to the next whole metre
    metres = -(-length_mm // 1000)
    return float(found["fixed_mm"]) + float(found["per_m_mm"]) * metres
