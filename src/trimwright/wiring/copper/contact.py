"""Contacts: the rating that a switch or relay needs for what it switches."""

from trimwright.stock import contact_factor


def contact_rating(current_a: float, load: str, *, system_v: float = 12.0) -> float:
    """Return the nominal rating [A] that a contact needs for a lasting current.

    A contact rated for alternating current may not be taken at that rating on direct current.

    Parameters
    ----------
    current_a : float
        What the load takes for good [A], from 0 up.
    load : {'lamp', 'inductive', 'resistive', 'motor'}
        What the load is to the contact.
    system_v : float, default 12
        Voltage of the system [V]: 12 or 28.

    Raises
    ------
    ValueError
        If the current is below 0, or no factor is printed for the load.

    References
    ----------
    ac-43-13-1b-2001

    Examples
    --------
    >>> contact_rating(5.0, "lamp"), contact_rating(5.0, "motor")
    (25.0, 10.0)
    """
    if current_a < 0:
        raise ValueError(f"current_a must be 0 or more, got {current_a:g}")
    return current_a * contact_factor(load, system_v=system_v).factor
