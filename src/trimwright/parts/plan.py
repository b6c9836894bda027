"""What a carcass is made from, in plain figures."""

from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

DeckJoint = Literal["butt", "rebate", "housing"]
Through = Literal["walls", "deck"]


class BulkheadPlan(Struct, frozen=True):
    """A sheet across the console; `at` is the middle of its thickness [mm]."""

    name: str
    at: float
    joint: Literal["butt", "housing"] = "butt"


class OpeningPlan(Struct, frozen=True):
    """A hole in the deck: a rectangle with round corners; corner = half of both for a circle.

    `at` is taped along the car to the middle of the hole at the deck's top, `off_middle` is above
    0 to the right; `long` and `wide` lie along and across the face [mm].
    """

    name: str
    at: float
    off_middle: float
    long: float
    wide: float
    corner: float


class BuiltHeight(Struct, frozen=True):
    """A wall or bulkhead as it was really made: its height up the outer face at one place [mm]."""

    panel: str
    at: float
    reads: float


class Plan(Struct, frozen=True):
    """A console in plain figures: mm, degrees, kg/m3; x rearward, half-widths outside and bare."""

    deck: tuple[tuple[float, float], ...]
    left: tuple[tuple[float, float], ...]
    right: tuple[tuple[float, float], ...]
    start: float
    end: float
    thickness: float
    density: float
    material: str = "plywood"
    deck_joint: DeckJoint = "butt"
    through: Through = "walls"
    joint_depth: float = 0.0
    lean_deg: float = 0.0
    bulkheads: tuple[BulkheadPlan, ...] = ()
    openings: tuple[OpeningPlan, ...] = ()
    edge: Literal["bevelled", "square", "as suits"] = "bevelled"
    deeper: float = 0.0
    tilt_deg: float = 45.0
    floor_z: float | None = None
    built_thickness: tuple[tuple[str, float], ...] = ()
    built_heights: tuple[BuiltHeight, ...] = ()

    def thickness_of(self, panel: str) -> float:
        """Return the thickness of a panel, as measured if it was [mm].

        Parameters
        ----------
        panel : str
            Name of the panel ('left wall 2'); a reading of 'left wall' counts for each of them.

        Returns
        -------
        float

        Examples
        --------
        >>> line = ((0.0, 110.0), (600.0, 110.0))
        >>> plan = Plan(line, line, line, 0.0, 600.0, 12.0, 680.0,
        ...             built_thickness=(("deck", 11.6),))
        >>> plan.thickness_of("deck 2"), plan.thickness_of("left wall")
        (11.6, 12.0)
        """
        read = [t for name, t in self.built_thickness if same_panel(name, panel)]
        return read[-1] if read else self.thickness

    def planes(self) -> "Plan":
        """Return the plan of its planes alone: nothing cut into the deck, nothing scribed.

        Returns
        -------
        Plan
            Equal for plans that differ in openings, bulkheads or the scribe only.
        """
        return replace(
            self,
            bulkheads=(),
            openings=(),
            edge="bevelled",
            deeper=0.0,
            tilt_deg=0.0,
            floor_z=None,
            built_heights=(),
        )


def same_panel(name: str, panel: str) -> bool:
    """Tell whether a name in the file means a panel.

    Parameters
    ----------
    name : str
        As written: a panel, or the run of panels it is one of.
    panel : str
        Name of a panel.

    Returns
    -------
    bool

    Examples
    --------
    >>> same_panel("left wall", "left wall 2"), same_panel("deck 1", "deck 2")
    (True, False)
    """
    return panel == name or (panel.startswith(f"{name} ") and panel[len(name) + 1 :].isdigit())
