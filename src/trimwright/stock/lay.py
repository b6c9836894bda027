"""How wires are laid: thinnest allowed, how bundles warm, how they bend and flex, their colours."""

from msgspec import Struct

from trimwright.stock.table import row, rows


class Factor(Struct, frozen=True):
    """A printed figure without a unit, and where it is printed."""

    name: str
    value: float
    source: str


class BundleFactor(Struct, frozen=True):
    """With that many loaded wires together, each may carry that share of a wire alone."""

    wires: int
    factor: float
    source: str


class LeastArea(Struct, frozen=True):
    """The smallest cross-section [mm2] for the sake of strength."""

    name: str
    area_mm2: float
    source: str


def bundle_factors() -> tuple[BundleFactor, ...]:
    """Return the factors by rising number of wires, each as a share of what a wire alone carries.

    The source prints those above three wires as a share of what three carry.

    References
    ----------
    vde-0298-4-2023

    Examples
    --------
    >>> [(one.wires, round(one.factor, 4)) for one in bundle_factors()[:3]]
    [(3, 0.75), (5, 0.5625), (7, 0.4875)]
    """
    found: list[BundleFactor] = []
    alone = {"a wire alone": 1.0}
    for one in rows("bundle_factor"):
        share = float(one["factor"]) * alone[one["of"]]
        alone[one["name"]] = share
        found.append(BundleFactor(int(one["wires"]), share, one["source"]))
    return tuple(sorted(found, key=lambda one: one.wires))


def bend(name: str) -> Factor:
    """Return the tightest bend, as a multiple of the diameter: of a 'bundle' or 'single wire'.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    Examples
    --------
    >>> bend("bundle").value
    10.0
    """
    found = row("bend", name)
    return Factor(found["name"], float(found["times"]), found["source"])


def bend_moving(diameter_mm: float) -> Factor:
    """Return the tightest bend of a cable that moves freely, as a multiple of its diameter.

    Parameters
    ----------
    diameter_mm : float
        Outside diameter [mm], above 0.

    Raises
    ------
    ValueError
        If the diameter is not above 0.

    References
    ----------
    cable-bending-table

    Examples
    --------
    >>> bend_moving(8.0).value, bend_moving(12.1).value
    (5.0, 6.0)
    """
    if not diameter_mm > 0:
        raise ValueError(f"diameter_mm must be above 0, got {diameter_mm:g}")
    found = next(one for one in rows("bend_moving") if diameter_mm <= float(one["to_mm"]))
    return Factor(found["name"], float(found["times"]), found["source"])


def flex_strand(area_mm2: float) -> Factor:
    """Return the thickest strand [mm] of a flexible conductor of an area.

    Parameters
    ----------
    area_mm2 : float
        Cross-section [mm2]; between two sizes that of the larger counts.

    Raises
    ------
    ValueError
        If the area is beyond the table.

    References
    ----------
    iec-60228-2004

    Examples
    --------
    >>> flex_strand(2.5).value, flex_strand(2.6).value
    (0.26, 0.31)
    """
    for one in rows("flex"):
        if area_mm2 <= float(one["to_mm2"]):
            return Factor(one["name"], float(one["strand_mm"]), one["source"])
    raise ValueError(f"area_mm2 must be within the table, got {area_mm2:g}")


def least_area(name: str) -> LeastArea:
    """Return the smallest area of a 'wire on its own' or a 'wire in a sheath'.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    Examples
    --------
    >>> least_area("wire in a sheath").area_mm2
    0.75
    """
    found = row("least_area", name)
    return LeastArea(found["name"], float(found["area_mm2"]), found["source"])


def standby_figure(name: str) -> Factor:
    """Return a figure about a battery that stands.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    Examples
    --------
    >>> standby_figure("share that leaves no start").value
    0.4
    """
    found = row("standby", name)
    return Factor(found["name"], float(found["value"]), found["source"])


def colours() -> dict[str, str]:
    """Return the name of every colour by its code.

    References
    ----------
    iec-60757-1983

    Examples
    --------
    >>> colours()["BN"]
    'brown'
    """
    return {one["code"]: one["name"] for one in rows("colour")}
