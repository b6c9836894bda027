"""What can be done about a finding, as edits to the build file."""

from msgspec import Struct


class Edit(Struct, frozen=True):
    """One change to the build file: the text at `path` becomes `value`; None takes it out.

    Parameters
    ----------
    path : tuple of str or int
        Keys and places in lists, from the top of the file, as written there.
    value : str or None
        The text to write, spliced in as it stands.
    inserts : bool, default False
        Whether the last place in a list that the path names is a new one: what stands there, and
        all after it, moves on by one.

    Raises
    ------
    ValueError
        If the path is empty, or inserts without a place in a list or a text.

    Examples
    --------
    >>> Edit(("console", "deck", 0, "height"), "190").path
    ('console', 'deck', 0, 'height')
    """

    path: tuple[str | int, ...]
    value: str | None
    inserts: bool = False

    def __post_init__(self) -> None:
        """Refuse an edit of nothing in particular, and a new place without a list or a text."""
        if not self.path:
            raise ValueError("path must name a key, got ()")
        listed = any(isinstance(step, int) for step in self.path)
        if self.inserts and (self.value is None or not listed):
            raise ValueError(f"inserts must go with a text in a list, got {self.path!r}")


class Remedy(Struct, frozen=True):
    """What to do, in words with its amount, and the edits that write it down (none: by hand).

    Raises
    ------
    ValueError
        If it says nothing.

    Examples
    --------
    >>> Remedy("Cut 6 mm off the nose.", (Edit(("console", "from"), "64 ahead"),)).says
    'Cut 6 mm off the nose.'
    """

    says: str
    edits: tuple[Edit, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a remedy without words."""
        if not self.says.strip():
            raise ValueError(f"says must not be empty, got {self.says!r}")
