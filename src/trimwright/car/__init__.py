"""Car: what was measured of the car, as shapes, in as many possible worlds as are asked for.

In: the car of a build and rows of deviations of its factors. Out: the tunnel's skin, bare or
offset, and heights on it; the carpet's law; dash, seats, lever, handbrake and other bodies, each
over the rows of a `World`; the ledger of every doubt; readings that look wrong. Nothing here
knows the console.
"""

from trimwright.car.doubt_list import default_doubt, ledger
from trimwright.car.new_section import NewSection, worth_a_section
from trimwright.car.occupant import BrakeSwing, SeatSide, handbrake, seats
from trimwright.car.pile import CarpetBed, carpet
from trimwright.car.ridge import Ridge, Ridged, raised
from trimwright.car.shape import Unmeasured
from trimwright.car.shift_lever import LeverPositions, lever
from trimwright.car.skin import Drop, Grid, Hit, Plumb, Tunnel, tunnel
from trimwright.car.solid import SolidBody, bodies
from trimwright.car.underside import DashUnderside, dash
from trimwright.car.world import CLAMP, MODEL, World, of_cars
from trimwright.car.wrong_reading import SectionAdjustment, Suspect, adjusted

__all__ = [
    "CLAMP",
    "MODEL",
    "BrakeSwing",
    "CarpetBed",
    "DashUnderside",
    "Drop",
    "Grid",
    "Hit",
    "LeverPositions",
    "NewSection",
    "Plumb",
    "Ridge",
    "Ridged",
    "SeatSide",
    "SectionAdjustment",
    "SolidBody",
    "Suspect",
    "Tunnel",
    "Unmeasured",
    "World",
    "adjusted",
    "bodies",
    "carpet",
    "dash",
    "default_doubt",
    "handbrake",
    "ledger",
    "lever",
    "of_cars",
    "raised",
    "seats",
    "tunnel",
    "worth_a_section",
]
