"""Tunnels by chance: one to four sections in every form they can be read in."""

from tests.invented_figure import Pencil

DEPTHS = (10.0, 20.0, 36.0, 62.0, 100.0, 146.0)
FLOOR = 165.0  # mm from the tunnel's top to the floor


def layers(pencil: Pencil) -> str:
    """Return what stays on the metal: nothing, a deadener, a felt on top of it."""
    names = ("deadener", "felt")[: pencil.one_of((0, 0, 1, 2))]
    rows = [
        f"    - {{name: {name}, thick: {pencil.read(thick, 0.5)},"
        f" from: {pencil.along(-200)}, to: {pencil.along(900)}}}\n"
        for name, thick in zip(names, (2.0, 4.0), strict=False)
    ]
    return "  layers:\n" + "".join(rows) if rows else ""


def tunnel(pencil: Pencil) -> str:
    """Return the floor and one to four sections from front to rear, now and then with a slip."""
    count = pencil.one_of((1, 1, 2, 3, 4, 4))
    places = [300.0] if count == 1 else [-120 + 840 * k / (count - 1) for k in range(count)]
    usual = pencil.one_of(("quick", "rows", "rows", "rows", "points", "bites"))
    forms = [usual if pencil.maybe(0.8) else "rows" for _ in places]
    width, skew = pencil.some(0.84, 1.06), pencil.some(-1.0, 1.0)
    text = f"  floor below string: {pencil.read(300 + FLOOR + 10, 4)}\n  tunnel:\n"
    wrong = pencil.one_of(range(count)) if pencil.maybe(0.2) else -1
    for number, (at, form) in enumerate(zip(places, forms, strict=True)):
        half = [width * (1 - at / 6000) * 72 * (d / 10) ** 0.34 for d in DEPTHS]
        sides = [(a - skew, a + skew) for a in half]
        if number == wrong:
            row = pencil.one_of(range(len(sides)))
            sides[row] = (sides[row][0] + (10 if pencil.unit == "mm" else 25.4), sides[row][1])
        text += f"    - at: {pencil.along(at)}\n{_section(pencil, form, sides, at)}"
    return text


def _section(pencil: Pencil, form: str, sides: list[tuple[float, float]], at: float) -> str:
    """Return one section's readings: sides are half widths (left, right) at the depths."""
    if form == "quick":
        shoulder, floor = sum(sides[1]), sum(sides[-1])
        return (
            f"      height above floor: {pencil.read(FLOOR, 3)}\n"
            f"      width at shoulder: {pencil.read(shoulder, 3)}\n"
            f"      width at floor: {pencil.read(floor, 4)}\n"
        )
    drop = 0.03 * at + 2
    text = f"      top: {pencil.read(300 + drop)} below string\n"
    if form == "rows":
        rows = [
            f"      down {pencil.long(d)}: {{left: {pencil.read(a, 1)},"
            f" right: {pencil.read(b, 1)}}}\n"
            for d, (a, b) in zip(DEPTHS, sides, strict=True)
        ]
        return text + "".join(rows)
    points = [(-a, d) for d, (a, _) in reversed(list(zip(DEPTHS, sides, strict=True)))]
    points += [(0.0, 0.0)]
    points += [(b, d) for d, (_, b) in zip(DEPTHS, sides, strict=True)]
    if form == "points":
        return f"{text}      points: [{_points(pencil, points)}]\n"
    # two bites of a gauge that share the two points beside the top, the second set 30 further left
    first, second = points[:8], [(y - 30, d) for y, d in points[5:]]
    return (
        f"{text}      bites:\n        - points: [{_points(pencil, first, (5, 7))}]\n"
        f"        - points: [{_points(pencil, second, (0, 2))}]\n"
    )


def _points(pencil: Pencil, points: list[tuple[float, float]], shared: tuple[int, ...] = ()) -> str:
    """Return points in quotes; those that another bite has too are lettered."""
    letters = dict(zip(shared, "AB", strict=False))
    said = [
        f'"{f"{letters[k]} at " if k in letters else ""}{pencil.across(y)}, {pencil.long(d)} down"'
        for k, (y, d) in enumerate(points)
    ]
    return ", ".join(said)
