"""The list of edits in words, and reasons for what is left as it is."""

import shutil
from pathlib import Path

from trimwright.app.bench import Bench
from trimwright.app.deed_routes import deeds
from trimwright.findings import Edit

EXAMPLES = Path(__file__).parents[3] / "examples"


def bench(folder: Path) -> Bench:
    """Return a bench with a copy of the small example."""
    return Bench(Path(shutil.copy(EXAMPLES / "fifteen-minutes" / "build.yaml", folder)))


def test_edits_are_listed_in_words_with_where_the_file_stands(tmp_path: Path) -> None:
    """Undo goes one back in the list; nothing of it is lost."""
    one = bench(tmp_path)
    assert deeds(one).at == -1
    one.edit(one.standing().version, [Edit(("console", "width"), "9")], "width 9 1/4 → 9")
    assert deeds(one).steps[-1] == "width 9 1/4 → 9"
    assert deeds(one).at == 1
    one.undo()
    assert (len(deeds(one).steps), deeds(one).at) == (2, 0)


def test_a_reason_is_written_for_a_finding_that_is_left(tmp_path: Path) -> None:
    """The first makes the list; the next goes after it."""
    one = bench(tmp_path)
    for finding in ("what nobody wrote", "handbrake"):
        at = ("left as is", len(deeds(one).left))
        edits = [Edit((*at, "finding"), finding), Edit((*at, "because"), "it is for a trial")]
        one.edit(one.standing().version, edits, f"leave {finding}")
    assert deeds(one).left == ("what nobody wrote", "handbrake")
