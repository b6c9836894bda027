"""Random networks against ngspice, a circuit simulator: every node's voltage.

All networks of a test stand side by side in one deck. A state's open elements are left out of it,
and so is what then floats, found here by walking along what conducts. Where loads take constant
power there are lower solutions too: ngspice begins from our voltages, rounded to whole volts. Which
loads have dropped out and which alternators give their most is taken over; that they then must is
checked against ngspice's voltages.
"""

import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from tests.invented_circuit import Size, circuit, opened
from trimwright.wiring.network import (
    Alternator,
    Battery,
    Circuit,
    ConstantPower,
    Lamp,
    Resistor,
    Solved,
    States,
    solve,
)

FEED_V = 12.6
AGREES = 1e-6 * FEED_V
OPTIONS = ".options reltol=1e-10 vntol=1e-12 abstol=1e-13 gmin=1e-20 itl1=1000"
ROWS = 6
CASES = {
    "resistors": (24, Size()),
    "several sources": (12, Size(batteries=3)),
    "constant power": (16, Size(electronics=8)),
    "lamps": (12, Size(lamps=8, electronics=2)),
    "alternators": (12, Size(alternators=2, electronics=5)),
}


def component(states: States, solved: Solved, place: tuple[int, int], label: str, ends: str) -> str:
    """Return the lines of the deck for one element, at a row and column of the states."""
    row, k = place
    one = solved.circuit.elements[k]
    mho, volts = states.siemens[row, k], states.volts[row, k]
    plus, minus = ends.split()
    across = f"v({plus},{minus})"
    match one:
        case Resistor():
            return f"r{label} {ends} {1 / mho:.17g}"
        case Battery() | Alternator() if not solved.limited[row, k]:
            inner, back = f"inside_{label}", solved.currents[row, k] > 0
            ohms = (1e7 if back and isinstance(one, Alternator) else 1.0) / mho
            return f"v{label} {inner} {minus} {volts:.17g}\nr{label} {plus} {inner} {ohms:.17g}"
        case Alternator():
            return f"i{label} {minus} {plus} {states.most_a[row, k]:.17g}"
        case Lamp():
            hot = f"{mho:.17g}*pow(max(abs({across}),1e-11)/{volts:.17g},-0.45)"
            return f"b{label} {ends} i={across}*min({states.cold_siemens[row, k]:.17g},{hot})"
        case ConstantPower():
            return f"b{label} {ends} i={states.watts[row, k]:.17g}*{across}/max({across}^2,{volts**2:.17g})"
    raise AssertionError(one)


def alive(states: States, row: int) -> NDArray[np.bool_]:
    """Return which elements are not open."""
    return np.asarray((states.siemens[row] > 0) | (states.watts[row] > 0))


def runs(states: States, solved: Solved, row: int) -> NDArray[np.bool_]:
    """Return which elements stand in the deck: those that are neither open nor dropped out."""
    return np.asarray(alive(states, row) & ~solved.dropped[row])


def reached(made: Circuit, states: States, row: int) -> set[int]:
    """Return the nodes that hang on the reference by anything but constant-power loads alone."""
    conducts = (alive(states, row) & ~made.kind(ConstantPower)) | (states.bypass[row] > 0)
    found, waiting = {0}, [0]
    while waiting:
        node = waiting.pop()
        near = made.ends[conducts & np.any(made.ends == node, axis=1)].ravel().tolist()
        waiting += set(near) - found
        found |= set(near)
    return found


def deck(networks: list[tuple[States, Solved]]) -> Iterator[str]:
    """Yield the lines of a deck that holds every state of every network."""
    yield "networks"
    for n, (states, solved) in enumerate(networks):
        made = solved.circuit
        for row in range(states.rows):
            hangs = reached(made, states, row)
            names = [f"n{n}_{row}_{k}" if k else "0" for k in range(len(made.nodes))]
            for k in np.flatnonzero(runs(states, solved, row)):
                plus, minus = made.ends[k]
                if {int(plus), int(minus)} <= hangs:
                    label, ends = f"{n}_{row}_{k}", f"{names[plus]} {names[minus]}"
                    yield component(states, solved, (row, int(k)), label, ends)
            for k in np.flatnonzero(states.bypass[row] > 0):
                plus, minus = made.ends[k]
                if {int(plus), int(minus)} <= hangs:
                    ohms = 1 / states.bypass[row, k]
                    yield f"rbeside_{n}_{row}_{k} {names[plus]} {names[minus]} {ohms:.17g}"
            for node in sorted(hangs - {0}):
                yield f".nodeset v({names[node]})={solved.voltages[row, node]:.0f}"
    yield from (OPTIONS, ".control", "op", "set filetype=ascii", "write out.raw all", "quit")
    yield from (".endc", ".end")


