"""What the things on the buying list cost, so far as the builder wrote it down."""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal

from trimwright.build import Price

HUNDREDTH = Decimal("0.01")


def each(what: str, prices: Sequence[Price]) -> float | None:
    """Return what one of a row costs: by the price whose words it begins with, the longest.

    None where no price does.

    Examples
    --------
    >>> from trimwright.build import Price
    >>> every = [Price(of="2.5 mm2", costs="1.20"), Price(of="2.5 mm2, red", costs="1.35")]
    >>> each("2.5 mm², red", every), each("2.5 mm², black", every), each("4 mm²", every)
    (1.35, 1.2, None)
    """
    meant = [price for price in prices if _begins(what, price.of)]
    best = max(meant, key=lambda price: len(_plain(price.of)), default=None)
    return None if best is None else best.costs.value


def sums(what: str, count: int, prices: Sequence[Price]) -> tuple[str, str]:
    """Return what one and what all of a row cost, in words; empty where no price is known.

    Examples
    --------
    >>> from trimwright.build import Price
    >>> sums("Relay for 30 A", 2, [Price(of="relay", costs="7.9")])
    ('7.90', '15.80')
    """
    costs = each(what, prices)
    return ("", "") if costs is None else (money(costs), money(costs * count))


def money(amount: float) -> str:
    """Return a sum of money, to a hundredth.

    Examples
    --------
    >>> money(1.2), money(12.345)
    ('1.20', '12.35')
    """
    return f"{Decimal(repr(amount)).quantize(HUNDREDTH, ROUND_HALF_UP)}"


def summed(rows: Sequence[tuple[str, int]], prices: Sequence[Price]) -> str:
    """Return what all with a price comes to, and the prices that are of no row; '' without prices.

    Parameters
    ----------
    rows : sequence of (str, int)
        What each row says, and how many of it are bought.
    prices : sequence of Price
        As written.
    """
    if not prices:
        return ""
    known = [(count, costs) for what, count in rows if (costs := each(what, prices)) is not None]
    left = len(rows) - len(known)
    told = f" All with a price comes to {money(sum(count * costs for count, costs in known))}"
    told += f"; {left} without." if left else "."
    idle = [one.of for one in prices if not any(_begins(what, one.of) for what, _ in rows)]
    return told + (f" No row begins with: {', '.join(idle)}." if idle else "")


def _begins(what: str, words: str) -> bool:
    """Return whether a row begins with some words, and not in the middle of one."""
    row, start = _plain(what), _plain(words)
    return row.startswith(start) and not row[len(start) : len(start) + 1].isalnum()


def _plain(words: str) -> str:
    """Return words as they are compared: small letters, mm2 for mm²."""
    return " ".join(words.casefold().replace("mm²", "mm2").split())
