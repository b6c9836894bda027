"""Sheet materials: what they weigh, how thick they really are, how large they come."""

from msgspec import Struct

from trimwright.quantities import Doubt, Quantity
from trimwright.stock.table import Row, plain_name, row, rows

_SAME_THICKNESS_MM = 0.05


class Sheet(Struct, frozen=True):
    """A sheet material, with the range of its density [kg/m3] and whether its face has a grain."""

    name: str
    low_kg_m3: float
    high_kg_m3: float
    grained: bool
    source: str

    @property
    def density(self) -> Quantity:
        """Density [kg/m3]: the middle of the range, and no more off than its ends."""
        half = (self.high_kg_m3 - self.low_kg_m3) / 2
        return Quantity(self.low_kg_m3 + half, Doubt("uniform", half, half))


class Thickness(Struct, frozen=True):
    """What a sheet sold at a nominal thickness really measures [mm] and weighs [kg/m3].

    The density counts with the nominal thickness: sheets are weighed, not measured.
    """

    name: str
    nominal_mm: float
    mean_mm: float
    least_mm: float
    most_mm: float
    density_kg_m3: float
    source: str


class Size(Struct, frozen=True):
    """A sheet as sold [mm]; `long_mm` is along the face grain where there is one."""

    name: str
    long_mm: float
    wide_mm: float
    source: str


def sheet(name: str) -> Sheet:
    """Return a sheet material by name.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    Examples
    --------
    >>> sheet("birch plywood").density.value
    685.0
    """
    found = row("sheet", name)
    return Sheet(
        found["name"],
        float(found["low_kg_m3"]),
        float(found["high_kg_m3"]),
        found["grain"] == "yes",
        found["source"],
    )


def thickness(name: str, nominal_mm: float) -> Thickness | None:
    """Return what a sheet of a nominal thickness really measures; None if nobody has printed it.

    Examples
    --------
    >>> thickness("birch plywood", 18.0).mean_mm
    17.7
    >>> thickness("MDF", 18.0) is None
    True
    """
    for one in rows("thickness"):
        near = abs(float(one["nominal_mm"]) - nominal_mm) <= _SAME_THICKNESS_MM
        if near and plain_name(one["name"]) == plain_name(name):
            return _thickness(one)
    return None


def _thickness(printed: Row) -> Thickness:
    """Return a row of the table as figures."""
    return Thickness(
        printed["name"],
        float(printed["nominal_mm"]),
        float(printed["mean_mm"]),
        float(printed["least_mm"]),
        float(printed["most_mm"]),
        float(printed["kg_m3"]),
        printed["source"],
    )


def sizes(name: str) -> tuple[Size, ...]:
    """Return the sheets that a material is sold in; none if nobody has printed them.

    Examples
    --------
    >>> [(size.long_mm, size.wide_mm) for size in sizes("poplar plywood")]
    [(2440.0, 1220.0)]
    """
    return tuple(
        Size(one["name"], float(one["long_mm"]), float(one["wide_mm"]), one["source"])
        for one in rows("size")
        if plain_name(one["name"]) == plain_name(name)
    )
