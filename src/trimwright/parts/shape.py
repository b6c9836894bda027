"""The planes of a carcass: deck lines, wall faces, and how deep each joint goes."""

from msgspec import Struct

from trimwright.parts.plan import Plan
from trimwright.parts.profile import Profile, profile
from trimwright.parts.side import Side, SideName, side


class Shape(Struct, frozen=True):
    """Deck and sides of a plan, before anything is scribed.

    Heights of lines are given as depths below the deck's top, square to it; places in a wall as
    depths below its outer face.
    """

    plan: Plan
    deck: Profile
    left: Side
    right: Side

    def side(self, name: SideName) -> Side:
        """Return the walls of one side."""
        return self.left if name == "left" else self.right

    @property
    def deck_thickness(self) -> float:
        """Thickness of the deck [mm]."""
        return self.plan.thickness_of("deck")

    def wall_thickness(self, name: SideName) -> float:
        """Return the thickness of the walls of one side [mm]."""
        return self.plan.thickness_of(f"{name} wall")

    @property
    def depth(self) -> float:
        """Depth of the joint between deck and walls [mm], 0 for a butt."""
        return 0.0 if self.plan.deck_joint == "butt" else self.plan.joint_depth

    @property
    def lip(self) -> float:
        """What stands beyond a housing: one thickness, against short grain.

        Common practice, no source [mm].
        """
        return self.plan.thickness if self.plan.deck_joint == "housing" else 0.0

    @property
    def wall_top(self) -> float:
        """Top edge of the walls, as a depth below the deck's top [mm]."""
        if self.plan.through == "walls":
            return -self.lip
        return self.deck_thickness - self.depth

    def deck_side(self, name: SideName) -> float:
        """Edge of the deck's top face, as a depth below the wall's outer face [mm]."""
        if self.plan.through == "deck":
            return -self.lip
        return self.wall_thickness(name) - self.depth

    def deck_names(self) -> tuple[str, ...]:
        """Return the names of the deck panels, front to rear."""
        return numbered("deck", len(self.deck.points) - 1)

    def wall_names(self, name: SideName) -> tuple[str, ...]:
        """Return the names of the walls of one side, front to rear."""
        return numbered(f"{name} wall", len(self.side(name).a))


def numbered(name: str, count: int) -> tuple[str, ...]:
    """Return names for a run of panels, numbered if there is more than one.

    Parameters
    ----------
    name : str
        Of the run.
    count : int
        How many, at least 1.

    Returns
    -------
    tuple of str

    Examples
    --------
    >>> numbered("deck", 1), numbered("deck", 2)
    (('deck',), ('deck 1', 'deck 2'))
    """
    return (name,) if count == 1 else tuple(f"{name} {i + 1}" for i in range(count))


def shape(plan: Plan) -> Shape:
    """Return the planes of a plan.

    Parameters
    ----------
    plan : Plan
        Plain figures of a console.

    Returns
    -------
    Shape

    Examples
    --------
    >>> line = ((0.0, 110.0), (600.0, 110.0))
    >>> shape(Plan(line, line, line, 0.0, 600.0, 12.0, 680.0)).deck_side("left")
    12.0
    """
    deck = profile(plan.deck, plan.start, plan.end)
    left = side("left", plan.left, deck, plan.lean_deg)
    right = side("right", plan.right, deck, plan.lean_deg)
    return Shape(plan, deck, left, right)
