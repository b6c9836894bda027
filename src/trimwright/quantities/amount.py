"""The kinds of figure a builder writes, each with its units."""

from fractions import Fraction

from trimwright.quantities.fault import QuantityError
from trimwright.quantities.number import number
from trimwright.quantities.quantity import Quantity, Unit
from trimwright.quantities.reading import Kind, quantity
from trimwright.quantities.spelling import plain

# Exact by definition [yard-pound-1959]: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg;
# standard gravity 9.806 65 m/s2 [cgpm-1901].
INCH_MM = Fraction(254, 10)
POUND_KG = Fraction(45_359_237, 100_000_000)
GRAVITY = Fraction(980_665, 100_000)
POUND_FORCE_N = POUND_KG * GRAVITY
FOOT_M = INCH_MM * 12 / 1000


def _named(*spelled: tuple[Fraction | int, str]) -> dict[str, Fraction]:
    """Return units by spelling, from lines of spellings parted by '|'."""
    return {name: Fraction(size) for size, names in spelled for name in names.split("|")}


_LENGTH = Kind(
    "a length",
    "3/4 in, or 12.5 mm",
    _named(
        (1, "mm|millimetre|millimetres|millimeter|millimeters"),
        (10, "cm|centimetre|centimetres|centimeter|centimeters"),
        (1000, "m|metre|metres|meter|meters"),
        (INCH_MM, 'in|"|inch|inches'),
        (INCH_MM * 12, "ft|'|foot|feet"),
        (INCH_MM / 1000, "thou"),
    ),
    Fraction(20_000),
    "20 m",
)
_MASS = Kind(
    "a mass",
    "5 kg, or 11 lb",
    _named(
        (1, "kg|kilo|kilos|kilogram|kilograms"),
        (Fraction(1, 1000), "g|gram|grams"),
        (POUND_KG, "lb|lbs|pound|pounds"),
        (POUND_KG / 16, "oz|ounce|ounces"),
    ),
    Fraction(10_000),
    "10 000 kg",
)
_FORCE = Kind(
    "a force",
    "200 N, or 45 lbf",
    _named(
        (1, "n|newton|newtons"),
        (1000, "kn"),
        (GRAVITY, "kgf"),
        (POUND_FORCE_N, "lbf"),
    ),
    Fraction(1_000_000),
    "1000 kN",
)
_ANGLE = Kind("an angle", "3 deg", _named((1, "deg|°|degree|degrees")), Fraction(360), "360 deg")
_PRESSURE = Kind(
    "a pressure",
    "200 kPa, or 30 psi",
    _named(
        (1, "kpa"),
        (Fraction(1, 1000), "pa"),
        (100, "bar"),
        (Fraction(1, 10), "mbar"),
        (1000, "n/mm2|n/mm²|mpa"),
        (10, "n/cm2|n/cm²"),
        (POUND_FORCE_N / INCH_MM**2 * 1000, "psi|lbf/in2|lbf/in²"),
    ),
    Fraction(1_000_000),
    "1 000 000 kPa",
)
_TORQUE = Kind(
    "a torque",
    "4 N m, or 35 in lbf",
    _named(
        (1, "n m|nm|n-m|newton metre|newton metres"),
        (Fraction(1, 100), "n cm|ncm"),
        (POUND_FORCE_N * FOOT_M, "ft lb|ft-lb|lb ft|lb-ft|ft lbf|lbf ft|ft-lbf|lbf-ft"),
        (POUND_FORCE_N * FOOT_M / 12, "in lb|in-lb|lb in|lb-in|in lbf|lbf in|in-lbf|lbf-in"),
    ),
    Fraction(10_000),
    "10 000 N m",
)
_DENSITY = Kind(
    "a density",
    "680 kg/m3, or 42 lb/ft3",
    _named(
        (1, "kg/m3|kg/m³"),
        (1000, "g/cm3|g/cm³"),
        (POUND_KG / FOOT_M**3, "lb/ft3|lb/ft³"),
    ),
    Fraction(25_000),
    "25 000 kg/m3",
)
_SHARE = Kind(
    "a share", "95 %", _named((Fraction(1, 100), "%|percent|per cent")), Fraction(1), "100 %"
)
_TIME = Kind(
    "a time",
    "1.5 h, or 90 min",
    _named((1, "h|hr|hrs|hour|hours"), (Fraction(1, 60), "min|mins|minute|minutes")),
    Fraction(1000),
    "1000 h",
)
_COUNT = Kind(
    "a whole number", "4", _named((1, "off|pieces|piece|pcs")), Fraction(1_000_000), "1 000 000"
)


