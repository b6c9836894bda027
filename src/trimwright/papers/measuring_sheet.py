"""The measuring sheet: every reading, what it was taken over, and a line to write it again."""

from trimwright.build import readings
from trimwright.cabin import Cabin
from trimwright.drawing import Column, Row, Size
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import tabled

COLUMNS = (
    (Column("reading", 70.0), 66),
    (Column("way", 26.0), 24),
    (Column("over", 26.0), 24),
    (Column("as written", 26.0), 30),
    (Column("again", 30.0, "line"), 30),
)
WORDS = (
    "Left and right as seated facing forward; ahead and behind of the datum marks; heights from the"
    " bare tunnel top at the datum. A figure with ± is one you would bet on 19 to 1."
)


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return every reading as a row, those worth taking again first."""
    again = {one.factor.key: place for place, one in enumerate(cabin.again)}
    found = sorted(readings(cabin.build), key=lambda r: again.get(r.key, len(again)))
    rows = tuple(
        Row(
            (
                ("Again first: " if one.key in again else "") + one.says,
                one.way or "",
                one.over or "",
                one.quantity.text or "",
                "",
            ),
            face="count-bold" if one.key in again else "count",
        )
        for one in found
    )
    return tabled(
        size, cabin.build, ("Measuring sheet", "car", "measuring sheet"), WORDS, COLUMNS, rows
    )
