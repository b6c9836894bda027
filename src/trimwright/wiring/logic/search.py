"""Looking for a state that meets some demands: of all there are, the one that is plainest to tell."""

from collections.abc import Sequence
from collections.abc import Set as AbstractSet

from trimwright.wiring.logic.clauses import Clauses

SOLVER = "glucose4"  # the same clauses, the same answer


class Search:
    """A solver kept from question to question.

    `resting` are the literals of facts at rest; `plain` are literals that are told most easily if
    true, first the ones that matter most.
    """

    def __init__(self, clauses: Clauses, resting: Sequence[int], plain: Sequence[int]) -> None:
        """Start a solver with what has been said so far."""
        from pysat.solvers import Solver  # noqa: PLC0415  lazy: nobody without rules waits for it

        self._clauses = clauses
        self._resting = tuple(resting)
        self._plain = (*resting, *plain)
        self._moved: tuple[int, ...] | None = None
        self._solver = Solver(name=SOLVER)
        self._solver.set_phases(self._plain)

    def possible(self, *demands: int) -> bool:
        """Say whether all demands can be met at once."""
        self._told()
        return bool(self._solver.solve(assumptions=demands))

    def plainest(self, *demands: int) -> AbstractSet[int] | None:
        """Return the true literals of the state with the fewest facts off rest; None if none is.

        Of those with as few it is the first in the order of `resting` and `plain`: it is the same
        whatever the solver tries first.
        """
        if not self.possible(*demands):
            return None
        found = self._model()
        fewest = self._off_rest(found)
        asked = list(demands)
        if fewest:
            counted = self._counted()
            while fewest and self.possible(*demands, -counted[fewest - 1]):
                found = self._model()
                fewest = self._off_rest(found)
            asked += [-counted[fewest]] if fewest < len(counted) else []
        implied: AbstractSet[int] = frozenset()
        for literal in self._plain:
            if literal not in found and -literal not in implied:
                implied = self._implied(asked)
                if -literal not in implied and self.possible(*asked, literal):
                    found = self._model()
            asked.append(literal if literal in found else -literal)
        return found

    def _implied(self, demands: Sequence[int]) -> AbstractSet[int]:
        """Return literals that follow from demands clause by clause, with nothing tried."""
        self._told()
        return frozenset(self._solver.propagate(assumptions=demands)[1])

    def _told(self) -> None:
        self._solver.append_formula(self._clauses.taken())

    def _model(self) -> AbstractSet[int]:
        met = self._solver.get_model() or []
        unmet = range(len(met) + 1, self._clauses.last + 1)  # literals that no clause is about
        return frozenset((*met, *(-literal for literal in unmet)))

    def _off_rest(self, model: AbstractSet[int]) -> int:
        return sum(literal not in model for literal in self._resting)

    def _counted(self) -> tuple[int, ...]:
        if self._moved is None:
            self._moved = self._clauses.at_least([-literal for literal in self._resting])
        return self._moved
