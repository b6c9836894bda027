"""One written number, without sign or unit, as an exact fraction."""

import re
from fractions import Fraction

_LONGEST = 40  # characters: no figure on a tape is longer
_MIXED = re.compile(r"(?:([0-9]+)[ -])?([0-9]+)/([0-9]+)")
_DECIMAL = re.compile(r"([0-9]*)(?:[.,]([0-9]+))?")
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
_GROUPED = re.compile(r"[1-9][0-9]{0,2}(?:[ .,'][0-9]{3})+(?:[.,][0-9]+)?")


def number(written: str) -> Fraction | None:
    """Return a plain spelled number exactly, or None where it is none.

    Examples
    --------
    >>> number("1-1/2"), number("12,5"), number("1 5/4")
    (Fraction(3, 2), Fraction(25, 2), None)
    """
    if len(written) > _LONGEST:
        return None
    mixed = _MIXED.fullmatch(written)
    if mixed:
        whole, top, bottom = int(mixed[1] or 0), int(mixed[2]), int(mixed[3])
        proper = top < bottom if mixed[1] else bottom > 0
        return whole + Fraction(top, bottom) if proper else None
    decimal = _DECIMAL.fullmatch(written)
    if decimal is None or not (decimal[1] or "." in written):
        return None
    return Fraction(f"{decimal[1] or 0}.{decimal[2] or 0}")


def numbers_meant(written: str) -> tuple[str, ...]:
    """Return the plain numbers that an ambiguous one may stand for; none if it is clear.

    A comma before exactly three digits is a thousands mark to some and a decimal mark to others;
    the same goes for digits in groups of three.

    Examples
    --------
    >>> numbers_meant("1,250"), numbers_meant("1.250,5"), numbers_meant("12,5")
    (('1250', '1.25'), ('1250.5',), ())
    """
    if _THOUSANDS.fullmatch(written):
        whole, rest = written.split(",")
        return whole + rest, f"{whole}.{rest}".rstrip("0").rstrip(".")
    if not _GROUPED.fullmatch(written) or re.fullmatch(r"[0-9]+\.[0-9]+", written):
        return ()
    groups = re.split(r"[ .,']", written)
    tail = groups.pop() if len(groups[-1]) != len("000") else ""
    return ("".join(groups) + ("." + tail if tail else ""),)
