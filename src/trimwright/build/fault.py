"""What is wrong with a build file, said all at once."""

from msgspec import Struct

MOST_SAID = 40  # faults said in one go: nobody mends more before looking again


class Fault(Struct, frozen=True, eq=False):
    """One thing wrong with the file: line (from 1), key path, and what would be right.

    `hangs_on` are the dotted keys, besides its own, that it was found by; `among` are the lists
    that hold nothing of the name in `found`.
    """

    line: int
    path: tuple[str | int, ...]
    found: str
    expected: str
    example: str = ""
    readings: tuple[str, ...] = ()
    hangs_on: tuple[str, ...] = ()
    among: tuple[str, ...] = ()

    def __str__(self) -> str:
        """Return the fault as one line."""
        place = f"line {self.line}"
        if self.path:
            place += f", {spoken(self.path)}"
        says = f"{place}: found {self.found}; expected {self.expected}"
        if self.example:
            says += f", such as: {self.example}"
        if self.readings:
            says += f" (it could mean {' or '.join(self.readings)})"
        return says


def spoken(path: tuple[str | int, ...]) -> str:
    """Return a key path in words, items of a list counted from 1.

    Examples
    --------
    >>> spoken(("car", "tunnel", 2, "down 30", "left"))
    'car > tunnel > 3rd > down 30 > left'
    """
    return " > ".join(ordinal(step + 1) if isinstance(step, int) else step for step in path)


def ordinal(number: int) -> str:
    """Return 1st, 2nd, 3rd, 4th, 11th, 21st."""
    tens = number % 100
    ending = "th" if 10 < tens < 20 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")  # noqa: PLR2004  eleventh to nineteenth
    return f"{number}{ending}"


def quoted(text: str) -> str:
    """Return a text as found, cut where it runs long."""
    most = 60
    one_line = " ".join(text.split())
    return f'"{one_line}"' if len(one_line) <= most else f'"{one_line[:most]}..."'


class InputError(Exception):
    """The builder's file cannot be used: every fault, each with its line.

    Parameters
    ----------
    name : str
        The file's name.
    faults : tuple of Fault
        At least one.

    Examples
    --------
    >>> print(InputError("build.yaml", (Fault(3, ("unit",), '"cm"', "mm or in", "mm"),)))
    build.yaml cannot be used: 1 entry needs a look
      line 3, unit: found "cm"; expected mm or in, such as: mm
    """

    def __init__(self, name: str, faults: tuple[Fault, ...]) -> None:
        if not faults:
            raise ValueError("faults must not be empty, got ()")
        self.name = name
        self.faults = tuple(sorted(faults, key=lambda fault: fault.line))
        count = len(faults)
        entries = "1 entry needs a look" if count == 1 else f"{count} entries need a look"
        lines = [f"{name} cannot be used: {entries}"]
        lines += [f"  {fault}" for fault in self.faults[:MOST_SAID]]
        if count > MOST_SAID:
            lines.append(f"  and {count - MOST_SAID} more")
        super().__init__("\n".join(lines))
