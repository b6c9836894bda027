"""Words set into a width: none lost, none too wide, the same width whatever the writer."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimwright.drawing import (
    Drawing,
    Page,
    Setting,
    Text,
    Title,
    overlaps,
    text_box,
    text_width,
    title_block,
    wrapped,
)

names = st.text("abcdefgHIJ0123456789-_/. ", min_size=1, max_size=60)
widths = st.floats(6, 80)


@given(names, widths)
def test_no_letter_is_lost(words: str, width_mm: float) -> None:
    assert "".join(wrapped(words, width_mm)).replace(" ", "") == words.replace(" ", "")


@given(names, widths)
def test_no_line_is_too_wide(words: str, width_mm: float) -> None:
    assert all(text_width(line, 2.9) <= width_mm + 1e-9 for line in wrapped(words, width_mm))


@given(names, widths)
def test_box_is_as_high_as_its_lines(words: str, width_mm: float) -> None:
    setting = Setting(4.0, "say", 1.5)
    drawn, height = text_box((10.0, 10.0), words, width_mm, setting)
    assert height == pytest.approx(6.0 * len(wrapped(words, width_mm, setting)))
    assert all(isinstance(text, Text) and text.at[1] < 10.0 + height for text in drawn)


@given(
    st.text("abcdefghij", min_size=40, max_size=40), st.text("KLMNO 12", min_size=1, max_size=40)
)
def test_title_block_has_room_for_long_names(part: str, build: str) -> None:
    title = Title(
        build, part, "template", "C5, 12 of 12", "20 of 31", "1:1", "Cut 4 mm off", "mm", "100 mm"
    )
    drawn, box = title_block(title, (202.0, 289.0))
    assert overlaps(Page("A4", Drawing(210.0, 297.0, drawn))) == ()
    assert (box.right, box.bottom) == (202.0, 289.0)


def test_column_without_width_is_refused() -> None:
    with pytest.raises(ValueError, match="width_mm must be above 0, got 0"):
        wrapped("words", 0.0)
