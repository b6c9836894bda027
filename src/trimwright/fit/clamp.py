"""How hard a screw pulls the console down."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def clamp_force_n(torque_n_m: Floats, nut_factor: Floats, diameter_mm: float) -> Floats:
    """Return the pull of a screw done up with a torque, F = T / (K d).

    Parameters
    ----------
    torque_n_m : ndarray, shape (rows,)
        Drive torque [N m].
    nut_factor : ndarray, shape (rows,)
        K, between torque and pull; 0.15 to 0.30 is common practice, no source.
    diameter_mm : float
        The thread's nominal diameter [mm].

    Returns
    -------
    ndarray, shape (rows,)
        Pull [N].

    Raises
    ------
    ValueError
        If the diameter or a nut factor is not above 0.

    Examples
    --------
    >>> clamp_force_n(np.array([4.0]), np.array([0.2]), 6.0).round(1)
    array([3333.3])
    """
    if diameter_mm <= 0 or np.any(nut_factor <= 0):
        raise ValueError(f"diameter_mm and nut_factor must be above 0, got {diameter_mm:g}")
    return np.asarray(torque_n_m * 1e3 / (nut_factor * diameter_mm))
