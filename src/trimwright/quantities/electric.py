"""The kinds of electrical figure a builder writes, each with its units."""

import re
from fractions import Fraction
from math import pi

from trimwright.quantities.fault import QuantityError
from trimwright.quantities.number import number
from trimwright.quantities.quantity import Quantity
from trimwright.quantities.reading import Kind, quantity
from trimwright.quantities.spelling import plain

MILLI = Fraction(1, 1000)
_CURRENT = Kind(
    "a current",
    "8 A, or 20 mA",
    {"a": Fraction(1), "amp": Fraction(1), "amps": Fraction(1), "ma": MILLI},
    Fraction(3000),
    "3000 A",
)
_VOLTAGE = Kind(
    "a voltage",
    "12.6 V",
    {"v": Fraction(1), "volt": Fraction(1), "volts": Fraction(1), "mv": MILLI},
    Fraction(60),
    "60 V: beyond that, wiring is work for licensed people",
)
_POWER = Kind(
    "a power",
    "55 W",
    {"w": Fraction(1), "watt": Fraction(1), "watts": Fraction(1)},
    Fraction(5000),
    "5000 W",
)
_RESISTANCE = Kind(
    "a resistance",
    "85 ohm, or 8 mohm",
    {
        **dict.fromkeys(("ohm", "ohms", "ω"), Fraction(1)),
        **dict.fromkeys(("mohm", "mω"), MILLI),
        **dict.fromkeys(("kohm", "kω"), Fraction(1000)),
    },
    Fraction(1_000_000),
    "1000 kohm",
)
_CHARGE = Kind("a capacity", "60 Ah", {"ah": Fraction(1)}, Fraction(1000), "1000 Ah")
_TIME = Kind(
    "a time",
    "0.5 s, or 2 min",
    {
        **dict.fromkeys(("s", "sec", "second", "seconds"), Fraction(1)),
        "ms": MILLI,
        **dict.fromkeys(("min", "minute", "minutes"), Fraction(60)),
        **dict.fromkeys(("h", "hour", "hours"), Fraction(3600)),
        **dict.fromkeys(("d", "day", "days"), Fraction(86_400)),
    },
    Fraction(86_400 * 365),
    "a year",
)
_WARMTH = Kind(
    "a temperature",
    "105 C",
    dict.fromkeys(("c", "°c", "deg c"), Fraction(1)),
    Fraction(300),
    "300 C",
)
_AREA = Kind(
    "a wire size",
    "1.5 mm2, or 16 AWG",
    dict.fromkeys(("mm2", "mm²", "sq mm"), Fraction(1)),
    Fraction(150),
    "150 mm2",
)
_GAUGE = re.compile(r"(?P<gauge>\d{1,2}|0{2,4}|[1-4]/0) *(?:awg|gauge|ga)", re.IGNORECASE)
_FINEST, _LARGEST = 36, -3


def current(text: str) -> Quantity:
    """Return a written current [A]; it must name its unit.

    Raises
    ------
    QuantityError
        If it is no current, or bare.

    Examples
    --------
    >>> current("20 mA").value
    0.02
    """
    return quantity(text, _CURRENT, offered=("A",))


def voltage(text: str) -> Quantity:
    """Return a written voltage [V]; it must name its unit.

    Examples
    --------
    >>> voltage("12.6 V").value
    12.6
    """
    return quantity(text, _VOLTAGE, offered=("V",))


def meter_voltage(text: str) -> Quantity:
    """Return a voltage as a meter shows it [V]: below 0 with its probes the other way round.

    Raises
    ------
    QuantityError
        If it is no voltage, or bare.

    Examples
    --------
    >>> meter_voltage("-0,4 V").value, meter_voltage("\u2212120 mV").value
    (-0.4, -0.12)
    """
    spoken = plain(text)
    size = spoken.removeprefix("-").lstrip()
    if size == spoken:
        return voltage(text)
    try:
        found = quantity(text, _VOLTAGE, offered=("V",), spoken=size)
    except QuantityError as error:
        meant = tuple(f"-{one}" for one in error.readings)
        raise QuantityError(text, error.expected, error.example, meant) from error
    return Quantity(0.0 - found.value, found.doubt, found.text)


def power(text: str) -> Quantity:
    """Return a written power [W]; it must name its unit.

    Examples
    --------
    >>> power("55 W").value
    55.0
    """
    return quantity(text, _POWER, offered=("W",))


def resistance(text: str) -> Quantity:
    """Return a written resistance [ohm]; it must name its unit.

    Examples
    --------
    >>> resistance("8 mΩ").value
    0.008
    """
    return quantity(text, _RESISTANCE, offered=("ohm", "mohm"))


def charge(text: str) -> Quantity:
    """Return a written capacity [Ah]; it must name its unit.

    Examples
    --------
    >>> charge("60 Ah").value
    60.0
    """
    return quantity(text, _CHARGE, offered=("Ah",))


def duration(text: str) -> Quantity:
    """Return a written time [s]; it must name its unit.

    Examples
    --------
    >>> duration("2 min").value
    120.0
    """
    return quantity(text, _TIME, offered=("s", "min"))


def warmth(text: str) -> Quantity:
    """Return a written temperature [degrees C]; it must name its unit.

    Examples
    --------
    >>> warmth("105 °C").value
    105.0
    """
    return quantity(text, _WARMTH, offered=("C",))


def wire_size(text: str) -> Quantity:
    """Return a written wire size as the area of its copper [mm2]: '1.5 mm2', '16 AWG', '2/0 AWG'.

    Raises
    ------
    QuantityError
        If it is no size, bare, or no whole gauge from 36 to 4/0.

    References
    ----------
    The American wire gauge is defined by d = 0.127 mm x 92^((36 - n)/39).

    Examples
    --------
    >>> round(wire_size("10 AWG").value, 4)
    5.2612
    >>> wire_size("2,5 mm²").value
    2.5
    """
    found = _GAUGE.fullmatch(plain(text))
    if found is None:
        bare = number(plain(text))
        if bare is not None and bare >= 6:  # noqa: PLR2004  a bare 16 is as likely a gauge
            raise QuantityError(
                text, "a wire size with its unit", _AREA.example, (f"{text} mm2", f"{text} AWG")
            )
        return quantity(text, _AREA, offered=("mm2",))
    word = found["gauge"]
    gauge = 1 - int(word[0]) if "/" in word else 1 - len(word) if set(word) == {"0"} else int(word)
    if not _LARGEST <= gauge <= _FINEST:
        raise QuantityError(text, "a gauge from 36 to 4/0", "16 AWG")
    diameter = 0.127 * 92.0 ** ((36 - gauge) / 39)
    return Quantity(pi / 4 * diameter**2, None, text.strip())