_PRICE = Kind(
    "a price, a plain figure in your own money",
    "1.20",
    _named((1, "each")),
    Fraction(1_000_000),
    "1 000 000",
)


def length(text: str, unit: Unit, *, spoken: str | None = None) -> Quantity:
    """Return a written length [mm]; a bare number is in `unit`.

    Parameters
    ----------
    text : str
        As people and phones write it: '3/4 in', '1-1/2"', '6 ft 2 1/2 in', '12,5 mm ± 1', '20 +3/-1'.
    unit : {'mm', 'in'}
        The unit of a bare number. A bare doubt takes the unit of its figure.
    spoken : str, optional
        The part of `text` that holds the figure, where other words stood round it.

    Raises
    ------
    QuantityError
        If it is no length, is over 20 m, carries a sign, or can be read in two ways.

    References
    ----------
    yard-pound-1959

    Examples
    --------
    >>> length('1½"', "mm").value
    38.1
    >>> length("19 ± 2", "mm").doubt
    Doubt(kind='normal', minus=2.0, plus=2.0)
    """
    return quantity(text, _LENGTH, unit, spoken=spoken)


def mass(text: str, unit: Unit = "mm") -> Quantity:
    """Return a written mass [kg]; it must name its unit. `unit` says which one is likelier.

    Raises
    ------
    QuantityError
        If it is no mass, or bare.

    Examples
    --------
    >>> mass("5 lb").value
    2.26796185
    """
    return quantity(text, _MASS, offered=("kg", "lb") if unit == "mm" else ("lb", "kg"))


def force(text: str) -> Quantity:
    """Return a written force [N]; it must name its unit.

    Examples
    --------
    >>> round(force("45 lbf").value, 3)
    200.17
    """
    return quantity(text, _FORCE, offered=("N", "lbf"))


def angle(text: str, *, spoken: str | None = None) -> Quantity:
    """Return a written angle [deg]; it must name its unit. `spoken` is as for `length`.

    Examples
    --------
    >>> angle("3° ± 0.5").value
    3.0
    """
    return quantity(text, _ANGLE, offered=("deg",), spoken=spoken)


def pressure(text: str) -> Quantity:
    """Return a written pressure [kPa]; it must name its unit.

    Examples
    --------
    >>> round(pressure("30 psi").value, 3)
    206.843
    """
    if "mPa" in text:  # the one unit here whose case tells milli from mega
        raise QuantityError(text, "a pressure in kPa or MPa", _PRESSURE.example)
    return quantity(text, _PRESSURE, offered=("kPa", "psi"))


def torque(text: str) -> Quantity:
    """Return a written torque [N m]; it must name its unit.

    Examples
    --------
    >>> round(torque("35 in lbf").value, 3)
    3.954
    """
    return quantity(text, _TORQUE, offered=("N m", "lb ft"))


def density(text: str) -> Quantity:
    """Return a written density [kg/m3]; it must name its unit.

    Examples
    --------
    >>> density("0.68 g/cm3").value
    680.0
    """
    return quantity(text, _DENSITY, offered=("kg/m3", "lb/ft3"))


def share(text: str) -> Quantity:
    """Return a written share, from 0 to 1; it must say per cent.

    Examples
    --------
    >>> share("95 %").value
    0.95
    """
    bare = number(plain(text))
    if bare is not None:
        of_one = (f"{float(100 * bare):g} %",) if bare <= 1 else ()
        raise QuantityError(text, "a share in per cent", "95 %", (f"{plain(text)} %", *of_one))
    return quantity(text, _SHARE)


def hours(text: str) -> Quantity:
    """Return a written time [h]; it must name its unit.

    Examples
    --------
    >>> hours("90 min").value
    1.5
    """
    return quantity(text, _TIME, offered=("h", "min"))


def count(text: str) -> Quantity:
    """Return a written whole number.

    Raises
    ------
    QuantityError
        If it is not a whole number.

    Examples
    --------
    >>> count("4").value
    4.0
    """
    found = quantity(text, _COUNT, "pieces")
    if not found.value.is_integer():
        raise QuantityError(text, _COUNT.expected, _COUNT.example)
    return found


def price(text: str) -> Quantity:
    """Return a written price, without a currency: whatever money the builder counts in.

    Examples
    --------
    >>> price("1.20").value
    1.2
    """
    return quantity(text, _PRICE, "each")
