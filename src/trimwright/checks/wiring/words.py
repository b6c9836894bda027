"""Words that several rules of the wiring use alike."""

from trimwright.build import Wiring, by_name


def sentence(text: str) -> str:
    """Return a text with a capital at its beginning; the rest stays as the builder wrote it.

    Examples
    --------
    >>> sentence("fog lamps")
    'Fog lamps'
    """
    return text[:1].upper() + text[1:]


def new_name(wiring: Wiring, name: str) -> str:
    """Return a name that no device has yet: the one asked for, else with a number behind it."""
    taken, number, found = set(by_name(wiring)), 2, name
    while found in taken:
        found, number = f"{name} {number}", number + 1
    return found
