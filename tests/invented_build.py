"""Build files by chance: whole cars and consoles of every form the file knows, from one seed.

Some need nothing, most want a cut, some hold a slip, some tip, some cannot be made.
"""

import numpy as np

from tests.invented_console import console
from tests.invented_figure import Pencil
from tests.invented_tunnel import layers, tunnel

NO_LEVER = 0.25  # share of cars


def invented(seed: int) -> str:
    """Return the file of the car and console of that seed."""
    rng = np.random.default_rng(seed)
    pencil = Pencil(rng, "in" if rng.random() < 0.3 else "mm", float(rng.choice([0.0, 0.5, 0.9])))
    room = pencil.some(0.0, 1.0)  # from a tight car to a roomy one
    stick = lever(pencil)
    parts = [
        f"build: Invented {seed}\nunit: {pencil.unit}\nseed: {seed % 5 + 1}\n",
        wanted(pencil),
        datum(pencil),
        layers(pencil),
        carpet(pencil),
        tunnel(pencil),
        dash(pencil, 204 + 56 * room),
        seats(pencil, 127 + 28 * room),
        stick,
        engine(pencil) if stick else "",
        handbrake(pencil),
        bodies(pencil),
        console(pencil),
        covers(pencil),
        test_fit(pencil),
    ]
    return "".join(parts)


def datum(pencil: Pencil) -> str:
    """Return where all is measured from."""
    string = pencil.read(300, 1)
    return (
        "car:\n  datum: {marks: two lines, top of tunnel here: bare metal,"
        f" string above tunnel: {string}}}\n"
    )


def wanted(pencil: Pencil) -> str:
    """Return what is wanted: nothing said, or a certainty and gaps."""
    if pencil.maybe(0.25):
        return ""
    lines = [f"  daylight at most: {pencil.long(pencil.some(6, 22))}"]
    lines += [f"  certainty: {pencil.one_of((80, 90, 95, 99))} %"] if pencil.maybe(0.5) else []
    keys = {"nose to dash": 6, "walls to seats": 8, "lever to opening": 6, "handbrake": 6}
    keys["other bodies"] = 5
    for key, usual in keys.items():
        if pencil.maybe(0.3):
            lines.append(f"  {key}: {pencil.long(usual * pencil.some(0.3, 1.4))}")
    return "wanted:\n" + "\n".join(lines) + "\n"


def carpet(pencil: Pencil) -> str:
    """Return the carpet, squeezed by hand or under a lath with weights."""
    loose = pencil.some(8, 19)
    text = f"  carpet:\n    loose: {pencil.read(loose, 1)}\n"
    if pencil.maybe(0.5):
        return f"{text}    squeezed by hand: {pencil.read(loose * pencil.some(0.3, 0.5), 1)}\n"
    lath = "12 x 200" if pencil.unit == "mm" else "1/2 x 8"
    rows = [
        f"      - {{weight: {kg} kg, lath: {lath}, thick: {_fine(pencil, loose * share)}}}\n"
        for kg, share in ((1, 0.82), (5, 0.6), (20, 0.43))
    ]
    return text + "    pressed:\n" + "".join(rows)


def _fine(pencil: Pencil, mm: float) -> str:
    """Return a thickness read with a caliper."""
    return f"{mm:.1f} ± 0.5" if pencil.unit == "mm" else f"{pencil.long(mm, 32)} ± 1/32"


def dash(pencil: Pencil, high: float) -> str:
    """Return the dash's underside: along the middle, or as points that give it its lean too."""
    fall = pencil.some(-8, 18)  # lower ahead
    places = ((-110.0, high - fall), (pencil.some(-10, 30), high))
    if pencil.maybe(0.05):
        return ""
    if pencil.maybe(0.5):
        (a, low), (_, up) = places
        return (
            f"  dash above tunnel:\n    {pencil.along(a)}: {pencil.read(low, 3)}\n"
            f"    at datum: {pencil.read(up, 3)}\n"
        )
    lean = pencil.some(-4, 4)
    rows = [
        f"    - {{at: {pencil.along(x)}, across: {pencil.across(y)},"
        f" up: {pencil.read(z + lean * y / 90, 3)}}}\n"
        for x, z in places
        for y in (-90.0, 90.0)
    ]
    return "  dash:\n" + "".join(rows)


def seats(pencil: Pencil, half: float) -> str:
    """Return the seats: one width, or each at two heights with its ends and slide."""
    form = pencil.one_of(("between", "between", "sides", "sides", "one", "none"))
    if form == "none" and pencil.maybe(0.5):
        return ""
    if form in ("between", "none"):
        return f"  between seats: {{at hip: {pencil.read(2 * half, 4)}}}\n"
    text = "  seats:\n"
    for side in ("left", "right") if form == "sides" else ("right",):
        out = half + pencil.some(-6, 8)
        text += (
            f"    {side}:\n"
            f"      inner edge low: {pencil.read(out, 3)} at {pencil.long(40)} up\n"
            f"      inner edge high: {pencil.read(out - pencil.some(-2, 7), 3)}"
            f" at {pencil.long(200)} up\n"
            f"      from: {pencil.along(pencil.some(150, 260))}\n"
            f"      to: {pencil.along(pencil.some(520, 640))}\n"
        )
        if pencil.maybe(0.4):
            text += f"      slides: {pencil.long(pencil.some(60, 160))}\n"
            text += f"      reading at: {pencil.one_of(('rearmost', 'foremost'))}\n"
    return text


