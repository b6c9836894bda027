"""Rule 'under the carpet': what a loom on the metal does to the console that stands over it."""

from math import isfinite

from msgspec.structs import replace

from trimwright.build import LyingPoint
from trimwright.cabin import Cabin
from trimwright.car import Ridge
from trimwright.findings import Edit, Finding, Remedy
from trimwright.fit import PoseFacts
from trimwright.quantities import Unit, shown_with_unit
from trimwright.wiring import Bundling, Ridging, bundlings, ridges

LOCK = "carpet"
FELT_MM = 0.5  # of lift that nobody sees; common practice, no source
HOW = (
    "The loom is taken as stiff and lying on the metal, the carpet over it as a round of its radius"
    " and the carpet's thickness; the console rests on the carpet's pressure along its real edges."
)


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return what the looms under the carpet do to the console; nothing where none lies there."""
    found = cabin.wiring
    if found is None:
        return ()
    unknown = tuple(
        _unknown(own) for own in bundlings(found) if own.trunk.under_carpet and own.unknown
    )
    some = ridges(found)
    if not some:
        return unknown
    place = f"under the carpet: {_named(some)}"
    over, bare = cabin.pose, cabin.pose_over(())
    if over is None or bare is None:
        says = "Not checked: where the console comes to rest is not known."
        missing = ("a console, the tunnel and the carpet",)
        return (Finding("under the carpet", place, "look", says, LOCK, missing=missing),)
    said = _lift(cabin, some, place, (over, bare))
    return unknown if unknown and said.grade == "good" else (said, *unknown)


def _unknown(own: Bundling) -> Finding:
    """Return that a loom under the carpet is thicker than could be counted."""
    way = f"from {own.trunk.start} to {own.trunk.end}"
    names = ", ".join(wire.name for wire in own.unknown)
    return Finding(
        "under the carpet",
        f"thickness under the carpet {way}",
        "look",
        f"Not checked: nobody has said how thick {names} {'is' if len(own.unknown) == 1 else 'are'}.",
        LOCK,
        missing=tuple(f"the outside diameter of {wire.name}" for wire in own.unknown),
    )


def _lift(
    cabin: Cabin, some: tuple[Ridging, ...], place: str, poses: tuple[PoseFacts, PoseFacts]
) -> Finding:
    """Return how far looms lift the console."""
    over, bare = poses
    lift, unit = _most(cabin, over, bare), cabin.build.unit
    loom = "The loom" if len(some) == 1 else "The looms"
    if not isfinite(lift):
        says = f"{loom} {_named(some)} under the carpet {_verb(some)} the console tip."
        return Finding(
            "under the carpet", place, "stop", says, LOCK, remedies=_relief(cabin, some, poses)
        )
    good = lift <= FELT_MM
    front, *_, back = _corners(cabin)
    nose, rear = (over.up_mm(x, 0.0) - bare.up_mm(x, 0.0) for x in (front[0], back[0]))
    if good:
        says = f"{loom} {_named(some)} under the carpet {'does' if len(some) == 1 else 'do'} not lift the console."
    else:
        says = (
            f"{loom} {_named(some)} under the carpet {'moves' if len(some) == 1 else 'move'} the"
            f" console: nose {_way(nose, unit)}, rear {_way(rear, unit)}, a corner by"
            f" {shown_with_unit(lift, unit, step='fine')}.{_least(cabin, unit)}"
        )
    return Finding(
        rule="under the carpet",
        place=place,
        grade="good" if good else "change",
        says=says,
        lock=LOCK,
        figure=lift,
        limit=FELT_MM,
        margin=FELT_MM - lift,
        remedies=()
        if good
        else (
            *_flat(cabin, some, poses),
            *_other_side(cabin, some, poses),
            *_relief(cabin, some, poses),
        ),
        source="common practice, no source",
        why=(HOW,),
    )


def _verb(some: tuple[Ridging, ...]) -> str:
    return "makes" if len(some) == 1 else "make"


def _corners(cabin: Cabin) -> tuple[tuple[float, float], ...]:
    """Return the corners that the console stands within, in plan [mm]."""
    edges = () if cabin.carcass is None else cabin.carcass.lower_edges
    points = [one for edge in edges for one in edge.outer[:, :2].tolist()]
    ends = [(min(one[k] for one in points), max(one[k] for one in points)) for k in (0, 1)]
    return tuple((x, y) for x in ends[0] for y in ends[1])


def _most(cabin: Cabin, over: PoseFacts, bare: PoseFacts) -> float:
    """Return the most that a corner is moved up or down by [mm]; NaN where it tips."""
    moves = [abs(over.up_mm(x, y) - bare.up_mm(x, y)) for x, y in _corners(cabin)]
    return max(moves) if all(isfinite(one) for one in moves) else float("nan")


def _least(cabin: Cabin, unit: Unit) -> str:
    """Return the gap that loses most by it, as a sentence; nothing where none loses."""
    model, before = cabin.model, cabin.nominal_over(())
    if model is None or len(before) != len(cabin.nominal):
        return ""
    lost = [
        (was - now, gap.name, was, now)
        for gap, was, now in zip(model.gaps, before, cabin.nominal, strict=True)
        if gap.sense == "at least" and was - now > FELT_MM
    ]
    if not lost:
        return ""
    _, name, was, now = max(lost)
    return f" {name[0].upper()}{name[1:]} falls from {shown_with_unit(was, unit)} to {shown_with_unit(now, unit)}."


def _flat(
    cabin: Cabin, some: tuple[Ridging, ...], poses: tuple[PoseFacts, PoseFacts]
) -> tuple[Remedy, ...]:
    """Return to lay wires side by side, with what is left of the lift, where that is less."""
    thick = [one for one in some if one.flatter is not None]
    if not thick:
        return ()
    left = _left(cabin, tuple(one.flatter or one.ridge for one in some), poses)
    if left is None:
        return ()
    wide = shown_with_unit(
        max(one.flatter.wide_mm for one in thick if one.flatter), cabin.build.unit, "up"
    )
    edits = tuple(Edit(("wiring", "trunks", one.own.number, "laid"), "flat") for one in thick)
    return (
        Remedy(
            f"Lay its wires side by side under the carpet, {wide} wide: what is left is"
            f" {shown_with_unit(left, cabin.build.unit, 'up')}.",
            edits,
        ),
    )


def _other_side(
    cabin: Cabin, some: tuple[Ridging, ...], poses: tuple[PoseFacts, PoseFacts]
) -> tuple[Remedy, ...]:
    """Return to lead looms on the other side of the car, with what is left, where that is less."""
    left = _left(cabin, tuple(one.mirrored for one in some), poses)
    if left is None:
        return ()
    edits = tuple(
        Edit(("wiring", "trunks", one.own.number, "under carpet", number), _mirrored(place))
        for one in some
        for number, place in enumerate(one.own.trunk.under_carpet)
    )
    says = f"Lead it on the other side: what is left is {shown_with_unit(left, cabin.build.unit, 'up')}."
    return (Remedy(says, edits),)


def _mirrored(place: LyingPoint) -> str:
    """Return a place on the other side of the car, as it is written in a build."""
    words = place.off_middle.text
    turned = {"left": "right", "right": "left"}
    return f"{place.at.text}, {' '.join(turned.get(word, word) for word in words.split())}"


def _left(
    cabin: Cabin, others: tuple[Ridge, ...], poses: tuple[PoseFacts, PoseFacts]
) -> float | None:
    """Return how far other ridges would lift the console [mm]; None if that is no less."""
    over, bare = poses
    other = cabin.pose_over(others)
    if other is None:
        return None
    left, before = _most(cabin, other, bare), _most(cabin, over, bare)
    return left if left < before - FELT_MM else None


def _relief(
    cabin: Cabin, some: tuple[Ridging, ...], poses: tuple[PoseFacts, PoseFacts]
) -> tuple[Remedy, ...]:
    """Return to cut a relief in each edge over looms, with its size and what is left of the lift."""
    unit, passed = cabin.build.unit, _passed(cabin, some)
    away = Remedy("Or lead it where no lower edge stands.")
    left = _left(cabin, tuple(replace(one.ridge, relieved=True) for one in some), poses)
    if left is None or not passed:
        return (away,)
    ridge = max((one.ridge for one in some), key=lambda it: it.high_mm)
    loose = cabin.build.car.carpet.loose if cabin.build.car.carpet else None
    wide = shown_with_unit(2 * ridge.reach_mm(0.0 if loose is None else loose.value), unit, "up")
    high = shown_with_unit(ridge.high_mm, unit, "up")
    edits = tuple(Edit(("wiring", "trunks", one.own.number, "relief"), "cut") for one in some)
    says = (
        f"Or cut a relief in each edge that it passes ({passed}): {wide} wide and {high} high; what"
        f" is left is {shown_with_unit(left, unit, 'up')}."
    )
    return (Remedy(says, edits), away)


def _passed(cabin: Cabin, some: tuple[Ridging, ...]) -> str:
    """Return which edges looms pass under, and where; nothing where none is crossed."""
    edges = () if cabin.carcass is None else cabin.carcass.lower_edges
    told = [
        f"{edge.panel} {_place(x, cabin.build.unit)}"
        for edge in edges
        for one in some
        for x in one.ridge.crossed(edge.points[:, :2])[:, 0].tolist()
    ]
    return ", ".join(told)


def _place(along_mm: float, unit: Unit) -> str:
    """Return a place along the car in words."""
    return f"{shown_with_unit(abs(along_mm), unit)} {'behind' if along_mm > 0 else 'ahead'}"


def _way(up_mm: float, unit: Unit) -> str:
    """Return a movement in words."""
    if abs(up_mm) < FELT_MM / 10:
        return "as before"
    return f"{shown_with_unit(abs(up_mm), unit, step='fine')} {'up' if up_mm > 0 else 'down'}"


def _named(some: tuple[Ridging, ...]) -> str:
    return ", ".join(f"from {one.own.trunk.start} to {one.own.trunk.end}" for one in some)
