"""What is said when a written figure cannot be read."""


class QuantityError(ValueError):
    """A figure as written cannot be taken for a quantity.

    Parameters
    ----------
    found : str
        What was written.
    expected : str
        What would have been right, in words: 'a length'.
    example : str
        One right spelling.
    readings : tuple of str
        What the writer may have meant, where there is more than one way to read it.

    Examples
    --------
    >>> str(QuantityError("1,250 mm", "a length", "12.5 mm", ("1250 mm", "1.25 mm")))
    'found "1,250 mm"; expected a length, such as: 12.5 mm (it could mean 1250 mm or 1.25 mm)'
    """

    def __init__(
        self, found: str, expected: str, example: str, readings: tuple[str, ...] = ()
    ) -> None:
        self.found = found
        self.expected = expected
        self.example = example
        self.readings = readings
        meant = f" (it could mean {' or '.join(readings)})" if readings else ""
        super().__init__(f'found "{found}"; expected {expected}, such as: {example}{meant}')
