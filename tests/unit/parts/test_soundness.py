"""Designs that cannot be made are told, with the key to change, and give no panels."""

import numpy as np
import pytest
from msgspec.structs import replace

from trimwright.parts import BulkheadPlan, OpeningPlan, Plan, Skin, carcass

LINE = ((0.0, 110.0), (600.0, 110.0))
PLAIN = Plan(((0.0, 100.0), (600.0, 100.0)), LINE, LINE, 0.0, 600.0, 12.0, 680.0)


def plate(height: float) -> Skin:
    x, y = np.meshgrid(np.linspace(-50.0, 650.0, 15), np.linspace(-300.0, 300.0, 31), indexing="ij")
    normals = np.broadcast_to((0.0, 0.0, 1.0), (*x.shape, 3))
    return Skin(np.stack([x, y, 0 * x + height], -1), normals)


def faults(changes: dict[str, object], height: float = 0.0) -> list[tuple[str, str]]:
    made = carcass(replace(PLAIN, **changes), plate(height))
    assert (made.panels == ()) == bool(made.unbuildable)
    return [(fault.key, fault.says) for fault in made.unbuildable]


def test_sound_design_has_no_faults() -> None:
    assert faults({}) == []


@pytest.mark.parametrize(
    ("changes", "key", "words"),
    [
        ({"end": -10.0}, "console.to", "before it begins"),
        ({"deck": ((0.0, 100.0),)}, "console.deck", "needs two places"),
        ({"left": ((0.0, 110.0), (0.0, 110.0))}, "console.widths", "needs two places"),
        ({"lean_deg": 50.0}, "console.walls.lean", "past 45"),
        ({"thickness": 0.0}, "console.sheet", "no thickness"),
        (
            {"deck_joint": "rebate", "joint_depth": 12.0},
            "console.walls.joint depth",
            "12 mm goes through the 12 mm sheet",
        ),
        ({"deck_joint": "housing"}, "console.walls.joint depth", "needs a depth above 0"),
        (
            {"left": ((0.0, 10.0), (600.0, 110.0)), "right": ((0.0, 10.0), (600.0, 110.0))},
            "console.widths",
            "cross each other at the datum",
        ),
        (
            {"bulkheads": (BulkheadPlan("b", 597.0),)},
            "console.bulkheads.0.at",
            "to 594 mm behind it is inside",
        ),
        (
            {"bulkheads": (BulkheadPlan("a", 300.0), BulkheadPlan("b", 305.0))},
            "console.bulkheads.1.at",
            "stands in the bulkhead a",
        ),
        (
            {
                "bulkheads": (BulkheadPlan("b", 300.0, "housing"),),
                "joint_depth": 5.0,
                "left": ((0.0, 110.0), (300.0, 100.0), (600.0, 110.0)),
            },
            "console.bulkheads.0.at",
            "across a mitre",
        ),
        (
            {"openings": (OpeningPlan("o", 30.0, 0.0, 80.0, 60.0, 5.0),)},
            "console.openings.0.at",
            "runs out of the flat deck panel",
        ),
        (
            {"openings": (OpeningPlan("o", 300.0, 80.0, 80.0, 60.0, 5.0),)},
            "console.openings.0.at",
            "runs out of the flat deck panel",
        ),
        (
            {"openings": (OpeningPlan("o", 300.0, 0.0, 80.0, 60.0, 31.0),)},
            "console.openings.0.corner",
            "more than half of a side",
        ),
        (
            {
                "openings": (
                    OpeningPlan("o", 300.0, 0.0, 80.0, 60.0, 5.0),
                    OpeningPlan("p", 350.0, 0.0, 80.0, 60.0, 5.0),
                )
            },
            "console.openings.1.at",
            "runs into another opening",
        ),
        (
            {"deck": ((0.0, 100.0), (100.0, 200.0), (101.0, 200.0), (201.0, 100.0))},
            "console.deck",
            "two kinks lie closer",
        ),
    ],
)
def test_faults_name_key_and_reason(changes: dict[str, object], key: str, words: str) -> None:
    found = faults(changes)
    assert any(k == key and words in says for k, says in found), found


def test_deck_in_the_tunnel_is_told_by_how_much() -> None:
    found = faults({}, height=91.0)
    assert ("console.deck", "its underside lies 3 mm in the covered tunnel at 50 mm behind") in [
        (key, says.replace("the datum", "50 mm behind")) for key, says in found
    ]


def test_scribe_above_the_deck_is_told() -> None:
    found = faults({}, height=101.0)
    assert any("scribe meets the deck" in says for _, says in found)


def test_bulkhead_without_height_is_told() -> None:
    x, y = np.meshgrid(np.linspace(-50.0, 650.0, 15), np.linspace(-300.0, 300.0, 31), indexing="ij")
    ridge = np.where(np.abs(y) < 50, 95.0, 0.0)
    normals = np.broadcast_to((0.0, 0.0, 1.0), (*x.shape, 3))
    skin = Skin(np.stack([x, y, ridge], -1), normals)
    made = carcass(replace(PLAIN, bulkheads=(BulkheadPlan("b", 300.0),)), skin)
    assert any(f.key == "console.bulkheads.0.at" for f in made.unbuildable)
