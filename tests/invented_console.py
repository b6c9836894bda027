"""Consoles by chance: level or kinked decks, straight or tapered walls, every joint."""

from tests.invented_figure import Pencil

USUAL = 0.9  # share of consoles that can be made


def console(pencil: Pencil) -> str:
    """Return a console as a builder wants it."""
    front, rear = -pencil.some(50, 90), pencil.some(600, 720)
    made = pencil.maybe(USUAL)
    high = pencil.some(188, 212) if made or pencil.maybe(0.6) else 130.0
    kinked = pencil.maybe(0.5)
    parts = [
        f"console:\n  from: {pencil.along(front)}\n  to: {pencil.along(rear)}\n",
        f"  sheet: birch plywood {pencil.one_of(('9 mm', '12 mm', '12 mm', '1/2 in'))}\n"
        if pencil.maybe(0.6)
        else "",
        _deck(pencil, (front, rear), high, kinked=kinked),
        _widths(pencil, (front, rear)),
        _walls(pencil, made=made),
        _scribe(pencil),
        _bulkheads(pencil, made=made),
        _openings(pencil, rear),
        _bolts(pencil, rear),
        f"  trims: {{nose lower by: {pencil.long(pencil.some(1, 9))}}}\n"
        if pencil.maybe(0.15)
        else "",
    ]
    return "".join(parts)


def _deck(pencil: Pencil, ends: tuple[float, float], high: float, *, kinked: bool) -> str:
    """Return a level deck, or one that rises at the nose and falls at the rear."""
    if not kinked:
        return f"  deck height: {pencil.long(high)}\n"
    front, rear = ends
    points = [(front, high - pencil.some(0, 22)), (-55.0 if front < -80 else 60.0, high)]
    points.append((pencil.some(355, 385), high))
    points.append((rear, high - pencil.some(0, 36)))
    rows = [f"    - {{at: {pencil.along(x)}, height: {pencil.long(z)}}}\n" for x, z in points]
    return "  deck:\n" + "".join(rows)


def _widths(pencil: Pencil, ends: tuple[float, float]) -> str:
    """Return one width, or half widths that grow rearward."""
    half = pencil.some(106, 121)
    if pencil.maybe(0.5):
        return f"  width: {pencil.long(2 * half)}\n"
    front, rear = ends
    points = [(front, half - pencil.some(0, 8)), (rear, half + pencil.some(0, 6))]
    if pencil.maybe(0.5):
        points.insert(1, (pencil.some(270, 330), half))
    rows = [
        f"    - {{at: {pencil.along(x)}, left: {pencil.long(y)}, right: {pencil.long(y + 2)}}}\n"
        for x, y in points
    ]
    return "  widths:\n" + "".join(rows)


def _walls(pencil: Pencil, *, made: bool) -> str:
    """Return how the walls meet the deck and how they lean."""
    if made and pencil.maybe(0.4):
        return ""
    deep = pencil.some(3, 6) if made or pencil.maybe(0.6) else 14.0
    return (
        f"  walls:\n    deck joint: {pencil.one_of(('butt', 'rebate', 'housing'))}\n"
        f"    runs through: {pencil.one_of(('walls', 'deck'))}\n"
        f"    joint depth: {pencil.long(deep)}\n    lean: {pencil.one_of((0, 0, 2, 3, 5))} deg\n"
    )


def _scribe(pencil: Pencil) -> str:
    """Return what the lower edge is scribed to, or leave it to be assumed."""
    if pencil.maybe(0.3):
        return ""
    over = pencil.one_of(("carpet", "bare metal", "bare metal"))
    deeper = f"  deeper by: {pencil.long(pencil.some(1, 8))}\n" if pencil.maybe(0.4) else ""
    edge = pencil.one_of(("bevelled", "square", "as suits"))
    return f"  scribe:\n    over: {over}\n    edge: {edge}\n" + (f"  {deeper}" if deeper else "")


def _bulkheads(pencil: Pencil, *, made: bool) -> str:
    """Return none to two bulkheads; two in one place cannot be made."""
    count = pencil.one_of((0, 1, 2)) if made else 2
    places = [pencil.some(-38, -20), pencil.some(320, 360)]
    if not made and pencil.maybe(0.5):
        places = [340.0, 344.0]
    rows = [
        f"    - {{name: {name}, at: {pencil.along(at)},"
        f" joint: {pencil.one_of(('butt', 'butt', 'housing'))}}}\n"
        for name, at in zip(("front", "box")[:count], places, strict=False)
    ]
    return "  bulkheads:\n" + "".join(rows) if rows else ""


def _openings(pencil: Pencil, rear: float) -> str:
    """Return holes for the lever and the handbrake, as large as they came out."""
    holes = []
    if pencil.maybe(0.8):
        long, wide = pencil.some(140, 186), pencil.some(104, 160)
        holes.append(("gear lever", pencil.some(180, 205), long, wide, 25.0))
    if pencil.maybe(0.5):
        long = pencil.some(170, 214)
        at = min(505.0, rear - long / 2 - 12)
        holes.append(("handbrake", at, long, pencil.some(44, 72), 20.0))
    rows = [
        f"    - {{name: {name}, at: {pencil.along(at)}, long: {pencil.long(long)},"
        f" wide: {pencil.long(wide)}, corner: {pencil.long(corner)}}}\n"
        for name, at, long, wide, corner in holes
    ]
    return "  openings:\n" + "".join(rows) if rows else ""


def _bolts(pencil: Pencil, rear: float) -> str:
    """Return no bolts, two or four across, or one far out that tips it."""
    form = pencil.one_of(("none", "none", "two", "two", "four", "far"))
    if form == "none":
        return ""
    if form == "far" and pencil.maybe(0.7):
        return (
            f"  held by:\n    - {{bolt: M6, at: {pencil.along(rear - 8)},"
            f" off middle: {pencil.across(-106)}, torque: 9 N m}}\n"
        )
    places = [pencil.some(330, 420)] if form != "four" else [120.0, rear - 80]
    torque = pencil.one_of(("0.4 N m ± 0.2", "1 N m", "2 N m ± 1"))
    rows = [
        f"    - {{bolt: M6, at: {pencil.along(x)}, off middle: {pencil.across(y)},"
        f" torque: {torque}}}\n"
        for x in places
        for y in (-70.0, 70.0)
    ]
    return "  held by:\n" + "".join(rows)
