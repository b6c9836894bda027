"""Rule 'drilling': nobody drills before it is known what lies beneath the tunnel."""

from trimwright.cabin import Cabin
from trimwright.findings import Finding

CAUTIONS = (
    (
        "Before drilling: look and feel from below. Brake and fuel lines, cables, shaft and exhaust run"
        " there; use a depth stop, disconnect the battery, keep airbag parts alone."
    ),
    "Seat and belt anchorages are for qualified people: never share or move their bolts.",
)


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return one 'look' for each bolt: what lies beneath it is not in the build file."""
    console = cabin.build.console
    if console is None:
        return ()
    return tuple(
        Finding(
            rule="drilling",
            place=f"bolt {number}, {bolt.at.text or 'as placed'}",
            grade="look",
            says=f"Look underneath before you drill for bolt {number}.",
            lock="refit",
            missing=("what lies under the tunnel there: look from below",),
            why=CAUTIONS,
        )
        for number, bolt in enumerate(console.held_by, start=1)
    )
