"""The wood of a console that a test's build surely has."""

from trimwright.cabin import Cabin
from trimwright.parts import Carcass


def carcass(found: Cabin) -> Carcass:
    """Return the carcass: the build of the test has a console on a measured tunnel."""
    assert found.carcass is not None
    return found.carcass
