"""A note written, changed or taken out leaves every other line as it was, to the byte."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimwright.build import edited, parse
from trimwright.findings import Edit

KEYS = Path(__file__).parents[2] / "unit" / "build"
LONGEST = 400
# what a builder may type: anything a page sends, blanks and line ends already brought to one blank
SAYS = (
    st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), min_size=1, max_size=60)
    .map(lambda text: " ".join(text.split()))
    .filter(lambda text: 0 < len(text) <= LONGEST)
)
SUBJECT = st.sampled_from(["part", "reading", "finding"])


@pytest.fixture(scope="module", params=["every_key.yaml", "quarter_hour.yaml"])
def text(request: pytest.FixtureRequest) -> str:
    """Return a build with notes, and one without."""
    return (KEYS / str(request.param)).read_text("utf-8")


@given(SAYS, SUBJECT, SAYS, st.booleans())
def test_a_new_note_is_lines_added_and_taken_out_again_the_file_it_was(
    text: str,
    says: str,
    subject: str,
    about: str,
    windows: bool,  # noqa: FBT001  drawn
) -> None:
    ending = "\r\n" if windows else "\n"
    before = ending.join(text.splitlines()) + ending
    number = len(parse(before).build.notes)
    added = edited(
        before, [Edit(("notes", number, subject), about), Edit(("notes", number, "says"), says)]
    )
    assert added.startswith(before)  # notes come last
    note = parse(added).build.notes[-1]
    assert (getattr(note, subject), note.says) == (about, says)
    assert parse(added).build.model_copy(update={"notes": ()}) == parse(before).build.model_copy(
        update={"notes": ()}
    )
    assert edited(added, [Edit(("notes", number), None)]) == before


@given(st.integers(0, 3), SAYS)
def test_a_changed_note_is_one_changed_line(number: int, says: str) -> None:
    before = (KEYS / "every_key.yaml").read_text("utf-8")
    after = edited(before, [Edit(("notes", number, "says"), says)])
    old, new = before.split("\n"), after.split("\n")
    assert len(old) == len(new)
    assert sum(one != other for one, other in zip(old, new, strict=True)) <= 1
    assert parse(after).build.notes[number].says == says


@given(st.integers(0, 3))
def test_a_note_taken_out_takes_its_own_line_alone(number: int) -> None:
    before = (KEYS / "every_key.yaml").read_text("utf-8")
    lines = before.split("\n")
    first = lines.index("notes:") + 1
    after = edited(before, [Edit(("notes", number), None)])
    assert after.split("\n") == lines[: first + number] + lines[first + number + 1 :]
