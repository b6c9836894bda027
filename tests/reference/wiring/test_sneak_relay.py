"""A relay pulled in by what sneaks past a lost ground, against ngspice: before it and after.

Ngspice solves the circuit with the contact open and with it closed. Whether the coil has its 8 V in
the first, and what stands everywhere in the second, is asked of its voltages.
"""

from pathlib import Path

import numpy as np
import pytest

from tests.reference.wiring.test_ngspice import AGREES, simulated
from tests.unit.wiring.test_rig import HEATING, IGNITION, TAIL, bridge
from trimwright.wiring.lit import facts_put
from trimwright.wiring.logic import at_rest
from trimwright.wiring.metered import Stand, metered
from trimwright.wiring.network import solve
from trimwright.wiring.rig import PULLS_IN_V, Rig, rig_of, stood


def theirs(rig: Rig, stand: Stand, folder: Path) -> dict[str, float]:
    """Return the voltages that ngspice finds in a stand, by the names of the nodes [V]."""
    states = metered(rig.circuit, [stand], rig.network, rig.wiring)
    found = simulated(folder, [(states, solve(rig.circuit, states))])
    nodes = {f"n0_0_{number}": name for number, name in enumerate(rig.circuit.nodes)}
    return {nodes[name]: volts for name, volts in found.items() if name in nodes}


@pytest.mark.parametrize(("plate", "pulled"), [("2 A", ("buzz relay",)), ("0.2 A", ())])
def test_the_coil_pulls_in_where_ngspice_gives_it_enough(
    plate: str,
    pulled: tuple[str, ...],
    tmp_path: Path,
) -> None:
    rig = rig_of(bridge(plate=plate), "mm")
    assert rig is not None
    seen = at_rest(rig.board(TAIL), facts_put(rig.network, IGNITION, HEATING))
    assert seen is not None
    begun = stood(IGNITION, seen, TAIL)
    met, (settled,) = rig.met([begun])
    before = theirs(rig, begun, tmp_path)
    coil = before["buzz relay 86"] - before["buzz relay 85"]
    assert (abs(coil) >= PULLS_IN_V) == bool(pulled)
    assert settled.state.pulled == pulled
    after = theirs(rig, settled, tmp_path)
    ours = {name: float(met.at(name)[0]) for name in after}
    known = sorted(name for name, volts in ours.items() if np.isfinite(volts))
    assert len(known) > 15
    for name in known:
        assert ours[name] == pytest.approx(after[name], abs=AGREES), name
