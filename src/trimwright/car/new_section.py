"""Where one more section of the tunnel would tell most."""

from msgspec import Struct

from trimwright.car.skin import Tunnel


class NewSection(Struct, frozen=True):
    """A place for a section more: `at_mm` along, and the doubt [mm] that it would do away with.

    `gap` numbers the sections before it; -1 where the tunnel was read at one place only, and its
    doubt is then not known.
    """

    at_mm: float
    doubt_mm: float | None
    gap: int


def worth_a_section(
    tunnel: Tunnel, between: tuple[float, float], shares: tuple[float, ...] | None = None
) -> tuple[NewSection, ...]:
    """Return where a new section helps, the best place first.

    Parameters
    ----------
    tunnel : Tunnel
        The tunnel as lofted.
    between : (float, float)
        The part of the car that matters [mm along]: the console's two ends.
    shares : tuple of float, optional
        Share of each gap between sections in what is asked; without it the doubt itself decides.

    Raises
    ------
    ValueError
        If `shares` are not one for each gap.
    """
    stations = tunnel.loft.stations
    if len(stations) == 1:
        # the nearer to the datum first: dash and lever are there, and two sections run on a little
        ends = sorted(between, key=lambda end: (abs(end), end))
        return tuple(NewSection(end, None, -1) for end in ends)
    weights = tuple(float(one) for one in tunnel.doubts) if shares is None else shares
    if len(weights) != len(tunnel.doubts):
        raise ValueError(f"shares must be {len(tunnel.doubts)}, one a gap, got {len(weights)}")
    found = [
        (weight, NewSection(float(a + b) / 2, float(doubt), gap))
        for gap, (a, b, doubt, weight) in enumerate(
            zip(stations[:-1], stations[1:], tunnel.doubts, weights, strict=True)
        )
        if b > between[0] and a < between[1] and doubt > 0
    ]
    found.sort(key=lambda one: (-one[0], one[1].gap))
    return tuple(one for _, one in found)
