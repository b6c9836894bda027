"""Where on the side drawing a place lies: zones A to D down, 1 to 6 along, as on the frame."""

from trimwright.cabin import Cabin

COLUMNS, ROWS = 6, "ABCD"
Point = tuple[float, float, float]


def zone(cabin: Cabin, point: Point | None) -> str:
    """Return the zone of a point [mm, car axes], empty for none.

    Columns count from the front end of the console to its rear end, rows from the highest point
    of the deck down to the floor of the drawing, 300 mm lower.
    """
    console = cabin.build.console
    if point is None or console is None:
        return ""
    start, end = console.start.value, console.end.value
    top = max(p.height.value for p in console.deck) + 60.0
    column = min(max(int((point[0] - start) / max(end - start, 1.0) * COLUMNS), 0), COLUMNS - 1)
    row = min(max(int((top - point[2]) / 80.0), 0), len(ROWS) - 1)
    return f"{ROWS[row]}{column + 1}"
