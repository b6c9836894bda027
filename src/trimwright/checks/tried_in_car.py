"""Rule 'test fit': what the readings at the car say, and the one that nothing explains."""

from trimwright.cabin import Cabin
from trimwright.findings import Finding
from trimwright.fit import NotThere, Taught

LIMIT = 3.3  # standardised surprise; one honest reading in a thousand exceeds 3.29


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return what the rule says about the readings entered."""
    found = cabin.outcome
    if found is None or found.taught is None:
        return ()
    learned = found.taught
    unknown = tuple(
        Finding(
            rule="test fit",
            place=one.probe,
            grade="look",
            says=f"{one.says[0].upper()}{one.says[1:]}; its reading is not used.",
            lock="covering",
            missing=("one of: " + "; ".join(one.known),) if one.known else (),
        )
        for one in learned.unknown
    )
    if not learned.names:
        return unknown
    largest = max(abs(one) for one in (*learned.surprise, *learned.against))
    good = not learned.puzzle and largest <= LIMIT
    return (
        Finding(
            rule="test fit",
            place="readings at the car",
            grade="good" if good else "change",
            says=told(learned),
            lock="covering",
            figure=largest,
            limit=LIMIT,
            margin=LIMIT - largest,
            measure="count",
            source="normal law: 1 reading in 1,000 lies further off",
            why=(
                (
                    "Each reading is held against what the build and the other readings lead one to"
                    " expect, in standard deviations of that forecast."
                ),
                *(
                    f"{name}: {abs(off):.1f}"
                    for name, off in zip(learned.names, learned.surprise, strict=True)
                ),
            ),
        ),
        *unknown,
    )


def told(learned: Taught) -> str:
    """Return whether the readings go with each other and with what was measured before."""
    if learned.puzzle:
        return f"'{learned.puzzle}' does not go with the other readings: read it again, there."
    far = max(range(len(learned.against)), key=lambda place: abs(learned.against[place]))
    if abs(learned.against[far]) > LIMIT:
        return (
            f"'{learned.names[far]}' is far from what was measured before: read it again, and"
            " what it hangs on; one of them is wrong."
        )
    many = len(learned.names)
    said = "1 reading at the car agrees" if many == 1 else f"{many} readings at the car agree"
    return f"{said} with what was measured before."


def not_there_told(probe: str, what: NotThere) -> str:
    """Return why a probe means nothing of this build, and how one is named."""
    return (
        f'found "{probe}": {what.says}; expected words of one gap, such as: nose left; of an edge'
        " and a place along it, such as: left wall daylight at 420 behind; or of a card gauge, such"
        " as: card at 220 behind and 90 left"
        + (f"\nthere is: {'; '.join(what.known)}" if what.known else "")
    )
