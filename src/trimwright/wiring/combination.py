"""The combination that a state is, in plain words: what else is on, and how it was looked for."""

from trimwright.wiring.outcome import Electrics


def combination(own: Electrics, number: int, *apart: str) -> str:
    """Return in words with what on a state stands, and among how many combinations it was found.

    Parameters
    ----------
    own : Electrics
        The solved wiring.
    number : int
        Of the state, in its rows.
    *apart : str
        What is not told to be on: what the words are about.
    """
    row = own.rows[number]
    loads = [one.name for one in own.wiring.loads if one.name not in apart]
    told = [one.on for one in own.rows if one.mode == row.mode]
    can = frozenset[str]().union(*told) - told[0].intersection(
        *told
    )  # what is always on is left out
    there = [name for name in loads if name in can]
    words = _with(there, [name for name in there if name in row.on])
    return f"Found worst {words} ({row.mode.name}): {_looked_for(own, number)}."


def _with(can: list[str], on: list[str]) -> str:
    """Return what is on of what can be."""
    off = [name for name in can if name not in on]
    if not on:
        return "with nothing else on"
    if not off:
        return "with all else on"
    if len(off) < len(on):
        return f"with all else on but {_listed(off)}"
    return f"with {_listed(on)} on"


def _listed(names: list[str]) -> str:
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def _looked_for(own: Electrics, number: int) -> str:
    """Return how many combinations of a state's mode were solved, of how many."""
    mode = own.rows[number].mode
    one = next((one for one in own.searched if one.mode == mode), None)
    if one is None:
        return "no combination of switches was looked for there"
    if one.all_solved:
        return f"all {one.combinations} combinations of switches and doors were solved"
    most = "" if one.whole else " or more"
    return (
        f"{one.solved} of {one.combinations}{most} combinations of switches and doors were solved,"
        " chosen by what each does by itself"
    )