def simulated(folder: Path, networks: list[tuple[States, Solved]]) -> dict[str, float]:
    """Return the voltages that ngspice finds, by the deck's names of nodes [V]."""
    program = shutil.which("ngspice")
    assert program, "ngspice is not installed: on Debian, apt-get install ngspice"
    (folder / "networks.cir").write_text("\n".join(deck(networks)), "utf-8")
    done = subprocess.run(  # noqa: S603  a fixed command
        [program, "-b", "networks.cir"], cwd=folder, capture_output=True, text=True, check=False
    )
    said = done.stdout + done.stderr
    assert (folder / "out.raw").is_file(), said
    head, _, body = (folder / "out.raw").read_text("utf-8").partition("Values:")
    names = [line.split()[1] for line in head.partition("Variables:\n")[2].splitlines()]
    figures = [float(word) for word in body.split()[1:]]
    return {
        name[2:-1]: figure
        for name, figure in zip(names, figures, strict=True)
        if name.startswith("v(")
    }


def networks(name: str) -> list[tuple[States, Solved]]:
    """Return the random networks of a case, each with its states, solved."""
    count, size = CASES[name]
    rng = np.random.default_rng([20261126, *name.encode()])
    cases = [(made, opened(rng, made, ROWS)) for made in (circuit(rng, size) for _ in range(count))]
    return [(states, solve(made, states)) for made, states in cases]


def test_at_least_two_hundred_networks_are_compared() -> None:
    assert sum(count for count, _ in CASES.values()) * ROWS >= 200


@pytest.mark.parametrize("name", CASES)
def test_every_node_has_the_voltage_that_ngspice_finds(name: str, tmp_path: Path) -> None:
    cases = networks(name)
    found = simulated(tmp_path, cases)
    for n, (states, solved) in enumerate(cases):
        assert not solved.failed.any()
        assert not solved.collapsed.any()
        for row in range(states.rows):
            hangs = sorted(reached(solved.circuit, states, row) - {0})
            theirs = [found[f"n{n}_{row}_{k}"] for k in hangs]
            np.testing.assert_allclose(solved.voltages[row, hangs], theirs, rtol=0, atol=AGREES)
            known = dict(zip(hangs, theirs, strict=True)) | {0: 0.0}
            assert_modes_hold(states, solved, row, known)


@pytest.mark.parametrize("name", CASES)
def test_what_floats_is_named_and_without_a_source_carries_nothing(name: str) -> None:
    loose = 0
    for states, solved in networks(name):
        made = solved.circuit
        for row in range(states.rows):
            hangs = reached(made, states, row)
            floats = sorted(set(range(len(made.nodes))) - hangs)
            assert np.flatnonzero(solved.floating[row]).tolist() == floats
            assert np.isnan(solved.voltages[row, floats]).all()
            apart = np.isin(made.ends, floats).any(axis=1)
            if not (apart & alive(states, row) & made.kind(Battery, Alternator)).any():
                loose += len(floats)
                np.testing.assert_allclose(solved.currents[row, apart], 0.0, atol=1e-12)
    assert loose >= 7


def test_most_constant_power_loads_run() -> None:
    cases = networks("constant power")
    off = sum(int(solved.dropped.sum()) for _, solved in cases)
    switched = sum(int((states.watts > 0).sum()) for states, _ in cases)
    assert off < 0.1 * switched


def assert_modes_hold(states: States, solved: Solved, row: int, volts: dict[int, float]) -> None:
    """Check at ngspice's voltages that loads which run have enough, and alternators' limits."""
    made = solved.circuit
    for k in np.flatnonzero(alive(states, row) & ~solved.dropped[row]):
        plus, minus = made.ends[k].tolist()
        if plus not in volts or minus not in volts:
            continue
        across = volts[plus] - volts[minus]
        free = states.siemens[row, k] * (states.volts[row, k] - across)
        match made.elements[k]:
            case ConstantPower():
                assert across >= states.volts[row, k] - AGREES
            case Alternator():
                assert (free >= states.most_a[row, k] - 1e-3) == solved.limited[row, k]
