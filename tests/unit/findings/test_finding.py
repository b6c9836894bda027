"""A finding whose parts contradict each other cannot be made."""

from typing import Any

import pytest
from msgspec.structs import replace

from trimwright.findings import LOCKS, Edit, Finding, Remedy

GOOD = Finding(
    "nose to dash",
    "nose left",
    "good",
    "The nose clears the dash.",
    "covering",
    figure=8.0,
    limit=6.0,
    margin=2.0,
    sure=0.97,
    low=6.4,
    high=9.6,
    worst=5.0,
)


def test_a_finding_is_frozen_and_hashable() -> None:
    assert hash(GOOD) == hash(replace(GOOD))
    with pytest.raises(AttributeError, match="immutable"):
        GOOD.grade = "stop"  # type: ignore[misc]  # the refusal is the point


def test_the_locks_come_in_the_order_of_the_work() -> None:
    assert LOCKS == ("carpet", "wood is cut", "glue-up", "covering", "refit")


def test_a_figure_with_a_limit_is_never_merely_look() -> None:
    with pytest.raises(ValueError, match="must not be 'look', got 8, 6"):
        replace(GOOD, grade="look")


def test_a_taste_may_have_a_figure_without_a_limit() -> None:
    assert replace(GOOD, grade="look", limit=None, margin=None).figure == 8.0


def test_what_was_not_evaluated_is_a_look_without_a_figure() -> None:
    asked = Finding(
        "nose to dash", "nose", "look", "Not evaluated.", "covering", missing=("dash above tunnel",)
    )
    assert asked.missing == ("dash above tunnel",)


@pytest.mark.parametrize(
    "change",
    [
        {"grade": "good", "missing": ("dash above tunnel",)},
        {"grade": "good", "missing": ("dash",), "figure": None, "limit": None},
        {"grade": "look", "missing": ("dash",), "limit": None},
        {"grade": "stop", "missing": ("dash",), "figure": None},
    ],
)
def test_silence_is_never_a_pass(change: dict[str, Any]) -> None:
    with pytest.raises(ValueError, match="missing parts must be 'look' without a figure"):
        replace(GOOD, **change)


@pytest.mark.parametrize("name", ["rule", "place", "says"])
@pytest.mark.parametrize("grade", ["stop", "change", "good"])
def test_every_finding_has_its_words(name: str, grade: str) -> None:
    change: dict[str, Any] = {name: "  ", "grade": grade}
    with pytest.raises(ValueError, match=f"{name} must not be empty"):
        replace(GOOD, **change)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"grade": "fine"}, "grade must be one of stop, change, look, good, got 'fine'"),
        ({"lock": "lunch"}, "lock must be one of carpet, wood is cut, .* got 'lunch'"),
        ({"figure": float("nan")}, "figure must be finite, got nan"),
        ({"worst": float("-inf")}, "worst must be finite, got -inf"),
        ({"sure": 1.01}, "sure must be from 0 to 1, got 1.01"),
        ({"sure": float("nan")}, "sure must be from 0 to 1, got nan"),
        ({"low": 9.7}, "low must not be above high, got 9.7, 9.6"),
    ],
)
def test_nonsense_is_refused(change: dict[str, Any], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        replace(GOOD, **change)


def test_a_remedy_says_what_to_do() -> None:
    remedy = Remedy("Cut 6 mm off the nose.", (Edit(("console", "from"), "64 ahead"),))
    assert replace(GOOD, remedies=(remedy,)).remedies[0].edits[0].value == "64 ahead"
    with pytest.raises(ValueError, match="says must not be empty"):
        Remedy(" ")
    with pytest.raises(ValueError, match="path must name a key"):
        Edit((), None)
