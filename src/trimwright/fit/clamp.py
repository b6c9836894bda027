"""How hard a screw pulls the console down."""


def clamp_force_n(torque_n_m: float, nut_factor: float, diameter_mm: float) -> float:
    """Return the pull of a screw done up with a torque, F = T / (K d).

    Parameters
    ----------
    torque_n_m : float
        Drive torque [N m].
    nut_factor : float
        K, between torque and pull.
    diameter_mm : float
        The thread's nominal diameter [mm].

    Returns
    -------
    float
        Pull [N].

    Raises
    ------
    ValueError
        If the diameter or the nut factor is not above 0.

    Examples
    --------
    >>> round(clamp_force_n(6.0, 0.2, 6.0))
    5000
    """
    if diameter_mm <= 0 or nut_factor <= 0:
        raise ValueError(
            f"diameter_mm and nut_factor must be above 0, got {diameter_mm:g}, {nut_factor:g}"
        )
    return torque_n_m * 1e3 / (nut_factor * diameter_mm)
