"""The figures of a build in many possible worlds at once."""

from collections.abc import Callable
from functools import cached_property, lru_cache, wraps
from typing import Final, TypeVar

import numpy as np
from msgspec import Struct, field
from numpy.typing import NDArray

from trimwright.build import Build, Entry, said, value
from trimwright.chance import Ledger
from trimwright.quantities import Quantity
from trimwright.stock import nut_factor

Floats = NDArray[np.float64]
Found = TypeVar("Found")
KEPT = 12  # rows of cars that each thing is kept for: those of one check

# figures of the model that no builder reads, as taken when every score is 0
MODEL: Final[dict[str, float]] = {
    "model:friction": 0.25,  # carpet against wood; anywhere from 0 to 0.5
    "model:hand squeeze pressure": 300.0,  # kPa; anywhere from 100 to 500
}
CLAMP: Final = "model:clamp "  # then the bolt's number: its nut factor K in T = K F d
NUT_FACTOR: Final = nut_factor("zinc plated")


class Cars:
    """The cars of some worlds: two are equal where the same car is off by the same figures."""

    __slots__ = ("_alike", "world")

    def __init__(self, world: "World") -> None:
        """Take the cars of some worlds."""
        self.world = world
        self._alike: tuple[int, bytes] | None = None

    @property
    def alike(self) -> tuple[int, bytes]:
        """What is the same for equal ones: of the car, and by how much every figure is off."""
        if self._alike is None:
            self._alike = hash(self.world.build.car), self.world.deviations.tobytes()
        return self._alike

    def __eq__(self, other: object) -> bool:
        """Return whether the same is found in both."""
        if not isinstance(other, Cars) or self.alike != other.alike:
            return False
        car, another = self.world.build.car, other.world.build.car
        return (car is another or car == another) and self.world.ledger == other.world.ledger

    def __hash__(self) -> int:
        """Return a number that is the same for equal ones."""
        return hash(self.alike)


class World(Struct, frozen=True, eq=False, dict=True):
    """A build with its factors off by `deviations` (rows, factors), each in its factor's unit."""

    build: Build
    ledger: Ledger
    deviations: Floats
    taken: dict[tuple[str, ...], Floats] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse deviations that are not the ledger's."""
        if self.deviations.ndim != 2 or self.deviations.shape[1] != len(self.ledger):  # noqa: PLR2004  rows x factors
            raise ValueError(
                f"deviations must have {len(self.ledger)} columns, got {self.deviations.shape}"
            )

    @cached_property
    def columns(self) -> dict[str, int]:
        """The column of each factor's key."""
        return {factor.key: column for column, factor in enumerate(self.ledger.factors)}

    @cached_property
    def cars(self) -> Cars:
        """What of the worlds is the car's alone."""
        return Cars(self)

    @cached_property
    def as_read(self) -> bool:
        """Whether it is one row, with no figure off."""
        return self.rows == 1 and not self.deviations.any()

    @classmethod
    def nominal(cls, build: Build, ledger: Ledger) -> "World":
        """Return the one world in which every figure is as written."""
        return cls(build, ledger, np.zeros((1, len(ledger))))

    @property
    def rows(self) -> int:
        """How many worlds there are."""
        return len(self.deviations)

    def deviation(self, key: str) -> Floats:
        """Return how far a figure is off in each world, (rows,); 0 where nothing doubts it."""
        column = self.columns.get(key)
        return np.zeros(self.rows) if column is None else self.deviations[:, column]

    def of(self, key: str) -> Floats:
        """Return a figure in each world, (rows,), by its dotted key or as 'model:...'.

        Raises
        ------
        KeyError
            If neither the build nor the model has such a figure.
        """
        if key.startswith(CLAMP):
            nominal = (NUT_FACTOR.low + NUT_FACTOR.high) / 2
        else:
            nominal = MODEL[key] if key in MODEL else value(self.build, key).value
        return nominal + self.deviation(key)

    def read(self, entry: Entry, name: str) -> Floats:
        """Return a field of an entry of the build in each world, (rows,)."""
        figure: Quantity = getattr(entry, name)
        key, times = said(entry, name)
        return figure.value + times * self.deviation(key)

    def shift(self, keys: tuple[str, ...], share: Floats) -> Floats:
        """Return `share` (n, keys) times the deviations of `keys`, (rows, n)."""
        return np.asarray(self._taken(keys) @ share.T)

    def _taken(self, keys: tuple[str, ...]) -> Floats:
        """Return the deviations of keys, (rows, keys); they are asked for several times over."""
        if keys not in self.taken:
            columns = [self.columns.get(key) for key in keys]
            none = np.zeros(self.rows)
            parts = [none if c is None else self.deviations[:, c] for c in columns]
            self.taken[keys] = np.stack(parts, axis=-1) if parts else np.zeros((self.rows, 0))
        return self.taken[keys]


def of_cars(find: Callable[[World], Found]) -> Callable[[World], Found]:
    """Return a function of worlds that hangs on nothing but their cars, found once for each.

    Many consoles are looked at in the same cars.
    """

    @lru_cache(maxsize=KEPT)
    def found(cars: Cars) -> Found:
        return find(cars.world)

    @wraps(find)
    def seen(world: World) -> Found:
        return found(world.cars)

    return seen
