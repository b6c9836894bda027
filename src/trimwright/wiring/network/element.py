"""What stands between two nodes of a circuit."""

from typing import NamedTuple

from msgspec import Struct


class Values(NamedTuple):
    """What one element is in one state; which figures tell depends on its kind.

    Attributes
    ----------
    siemens : float
        Conductance of a resistor, inside a source, or of a lamp at its design voltage [S].
    volts : float
        Of a source without current, a lamp's design voltage, a load's cut-out [V].
    watts : float
        What a constant-power load takes [W].
    most_a : float
        The most current that an alternator gives [A].
    cold_siemens : float
        Conductance of a cold lamp [S].
    """

    siemens: float = 0.0
    volts: float = 0.0
    watts: float = 0.0
    most_a: float = 0.0
    cold_siemens: float = 0.0


def _above_zero(element: str, **figures: float) -> None:
    for name, figure in figures.items():
        if not figure > 0:
            raise ValueError(f"{name} of {element!r} must be above 0, got {figure:g}")


class Element(Struct, frozen=True):
    """What every element has: its name and the nodes at its plus and its minus end."""

    name: str
    plus: str
    minus: str

    def values(self) -> Values:
        """Return what it is in its ordinary state."""
        raise NotImplementedError


class Resistor(Element, frozen=True):
    """A wire, contact, fuse, heater or lamp at one temperature; `ohms` may be inf: open.

    Raises
    ------
    ValueError
        If `ohms` is not above 0: what joins two nodes without resistance makes them one node.
    """

    ohms: float

    def __post_init__(self) -> None:
        """Refuse what has no resistance."""
        _above_zero(self.name, ohms=self.ohms)

    def values(self) -> Values:
        """Return its conductance."""
        return Values(siemens=1 / self.ohms)


class Battery(Element, frozen=True):
    """Volts behind ohms; it takes current in as it gives it out."""

    volts: float
    ohms: float

    def __post_init__(self) -> None:
        """Refuse what has no resistance."""
        _above_zero(self.name, ohms=self.ohms)

    def values(self) -> Values:
        """Return its voltage and the conductance behind which it stands."""
        return Values(siemens=1 / self.ohms, volts=self.volts)


class Alternator(Element, frozen=True):
    """Regulated volts behind ohms, up to a current; it gives that current above, and takes none in.

    Its rectifier holds current back where the network stands above its regulated voltage.
    """

    volts: float
    ohms: float
    most_a: float

    def __post_init__(self) -> None:
        """Refuse what has no resistance or gives nothing."""
        _above_zero(self.name, ohms=self.ohms, most_a=self.most_a)

    def values(self) -> Values:
        """Return its regulated voltage, the conductance behind it and its most current."""
        return Values(siemens=1 / self.ohms, volts=self.volts, most_a=self.most_a)


class Lamp(Element, frozen=True):
    """An incandescent lamp, hot as its voltage makes it.

    Parameters
    ----------
    volts, watts : float
        What it takes at its design voltage.
    cold_ohms : float
        Its resistance without current, which its hot resistance never goes below.

    Raises
    ------
    ValueError
        If a figure is not above 0, or it is higher in resistance cold than at its design voltage.
    """

    volts: float
    watts: float
    cold_ohms: float

    def __post_init__(self) -> None:
        """Refuse what is no lamp."""
        _above_zero(self.name, volts=self.volts, watts=self.watts, cold_ohms=self.cold_ohms)
        hot = self.volts**2 / self.watts
        if self.cold_ohms > hot:
            raise ValueError(
                f"cold_ohms of {self.name!r} must be at most its {hot:g} ohm at {self.volts:g} V, "
                f"got {self.cold_ohms:g}"
            )

    def values(self) -> Values:
        """Return its conductances, at its design voltage and cold."""
        hot = self.watts / self.volts**2
        return Values(siemens=hot, volts=self.volts, cold_siemens=1 / self.cold_ohms)


class ConstantPower(Element, frozen=True):
    """Electronics or an LED driver: the same power at any voltage down to its cut-out.

    Below `cut_out_v` it is off. With 0 it never lets go: its current rises as its voltage falls.
    """

    watts: float
    cut_out_v: float

    def __post_init__(self) -> None:
        """Refuse what gives power."""
        for name, figure in (("watts", self.watts), ("cut_out_v", self.cut_out_v)):
            if not figure >= 0:
                raise ValueError(f"{name} of {self.name!r} must not be below 0, got {figure:g}")

    def values(self) -> Values:
        """Return its power and its cut-out."""
        return Values(volts=self.cut_out_v, watts=self.watts)
