"""The wiring diagram: feeds above, ground below, a numbered current path for every circuit."""

from dataclasses import dataclass

from trimwright.build import Build
from trimwright.cabin import Cabin
from trimwright.drawing import (
    LABEL_MM,
    LEAD_MM,
    NAME_MM,
    WORD_MM,
    Box,
    Element,
    Group,
    Line,
    Setting,
    Size,
    Text,
    frame_box,
    size_mm,
    text_box,
    text_width,
    wrapped,
)
from trimwright.papers.leaf import Leaf, title_area
from trimwright.papers.wiring_symbol import dot, drawn, text
from trimwright.papers.wiring_words import colours, faults_and_rules, label
from trimwright.wiring import WiringOutcome
from trimwright.wiring.diagram import Bar, Diagram, DiagramPage, Stroke, Type, diagram

INSET_MM, GAP_MM = 5.0, 3.0
NUMBER_MM, WORDS_MM, LINE_MM = 5.6, 9.2, 3.3  # down the strip: to the number, to the words
DIN = {"always": "30", "accessory": "75", "ignition": "15", "start": "50"}


@dataclass(frozen=True, slots=True)
class Sheet:
    """A size of paper as it lies or stands, and the rectangle that the diagram has on it."""

    size: Size
    room: Box


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return the diagram's pages, none where there is no wiring."""
    outcome = cabin.wiring
    if outcome is None or not outcome.loom.wires:
        return ()
    return ()