def lever(pencil: Pencil) -> str:
    """Return no lever, its knob's furthest places, or its knob in every gear."""
    if pencil.maybe(NO_LEVER):
        return ""
    behind, above, left = pencil.some(170, 210), pencil.some(285, 315), pencil.some(38, 56)
    right, ahead, back = left + pencil.some(-6, 6), pencil.some(50, 66), pencil.some(50, 70)
    knob = pencil.read(pencil.some(38, 52), 1)
    if pencil.maybe(0.5):
        return (
            f"  lever knob:\n    across: {knob}\n"
            f"    neutral: {_knob(pencil, behind, above)}\n"
            f"    furthest left: {pencil.read(left)}\n    furthest right: {pencil.read(right)}\n"
            f"    furthest rear: {_knob(pencil, behind + back, above - 6)}\n"
            + (
                f"    furthest front: {_knob(pencil, behind - ahead, above - 3)}\n"
                if pencil.maybe(0.5)
                else ""
            )
        )
    gears = [("neutral", 0.0, 0.0), ("first", -ahead, -left), ("second", back, -left)]
    gears += [("third", -ahead, 0.0), ("fourth", back, 0.0)]
    gears += [("reverse", back, right)] if pencil.maybe(0.7) else [("fifth", -ahead, right)]
    rows = [
        f"      - {{gear: {gear}, behind datum: {pencil.read(behind + x)},"
        f" above tunnel: {pencil.read(above - abs(x) / 11 - abs(y) / 9)},"
        f" off middle: {pencil.across(y, 2)}}}\n"
        for gear, x, y in gears
    ]
    return f"  lever:\n    knob: {knob}\n    moves:\n" + "".join(rows)


def _knob(pencil: Pencil, behind: float, above: float) -> str:
    """Return one place of the knob."""
    return f"{{behind datum: {pencil.read(behind)}, above tunnel: {pencil.read(above)}}}"


def engine(pencil: Pencil) -> str:
    """Return how far the engine moves, or leave it to be assumed."""
    if pencil.maybe(0.5):
        return ""
    across, along = (pencil.read(pencil.some(*ends), 2) for ends in ((2, 12), (2, 8)))
    return f"  engine moves: {{across: {across}, along: {along}}}\n"


def handbrake(pencil: Pencil) -> str:
    """Return no handbrake, one through the deck, or one beside the console."""
    form = pencil.one_of(("none", "deck", "deck", "beside"))
    if form == "none":
        return ""
    off = pencil.across(0.0 if form == "deck" else pencil.some(168, 200))
    up = pencil.long(pencil.some(172, 184) if form == "deck" else pencil.some(40, 120))
    return (
        f"  handbrake:\n    pivot: {{behind datum: {pencil.long(560)}, up: {up},"
        f" off middle: {off}}}\n    long: {pencil.long(200)}\n"
        f"    thick: {pencil.long(pencil.some(22, 32))}\n"
        f"    down: {pencil.some(20, 28):.0f} deg\n    up: {pencil.some(48, 60):.0f} deg\n"
    )


def bodies(pencil: Pencil) -> str:
    """Return none, one or two bodies: a box ahead, a pipe along, a ledge beside."""
    count = pencil.one_of((0, 0, 1, 1, 2))
    forms = [pencil.one_of(("box", "cylinder", "outline")) for _ in range(count)]
    text = "".join(_body(pencil, form, number) for number, form in enumerate(forms, start=1))
    return f"  bodies:\n{text}" if text else ""


def _body(pencil: Pencil, form: str, number: int) -> str:
    """Return one body."""
    head = f"    - name: {form} {number}\n      {form}: "
    if form == "box":
        rear, near = pencil.along(-pencil.some(56, 84)), pencil.some(70, 130)
        return (
            f"{head}{{from: {pencil.along(-220)}, to: {rear}, left: {pencil.across(near)},"
            f" right: {pencil.across(210)}, bottom: {pencil.long(pencil.some(110, 180))},"
            f" top: {pencil.long(320)}}}\n"
        )
    side = pencil.one_of((-1.0, 1.0))
    if form == "cylinder":
        off, up = pencil.across(side * pencil.some(142, 170)), pencil.long(pencil.some(40, 150))
        return (
            f"{head}{{from: {{at: {pencil.along(-140)}, across: {off}, up: {up}}}, to: {{at:"
            f" {pencil.along(300)}, across: {off}, up: {up}}},"
            f" thick: {pencil.long(pencil.some(18, 36))}}}\n"
        )
    inner = side * pencil.some(128, 160)
    corners = ((inner, 60.0), (side * 220, 60.0), (side * 220, 130.0), (inner + side * 12, 130.0))
    points = ", ".join(f'"{pencil.across(y)}, {pencil.long(z)} up"' for y, z in corners)
    return (
        f"{head}{{points: [{points}], from: {pencil.along(200)},"
        f" to: {pencil.along(pencil.some(300, 500))}}}\n"
    )


def covers(pencil: Pencil) -> str:
    """Return what is glued on, or leave it to be assumed."""
    if pencil.maybe(0.4):
        return ""
    foam = 0.0 if pencil.maybe(0.3) else pencil.some(2, 5)
    one = f"{{foam: {pencil.long(foam, 32)}, leather: {pencil.long(pencil.some(1, 2), 32)}}}"
    return f"covers:\n  deck: {one}\n" + (f"  walls: {one}\n" if pencil.maybe(0.6) else "")


def test_fit(pencil: Pencil) -> str:
    """Return now and then what a test fit with bare wood said."""
    if not pencil.maybe(0.1):
        return ""
    gap = pencil.long(pencil.some(5, 14))
    rows = [
        f"  - {{probe: nose left, reads: {gap}}}\n",
        f"  - {{probe: nose right, reads: {gap}}}\n",
    ]
    rows.append(f"  - {{probe: right wall seat, reads: at least {pencil.long(5)}}}\n")
    return "test fit:\n" + "".join(rows[: pencil.one_of((1, 2, 3))])
