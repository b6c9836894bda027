"""The signs that people and phones type, brought to one plain spelling."""

import re

_SIGNS = str.maketrans(
    {
        **dict.fromkeys("\u201c\u201d\u201e\u201f\u2033\u02ba\u02dd\u301e\uff02", '"'),
        **dict.fromkeys("\u2018\u2019\u201a\u201b\u2032\u02b9\u02bc\u00b4`\uff07", "'"),
        **dict.fromkeys("\u2212\u2010\u2011\u2012\u2013\u2014\uff0d", "-"),
        **dict.fromkeys("\u2044\u2215", "/"),
        # marks without width that come along with pasted text
        **dict.fromkeys("\u200b\u200c\u200d\u200e\u200f\u2060\ufeff\ufe0e\ufe0f"),
        "\u00ba": "\u00b0",  # the ordinal sign, typed for degrees
    }
)
_VULGAR = {
    "\u00bd": "1/2",
    "\u00bc": "1/4",
    "\u00be": "3/4",
    "\u2153": "1/3",
    "\u2154": "2/3",
    "\u215b": "1/8",
    "\u215c": "3/8",
    "\u215d": "5/8",
    "\u215e": "7/8",
    "\u2155": "1/5",
    "\u2156": "2/5",
    "\u2157": "3/5",
    "\u2158": "4/5",
    "\u2159": "1/6",
    "\u215a": "5/6",
}
_FRACTION = re.compile("([0-9])?([" + "".join(_VULGAR) + "])")
_EITHER_WAY = re.compile(r"\+\s*/\s*-|\+-")


def plain(text: str) -> str:
    """Return a written figure with plain quotes, minus, fractions, spaces and plus-or-minus.

    Examples
    --------
    >>> plain("1½” +/- ⅛")
    '1 1/2" ± 1/8'
    """
    signs = text.translate(_SIGNS)
    fractions = _FRACTION.sub(lambda m: f"{m[1]} {_VULGAR[m[2]]}" if m[1] else _VULGAR[m[2]], signs)
    doubled = fractions.replace("''", '"')
    return " ".join(_EITHER_WAY.sub("±", doubled).split())
